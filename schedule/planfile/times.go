package planfile

import (
	"fmt"
	"strings"

	"gopkg.in/yaml.v3"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// moment is a date and time on the site's clock; 0 when missing or faulty.
func (r *reader) moment(n *yaml.Node, of label) calendars.Instant {
	s, ok := r.plain(n, of)
	if !ok {
		return 0
	}
	return r.momentOf(s, posOf(n), of)
}

func (r *reader) momentOf(s string, at schedule.Pos, of label) calendars.Instant {
	d, m, err := calendars.ParseMoment(s)
	if err != nil {
		r.textFault(at, of, err)
		return 0
	}
	if r.plan.Site.Location == nil {
		return 0 // the fault lies in the time zone
	}
	t, clock := calendars.At(r.plan.Site.Location, d, m)
	if clock == calendars.Skipped {
		r.fault(at, "the clocks go forward then; give a time before or after", "%s: the clocks skip %s", of, quote(s))
		return 0
	}
	r.dates = append(r.dates, saidDate{t, s, at, of})
	return t
}

func (it *item) moment(key string) calendars.Instant { return it.r.moment(it.get(key), it.of(key)) }

// date is a civil date; ok is false when it is missing or faulty.
func (r *reader) date(n *yaml.Node, of label) (calendars.Date, bool) {
	s, ok := r.plain(n, of)
	if !ok {
		return 0, false
	}
	d, err := calendars.ParseDate(s)
	if err != nil {
		r.textFault(posOf(n), of, err)
		return 0, false
	}
	if loc := r.plan.Site.Location; loc != nil {
		t, _ := calendars.At(loc, d, calendars.Day/2)
		r.dates = append(r.dates, saidDate{t, s, posOf(n), of})
	}
	return d, true
}

// wholeDay is the span of a date on the site's clock.
func (r *reader) wholeDay(d calendars.Date) calendars.Span {
	loc := r.plan.Site.Location
	if loc == nil {
		return calendars.Span{}
	}
	from, _ := calendars.At(loc, d, 0)
	to, _ := calendars.At(loc, d, calendars.Day)
	return calendars.Span{Start: from, End: to}
}

// length parses a length of time by one of the readers of calendars.
func (r *reader) length(n *yaml.Node, parse func(string) (calendars.Minutes, error),
	of label) (calendars.Minutes, bool) {
	s, ok := r.plain(n, of)
	if !ok {
		return 0, false
	}
	m, err := parse(s)
	if err != nil {
		r.textFault(posOf(n), of, err)
		return 0, false
	}
	return m, true
}

// work is a length of working time; ok is false when missing or faulty.
func (it *item) work(key string) (calendars.Minutes, bool) {
	return it.r.length(it.get(key), calendars.ParseWork, it.of(key))
}

// wait is a length of time on the clock.
func (it *item) wait(key string) (calendars.Minutes, bool) {
	return it.r.length(it.get(key), calendars.ParseWait, it.of(key))
}

// span is "A to B".
func (r *reader) span(n *yaml.Node, of label) (calendars.Span, bool) {
	s, ok := r.plain(n, of)
	if !ok {
		return calendars.Span{}, false
	}
	from, to, found := strings.Cut(s, " to ")
	if !found {
		r.fault(posOf(n), "write like 2027-05-05 07:00 to 2027-05-05 12:00", "%s: %s is not a span of time", of, quote(s))
		return calendars.Span{}, false
	}
	at := posOf(n)
	end := at
	end.Column += len(from) + len(" to ")
	return r.ordered(r.momentOf(from, at, of), r.momentOf(to, end, of), at, s, of)
}

// ordered is the span of two moments that were read, when they are in order.
func (r *reader) ordered(from, to calendars.Instant, at schedule.Pos, text string, of label) (calendars.Span, bool) {
	if from == 0 || to == 0 {
		return calendars.Span{}, false
	}
	if to <= from {
		r.fault(at, "end it after it starts", "%s: %s ends before it starts", of, quote(text))
		return calendars.Span{}, false
	}
	return calendars.Span{Start: from, End: to}, true
}

// fromTo is the span of the keys from and to.
func (it *item) fromTo() (calendars.Span, bool) {
	it.require("from", "to")
	from, to := it.moment("from"), it.moment("to")
	if from == 0 || to == 0 {
		return calendars.Span{}, false
	}
	text := fmt.Sprintf("%s to %s", it.get("from").Value, it.get("to").Value)
	return it.r.ordered(from, to, posOf(it.get("from")), text, label{"", it.name})
}
