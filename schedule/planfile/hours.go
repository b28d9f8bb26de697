package planfile

import (
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/planfile/keys"
)

// weekly reads hours by weekday; ok is false when they are missing or faulty.
func (r *reader) weekly(n *yaml.Node, of label) (calendars.WeekHours, bool) {
	var week calendars.WeekHours
	if !r.isKind(n, yaml.MappingNode, of) {
		return week, false
	}
	var named [7]bool
	before := r.fatal
	for _, p := range r.entries(n, maxList, of) {
		ranges, _ := r.ranges(p[1], label{"hours of " + p[0].Value, of.of})
		days, err := calendars.ParseDays(p[0].Value)
		if err != nil {
			r.textFault(posOf(p[0]), of, err)
			continue
		}
		for _, d := range days {
			if named[d] {
				r.fault(posOf(p[0]), "name each day once", "%s: %q names %s a second time",
					of, p[0].Value, strings.ToLower(d.String()[:3]))
				break
			}
			named[d], week[d] = true, ranges
		}
	}
	return week, r.fatal == before
}

func (r *reader) ranges(n *yaml.Node, of label) ([]calendars.Range, bool) {
	s, ok := r.plain(n, of)
	if !ok {
		return nil, false
	}
	ranges, err := calendars.ParseRanges(s)
	if err != nil {
		r.textFault(posOf(n), of, err)
		return nil, false
	}
	return ranges, true
}

// hoursOn reads hours by date, sorted.
func (r *reader) hoursOn(n *yaml.Node, of label) []calendars.DayHours {
	var out []calendars.DayHours
	for _, p := range r.entries(n, maxList, of) {
		d, dated := r.date(p[0], of)
		ranges, ok := r.ranges(p[1], label{"hours on " + p[0].Value, of.of})
		if dated && ok {
			out = append(out, calendars.DayHours{On: d, Ranges: ranges})
			r.said(r.wholeDay(d), p[0], of)
		}
	}
	slices.SortFunc(out, func(a, b calendars.DayHours) int { return int(a.On) - int(b.On) })
	return out
}

// said keeps a time, which is checked against the window at the end. Hours of
// the site and its gate before the gate opens are of no use.
func (r *reader) said(span calendars.Span, n *yaml.Node, of label) {
	early := of.of != theSite && of.of != theGate
	r.slots = append(r.slots, saidSlot{span, n.Value, posOf(n), of, early})
}

// closures reads a list of closed spans.
func (r *reader) closures(n *yaml.Node, of label) []calendars.Closure {
	var out []calendars.Closure
	for _, entry := range r.list(n, of) {
		it, ok := r.item(entry, "an entry of "+of.String(), keys.Closure)
		if !ok {
			continue
		}
		why := it.words("why", maxText)
		if span, ok := it.fromTo(); ok {
			out = append(out, calendars.Closure{Span: span, Why: why})
		}
	}
	return out
}

// hours reads the keys hours, hours_on and closed of an item; weekly is false
// when there are no hours.
func (it *item) hours() (h calendars.Hours, weekly bool) {
	if it.has("hours") {
		h.Weekly, _ = it.r.weekly(it.get("hours"), it.of("hours"))
	}
	h.On = it.r.hoursOn(it.get("hours_on"), it.of("hours_on"))
	h.Closed = it.r.closures(it.get("closed"), it.of("closed"))
	return h, it.has("hours")
}

// never says whether hours have no opening at all.
func never(h calendars.Hours) bool {
	for _, day := range h.Weekly {
		if len(day) > 0 {
			return false
		}
	}
	for _, on := range h.On {
		if len(on.Ranges) > 0 {
			return false
		}
	}
	return true
}
