package whatif

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// ranges returns the hours of a date, cut where a public holiday closes it.
func (a *applying) ranges(h calendars.Hours, d calendars.Date) []calendars.Range {
	if on, named := h.Named(d); named {
		return on.Ranges
	}
	until := calendars.Day
	for _, holiday := range a.p.Site.Holidays {
		if holiday.On == d {
			until = min(until, holiday.From)
		}
	}
	var out []calendars.Range
	for _, r := range h.Weekly[d.Weekday()] {
		if r.To = min(r.To, until); r.From < r.To {
			out = append(out, r)
		}
	}
	return out
}

// longer returns the hours of all dates named, with those of the change's date made
// longer.
func (a *applying) longer(whose string, h calendars.Hours) []calendars.DayHours {
	d := a.c.Dates[0]
	t, _ := calendars.At(a.p.Site.Location, d, 0)
	a.near(t)
	was := a.ranges(h, d)
	add := calendars.Range{From: a.c.From, To: a.c.To}
	if a.c.From == schedule.Unsaid || a.c.To == schedule.Unsaid {
		if len(was) == 0 {
			a.fail(a.c.Columns.When, "say both ends, like 09:00 to 15:00", "no hours of %s lie on %s", whose, d)
			return nil
		}
		if a.c.From == schedule.Unsaid {
			add.From = was[len(was)-1].To
		} else {
			add.To = was[0].From
		}
	}
	if add.From >= add.To {
		a.fail(a.c.Columns.When, "", "that is no longer than the hours of %s on %s: %s",
			whose, d, calendars.FormatRanges(was))
		return nil
	}
	on := slices.Clone(h.On)
	now := calendars.DayHours{On: d, Ranges: union(append(slices.Clone(was), add))}
	k, named := slices.BinarySearchFunc(on, d, func(o calendars.DayHours, d calendars.Date) int { return int(o.On - d) })
	if named {
		on[k] = now
		return on
	}
	return slices.Insert(on, k, now)
}

// union joins ranges that touch or overlap.
func union(ranges []calendars.Range) []calendars.Range {
	slices.SortFunc(ranges, func(a, b calendars.Range) int { return int(a.From - b.From) })
	out := ranges[:1]
	for _, r := range ranges[1:] {
		if last := &out[len(out)-1]; r.From <= last.To {
			last.To = max(last.To, r.To)
		} else {
			out = append(out, r)
		}
	}
	return out
}

// hours returns the hours of the site or the gate, to be changed.
func (a *applying) hours() *calendars.Hours {
	if a.c.Name == schedule.SiteHours {
		return &a.p.Site.Hours
	}
	g := a.p.Site.Gate
	if g == nil || g.Hours == nil {
		a.fail(a.c.Columns.Name, "change the site's", "the gate keeps the site's hours")
		return nil
	}
	own, hours := *g, *g.Hours
	own.Hours, a.p.Site.Gate = &hours, &own
	return &hours
}

// open makes the hours of the site or the gate longer.
func (a *applying) open() {
	h := a.hours()
	if a.fault != nil {
		return
	}
	if h.On = a.longer("the "+a.c.Name, *h); a.fault == nil && a.c.Name == schedule.SiteHours {
		a.useUp()
	}
}

// useUp removes the measures that would buy hours in which the site is open
// now.
func (a *applying) useUp() {
	d := a.c.Dates[0]
	day, _ := a.p.Site.Hours.Named(d)
	end := day.Ranges[len(day.Ranges)-1].To
	a.p.Measures = slices.DeleteFunc(slices.Clone(a.p.Measures), func(m schedule.Measure) bool {
		return m.Longer != nil && m.Longer.On == d && m.Longer.To <= end
	})
}

// work makes a crew's hours longer.
func (a *applying) work() {
	_, i := a.find(crew)
	if a.fault != nil {
		return
	}
	a.p.Crews = slices.Clone(a.p.Crews)
	c := &a.p.Crews[i]
	if c.Hours != nil {
		hours := *c.Hours
		hours.On = a.longer(c.Name, hours)
		c.Hours = &hours
		return
	}
	on := a.longer(c.Name, a.p.Site.Hours.Over(c.HoursOn, nil))
	if a.fault != nil {
		return
	}
	// Of the dates that the site names too, only the crew's own stay with the crew.
	d := a.c.Dates[0]
	own := calendars.Hours{On: c.HoursOn}
	c.HoursOn = slices.DeleteFunc(on, func(o calendars.DayHours) bool {
		_, named := own.Named(o.On)
		return !named && o.On != d
	})
}

// close closes the site or the gate for a time.
func (a *applying) close() {
	h, spans := a.hours(), a.spans()
	if a.fault != nil {
		return
	}
	h.Closed = slices.Clone(h.Closed)
	for _, s := range spans {
		h.Closed = append(h.Closed, calendars.Closure{Span: s, Why: "what if"})
	}
}

// closure moves a closure of the site or the gate.
func (a *applying) closure() {
	h := a.hours()
	if a.fault != nil {
		return
	}
	loc, found := a.p.Site.Location, -1
	for i, shut := range h.Closed {
		start := shut.Span.Start
		local := start.In(loc)
		minute := calendars.Minutes(60*local.Hour() + local.Minute())
		if calendars.DateIn(start, loc) != a.c.Dates[0] || a.c.From != schedule.Unsaid && minute != a.c.From {
			continue
		}
		if found >= 0 {
			a.fail(a.c.Columns.When, "say when it begins, like "+schedule.Moment{Date: a.c.Dates[0], Minute: minute}.String(),
				"the %s has several closures that begin on %s", a.c.Name, a.c.Dates[0])
			return
		}
		found = i
	}
	if found < 0 {
		a.fail(a.c.Columns.When, "", "the %s has no closure that begins then", a.c.Name)
		return
	}
	h.Closed = slices.Clone(h.Closed)
	s := &h.Closed[found].Span
	*s = calendars.Span{Start: a.said(s.Start.Plus(a.c.Length)), End: a.said(s.End.Plus(a.c.Length))}
	if s.End <= s.Start {
		a.fail(a.c.Columns.Amount, "move it by another length", "the clocks change in it")
	}
}
