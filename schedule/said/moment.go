package said

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// moment is one meaning of the words for a moment.
type moment struct {
	schedule.Moment
	to    int
	doubt string
	now   bool // said so
}

// atWords may stand before a date or a time of day.
var atWords = []string{"at", "on", "since", "from", "around", "about", "by", "for", "@", "~", "until", "till", "to"}

// skipAt passes over the words that may stand before a date or a time.
func (s *saying) skipAt(i int) (to int, skipped bool) {
	for to = i; slices.Contains(atWords, s.at(to)); to++ {
		skipped = true
	}
	return to, skipped
}

// momentsAt lists what the words from i on may mean as a moment.
func (s *saying) momentsAt(i int, t tense, in opening) []moment {
	from, at := s.skipAt(i)
	if m, to, ok := s.sinceNow(from, t); ok {
		return []moment{{Moment: m, to: to, now: s.at(to-1) == "now"}}
	}
	if d, to, ok := s.dayAt(from, t); ok {
		return s.dayFirst(d, to, t, in)
	}
	clocks, to := s.clocksAt(from)
	if clocks == nil {
		return nil
	}
	next, _ := s.skipAt(to)
	if d, end, ok := s.dayAt(next, t); ok {
		return s.g.moments(d, narrowed(clocks, d.half), t, in, end)
	}
	end := to == len(s.words) || s.at(to) == "," || s.at(to) == "."
	if clocks[0].bare && !at && (!end || figure(s.at(from-1)) >= 0) {
		return nil // a number, as is one after a number: "58 9"
	}
	return s.g.moments(day{}, clocks, t, in, to)
}

// dayFirst lists what a day and the time of day that may follow it mean.
func (s *saying) dayFirst(d day, to int, t tense, in opening) []moment {
	next := to
	if s.are(next, ",") {
		next++
	}
	next, _ = s.skipAt(next)
	if clocks, end := s.clocksAt(next); clocks != nil && !s.isCount(next, end) {
		return s.g.moments(d, narrowed(clocks, d.half), t, in, end)
	}
	return undated(d, in, to)
}

// isCount says whether the words from i on are the number of a length, and no time of day.
func (s *saying) isCount(i, to int) bool {
	_, end, ok := s.lengthAt(i)
	return ok && end > to
}

// sinceNow reads "now", "an hour ago", "in 20 minutes".
func (s *saying) sinceNow(i int, t tense) (m schedule.Moment, to int, ok bool) {
	switch {
	case s.are(i, "now"):
		return s.g.said(s.g.Now), i + 1, true
	case s.are(i, "just", "now"), s.are(i, "right", "now"):
		return s.g.said(s.g.Now), i + 2, true
	}
	if l, to, ok := s.lengthAt(i); ok && s.are(to, "ago") && !l.inDays && t == past {
		return s.g.said(s.g.Now.Plus(-l.minutes)), to + 1, true
	}
	return schedule.Moment{}, i, false
}

// said is a moment as the clock of the site shows it.
func (g *Garden) said(t calendars.Instant) schedule.Moment {
	local := t.In(g.Plan.Site.Location)
	return schedule.Moment{Date: calendars.DateIn(t, g.Plan.Site.Location),
		Minute: calendars.Minutes(60*local.Hour() + local.Minute())}
}

// ahead is how far behind the clock here may be: clocks differ.
const ahead calendars.Minutes = 10

// noTime is the doubt about a date without its time of day.
const noTime = "say the time of day too"

// undated lists the dates of a day without its time of day, at the beginning of their hours.
func undated(d day, in opening, to int) []moment {
	var out []moment
	for _, date := range d.dates {
		from, _ := in(date)
		out = append(out, moment{Moment: schedule.Moment{Date: date, Minute: from}, to: to, doubt: noTime})
	}
	return out
}

// moments lists what a day and a time of day may mean together. A day without dates is
// one that wasn't said: today, if that can be.
func (g *Garden) moments(d day, clocks []clock, t tense, in opening, to int) []moment {
	var out []moment
	dates := d.dates
	if dates == nil {
		dates = []calendars.Date{g.today()}
	}
	for _, c := range clocks {
		for _, date := range dates {
			found := in.hours(date, c)
			if d.dates == nil && t != either {
				found = g.without(c, found, t, in)
			}
			for _, m := range found {
				m.to = to
				if m.doubt == "" {
					m.doubt = d.doubt
				}
				out = append(out, m)
			}
		}
	}
	return out
}

// inHours lists the meanings of a time on a date: of "4" that one which lies in the hours
// of the date, or both if neither does or both do.
func (in opening) hours(d calendars.Date, c clock) []moment {
	one, two := moment{Moment: schedule.Moment{Date: d, Minute: c.minute}}, moment{}
	if c.minute == calendars.Day {
		one.Moment = schedule.Moment{Date: d + 1}
	}
	if !c.open {
		return []moment{one}
	}
	two.Moment = schedule.Moment{Date: d, Minute: (c.minute + noon) % calendars.Day}
	from, till := in(d)
	holds := func(m calendars.Minutes) bool { return from <= m && m <= till }
	switch a, b := holds(one.Minute), holds(two.Minute); {
	case a && !b:
		return []moment{one}
	case b && !a:
		return []moment{two}
	}
	return []moment{one, two}
}

// without keeps those meanings of a time said without its date that can be: of the past
// what has been, to come what will be. Without any it is asked.
func (g *Garden) without(c clock, found []moment, t tense, in opening) []moment {
	now := g.said(g.Now.Plus(ahead))
	can := func(m moment) bool {
		before := m.Date < now.Date || m.Date == now.Date && m.Minute <= now.Minute
		return before == (t == past)
	}
	kept := slices.DeleteFunc(slices.Clone(found), func(m moment) bool { return !can(m) })
	if len(kept) > 0 {
		return kept
	}
	var out []moment
	why, by := "that time of today is still to come", calendars.Date(-1)
	if t == coming {
		why, by = "that time of today has passed", 1
	}
	all := []calendars.Minutes{c.minute}
	if c.open {
		all = append(all, c.minute+noon)
	}
	for _, minute := range all {
		today := moment{Moment: schedule.Moment{Date: g.today(), Minute: minute % calendars.Day}, doubt: why}
		if can(today) {
			out = append(out, today)
		}
	}
	for _, m := range in.hours(g.today()+by, c) {
		m.doubt = why
		out = append(out, m)
	}
	return out
}

// opening is from when to when a place is open on a date; the same twice when it isn't.
type opening func(calendars.Date) (from, to calendars.Minutes)

// opening is the hours in which something happens to things: those of the places off site
// where tasks are, or else of the site, for lorries of the gate too; of nothing in
// particular all of these.
func (g *Garden) opening(things []thing) opening {
	p := g.Plan
	var all []calendars.Hours
	gate := len(things) == 0
	for _, th := range things {
		gate = gate || th.kind == lorries
		if th.kind == tasks {
			all = append(all, g.offSite(p.Tasks[th.at].Zones)...)
		}
	}
	for i := range p.Zones {
		if len(things) == 0 {
			all = append(all, g.offSite([]schedule.ZoneID{schedule.ZoneID(i)})...)
		}
	}
	if gate || len(all) == 0 {
		all = append(all, g.onSite(p.Site.Hours))
	}
	if gate && p.Site.Gate != nil && p.Site.Gate.Hours != nil {
		all = append(all, g.onSite(*p.Site.Gate.Hours))
	}
	return widest(all)
}

// widest is from when to when any of several hours are.
func widest(all []calendars.Hours) opening {
	return func(d calendars.Date) (from, to calendars.Minutes) {
		from = calendars.Day
		for _, h := range all {
			for _, r := range rangesOn(h, d) {
				from, to = min(from, r.From), max(to, r.To)
			}
		}
		return min(from, to), to
	}
}

// offSite are the hours of those places that are off site.
func (g *Garden) offSite(zones []schedule.ZoneID) []calendars.Hours {
	var out []calendars.Hours
	for _, z := range zones {
		if g.Plan.Zones[z].OffSite {
			out = append(out, g.Plan.Zones[z].Hours)
		}
	}
	return out
}

// onSite are hours that public holidays close, but on dates that they name.
func (g *Garden) onSite(h calendars.Hours) calendars.Hours {
	var closed []calendars.DayHours
	for _, day := range g.Plan.Site.Holidays {
		if _, named := h.Named(day.On); !named && day.From == 0 {
			closed = append(closed, calendars.DayHours{On: day.On})
		}
	}
	return h.Over(closed, nil)
}

// rangesOn are the hours of a date.
func rangesOn(h calendars.Hours, d calendars.Date) []calendars.Range {
	if on, named := h.Named(d); named {
		return on.Ranges
	}
	return h.Weekly[d.Weekday()]
}
