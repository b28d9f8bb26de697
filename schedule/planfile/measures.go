package planfile

import (
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/planfile/keys"
)

// kindsOfMeasure are the keys of which a measure has exactly one, each with the
// keys that go with it.
var kindsOfMeasure = []struct {
	key  string
	with []string
}{
	{"longer", nil},
	{"people", []string{"on"}},
	{"machine", []string{"span"}},
	{"earlier", []string{"by"}},
	{"overlap", []string{"by"}},
	{"drop", nil},
}

func (r *reader) readMeasures(n *yaml.Node) {
	for _, entry := range r.list(n, label{"measures", ""}) {
		it, ok := r.item(entry, "a measure", keys.Measure)
		if !ok {
			continue
		}
		r.plan.Measures = append(r.plan.Measures, r.readMeasure(&it))
	}
}

func (r *reader) readMeasure(it *item) schedule.Measure {
	m := schedule.Measure{Drop: schedule.None, Pos: it.at}
	it.required()
	m.Cost = max(it.money("cost"), 0)
	if it.has("why") {
		m.Why = it.words("why", maxText)
	}
	kind := -1
	var said, keys []string
	for k, c := range kindsOfMeasure {
		keys = append(keys, c.key)
		if it.has(c.key) {
			kind, said = k, append(said, c.key)
		}
	}
	if len(said) != 1 {
		text := "a measure says nothing to buy"
		if len(said) > 1 {
			text = "a measure says several things: " + strings.Join(said, ", ")
		}
		r.fault(it.at, "give exactly one of "+strings.Join(keys, ", "), "%s", text)
		return m
	}
	with := kindsOfMeasure[kind].with
	it.require(with...)
	for _, key := range [...]string{"on", "span", "by"} {
		if len(with) == 0 || with[0] != key {
			it.refuse("it does not go with "+said[0], key)
		}
	}
	r.readBought(it, said[0], &m)
	return m
}

// readBought reads what a measure of one kind buys.
func (r *reader) readBought(it *item, kind string, m *schedule.Measure) {
	switch kind {
	case "longer":
		m.Longer = r.readLonger(it)
	case "people":
		m.People = &schedule.MorePeople{Crew: r.moreCrew(it)}
		m.People.On = r.buyDates(it)
	case "machine":
		k, _ := r.find(r.machines, it.get("machine"), it.of("machine"))
		span, ok := r.span(it.get("span"), it.of("span"))
		if ok {
			r.said(span, it.get("span"), it.of("span"))
		}
		m.Machine = &schedule.MachineSlot{Machine: schedule.MachineID(k), Span: span}
	case "earlier":
		d, _ := r.find(r.deliveries, it.get("earlier"), it.of("earlier"))
		m.Earlier = &schedule.EarlierDelivery{Delivery: schedule.DeliveryID(d)}
		if by, ok := it.wait("by"); ok {
			m.Earlier.By = by
			r.zeroLength(it.get("by"), it.of("by"))
		}
	case "overlap":
		m.Overlap = r.readOverlap(it)
	case "drop":
		if t, ok := r.findTask(it.get("drop"), it.of("drop")); ok {
			m.Drop = schedule.TaskID(t)
		}
	}
}

// moreCrew reads people to add; they may be more than there are.
func (r *reader) moreCrew(it *item) []schedule.CrewNeed {
	var out []schedule.CrewNeed
	of := it.of("people")
	for _, p := range r.entries(it.get("people"), maxList, of) {
		id, known := r.findText(r.crews, p[0].Value, posOf(p[0]), of)
		n := r.count(p[1], 1, label{"people of " + p[0].Value, of.of})
		if known && n > 0 {
			out = append(out, schedule.CrewNeed{Crew: schedule.CrewID(id), Least: n, Most: n})
		}
	}
	return out
}

// buyDates reads the dates on which people are added.
func (r *reader) buyDates(it *item) []calendars.Date {
	var out []calendars.Date
	of := it.of("on")
	for _, entry := range r.filled(it.get("on"), "give at least one date", of) {
		d, ok := r.date(entry, of)
		switch {
		case !ok:
		case slices.Contains(out, d):
			r.twice(entry, of)
		default:
			out = append(out, d)
			r.said(r.wholeDay(d), entry, of)
		}
	}
	return out
}

func (r *reader) readLonger(owner *item) *schedule.LongerHours {
	it, ok := r.item(owner.get("longer"), "longer of a measure", keys.Longer)
	if !ok {
		return nil
	}
	it.required()
	l := &schedule.LongerHours{}
	d, dated := r.date(it.get("on"), it.of("on"))
	if l.On = d; dated {
		r.said(r.wholeDay(d), it.get("on"), it.of("on"))
	}
	s, ok := r.plain(it.get("to"), it.of("to"))
	if !ok {
		return l
	}
	to, err := calendars.ParseEnd(s)
	if err != nil {
		r.textFault(posOf(it.get("to")), it.of("to"), err)
		return l
	}
	l.To = to
	if ranges := r.siteRanges(d); dated && len(ranges) > 0 && to <= ranges[len(ranges)-1].To {
		r.fault(posOf(it.get("to")), "give a later end", "%s: the site is open to %s then anyway", it.of("to"),
			calendars.FormatClock(ranges[len(ranges)-1].To))
	}
	return l
}

// siteRanges are the site's hours on a date.
func (r *reader) siteRanges(d calendars.Date) []calendars.Range {
	h := r.plan.Site.Hours
	if on, named := h.Named(d); named {
		return on.Ranges
	}
	for _, holiday := range r.plan.Site.Holidays {
		if holiday.On == d {
			return nil
		}
	}
	return h.Weekly[d.Weekday()]
}

func (r *reader) readOverlap(it *item) *schedule.Overlap {
	of := it.of("overlap")
	o := &schedule.Overlap{First: schedule.None, Second: schedule.None}
	if by, ok := it.work("by"); ok {
		o.By = by
		r.zeroLength(it.get("by"), it.of("by"))
	}
	n := it.get("overlap")
	if !r.isKind(n, yaml.SequenceNode, of) {
		return o
	}
	if len(n.Content) != 2 {
		r.fault(posOf(n), "write the earlier task and the later one", "%s names %d, not two tasks", of, len(n.Content))
		return o
	}
	first, ok := r.findTask(n.Content[0], of)
	second, also := r.findTask(n.Content[1], of)
	if ok && also && first == second {
		r.fault(posOf(n), "write the earlier task and the later one", "%s names one task twice", of)
	}
	o.First, o.Second = schedule.TaskID(first), schedule.TaskID(second)
	return o
}
