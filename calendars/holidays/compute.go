package holidays

import (
	"slices"
	"strings"
	"time"

	"github.com/rickar/cal/v2"

	"build.example/turflast/calendars"
)

const (
	computed  = "computed by rule, not checked against an official list"
	dayItself = "the day itself; the official list names the day given for it"
)

// found is a day as the rules give it, before days of the same date are merged.
type found struct {
	Day
	given bool // a further day for a holiday that falls on a weekend
}

// days lists a year. Holidays of the years beside it count too: the day given
// for a New Year's Day can lie in December.
func (r *region) days(year int) []Day {
	var all []found
	for y := year - 1; y <= year+1; y++ {
		for _, h := range r.base {
			all = r.library(all, h, y)
		}
		all = r.own(all, y)
	}
	all = slices.DeleteFunc(all, func(f found) bool {
		y, _, _ := f.On.Civil()
		return y != year
	})
	for i := range all {
		if year < First || year > Last {
			all[i].Provisional, all[i].Source = true, computed
		}
	}
	return merge(all)
}

// library adds what becomes of a holiday of the library in a year.
func (r *region) library(all []found, h *cal.Holiday, year int) []found {
	actual, ok := date(h, year)
	if !ok {
		return all
	}
	given := observed(h, actual)
	d := Day{Name: h.Name, Source: r.source}
	moves := false
	for i := range corrections {
		c := &corrections[i]
		if c.name != h.Name || !c.applies(r.code, year) {
			continue
		}
		switch c.do {
		case drop:
			return all
		case rename:
			d.Name = c.as
		case alone:
			given = actual
		case move:
			moves = actual.Weekday() == time.Sunday || actual.Weekday() == time.Saturday && !c.sundayOnly
		case doubt:
			d.Provisional, d.Source = true, c.source
		}
	}
	return r.put(all, d, actual, given, moves)
}

// observed is the day that the library gives for a holiday on its own day.
func observed(h *cal.Holiday, actual calendars.Date) calendars.Date {
	for _, o := range h.Observed {
		if o.Day == actual.Weekday() {
			return actual + calendars.Date(o.Offset)
		}
	}
	return actual
}

// own adds the days that the table of corrections has for a region in a year.
func (r *region) own(all []found, year int) []found {
	for i := range corrections {
		c := &corrections[i]
		if c.do != add || !c.applies(r.code, year) || c.on.year != 0 && c.on.year != year {
			continue
		}
		actual := c.on.date(year)
		given := actual + calendars.Date(c.given[actual.Weekday()])
		all = r.put(all, Day{From: c.from, Name: c.name, Source: c.source, Provisional: c.provisional}, actual, given, false)
	}
	return all
}

// put adds a holiday on its own date and on the one given for it, or only on
// the latter when it moves.
func (r *region) put(all []found, d Day, actual, given calendars.Date, moves bool) []found {
	if actual == given {
		d.On = actual
		return append(all, found{Day: d})
	}
	name := d.Name
	if moves {
		_, m, day := actual.Civil()
		d.On, d.Name = given, name+" (moved from "+time.Date(2000, m, day, 0, 0, 0, 0, time.UTC).Format("2 January")+")"
		return append(all, found{Day: d})
	}
	d.On, d.Name = given, name+" ("+r.given+")"
	all = append(all, found{Day: d, given: true})
	d.On, d.Name = actual, name
	if r.listsGiven {
		d.Source = dayItself
	}
	return append(all, found{Day: d})
}

// merge sorts days by date and makes those of one date one: a whole day before
// part of it, a holiday before a day given for another; the names of equals are
// joined.
func merge(all []found) []Day {
	slices.SortFunc(all, func(a, b found) int {
		if a.On != b.On {
			return int(a.On) - int(b.On)
		}
		if a.From != b.From {
			return int(a.From) - int(b.From)
		}
		if a.given != b.given {
			if a.given {
				return 1
			}
			return -1
		}
		return strings.Compare(a.Name, b.Name)
	})
	days := make([]Day, 0, len(all))
	given := false
	for _, f := range all {
		n := len(days)
		if n == 0 || days[n-1].On != f.On {
			days, given = append(days, f.Day), f.given
			continue
		}
		last := &days[n-1]
		last.Provisional = last.Provisional && f.Provisional
		if last.From == f.From && given == f.given && last.Name != f.Name {
			last.Name += ", " + f.Name
		}
	}
	return days
}

// date is the day on which a holiday falls by the library's rule, or false when
// it is not kept in the year. Two things in the library are worked around: a
// rule may write to its holiday, so it gets a copy; and it counts in the local
// time of the machine, where midnight may be skipped and the day before come
// out, so noon decides. Rules that give out answer with a date of another year.
func date(h *cal.Holiday, year int) (calendars.Date, bool) {
	if h.Func == nil || h.StartYear > 0 && year < h.StartYear || h.EndYear > 0 && year > h.EndYear ||
		slices.Contains(h.Except, year) {
		return 0, false
	}
	c := *h
	y, m, d := c.Func(&c, year).Add(12 * time.Hour).Date()
	if y != year {
		return 0, false
	}
	return calendars.DateOf(y, m, d+c.CalcOffset), true
}

// date is the date meant in a year.
func (w when) date(year int) calendars.Date {
	if w.month != 0 {
		return calendars.DateOf(year, w.month, w.day)
	}
	easter, _ := date(&cal.Holiday{Func: cal.CalcEasterOffset}, year)
	return easter + calendars.Date(w.day)
}

// applies says whether a correction is about a region in a year.
func (c *correction) applies(code string, year int) bool {
	if year < c.since || c.until != 0 && year > c.until {
		return false
	}
	for in := range strings.FieldsSeq(c.in) {
		if code == in || len(in) == 2 && strings.HasPrefix(code, in+"-") {
			return true
		}
	}
	return false
}
