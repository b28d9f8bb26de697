package mend

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// more is how much longer a crew works, a place is open or a slot lasts.
const more = calendars.Hour

// until is the end of a date, or the line: what is made up after that is nobody's to change.
func (l *lister) until(d calendars.Date) calendars.Instant {
	return min(l.at(d, calendars.Day), l.Plan.Site.Handover)
}

// stretch is the time from the first opening of a date to the end of its last, before the
// line.
func (l *lister) stretch(c *calendars.Calendar, d calendars.Date) (s calendars.Span, ok bool) {
	for o := range c.Openings(l.at(d, 0), l.until(d)) {
		if !ok {
			s.Start, ok = o.Start, true
		}
		s.End = o.End
	}
	return s, ok
}

// around lists the hour before and the hour after a stretch of a date, as far as they
// lie on that date, ahead.
func (l *lister) around(s calendars.Span, d calendars.Date) (out []calendars.Span) {
	day := calendars.Span{Start: l.at(d, 0), End: l.at(d, calendars.Day)}
	before := calendars.Span{Start: s.Start.Plus(-more), End: s.Start}
	after := calendars.Span{Start: s.End, End: s.End.Plus(more)}
	for _, h := range [...]calendars.Span{after, before} {
		if l.ahead(h) && h.Start >= day.Start && h.End <= day.End {
			out = append(out, h)
		}
	}
	return out
}

// longer is the change that makes hours of a date reach over an hour before or after s.
func (l *lister) longer(kind schedule.ChangeKind, name string, d calendars.Date,
	s, hour calendars.Span) schedule.Change {
	c := schedule.Change{
		Kind: kind, Name: name, Dates: []calendars.Date{d}, From: schedule.Unsaid, To: schedule.Unsaid,
	}
	if hour.Start == s.End {
		c.To = l.minute(hour.End, d)
	} else {
		c.From = l.minute(hour.Start, d)
	}
	return c
}

// crews lists an hour more and one head more of each crew on a date.
func (l *lister) crews(d calendars.Date) {
	site, open := l.stretch(l.Hours.Site, d)
	for i := range l.Plan.Crews {
		c, crew := schedule.CrewID(i), &l.Plan.Crews[i]
		if d < l.needed(c) {
			continue
		}
		on := l.trail.crews[crewDay{c, d}]
		s, there := l.stretch(l.Hours.AtWork(c, 1), d)
		if there {
			l.crewHours(c, d, s, on)
		} else {
			s = site
		}
		if there || open && l.ahead(calendars.Span{Start: s.Start, End: s.Start + 1}) {
			hours := l.Hours.AtWork(c, 1).Between(l.at(d, 0), l.at(d, calendars.Day))
			l.add(Act{Cost: crew.Rate.For(hours)}, on, schedule.Change{
				Kind: schedule.ChangeHeads, Name: crew.ID, Heads: 1, Dates: []calendars.Date{d},
			})
		}
	}
}

// crewHours lists an hour more of a crew on a date on which it is at work for a stretch.
func (l *lister) crewHours(c schedule.CrewID, d calendars.Date, s calendars.Span, on bool) {
	crew := &l.Plan.Crews[c]
	site, open := l.stretch(l.Hours.Site, d)
	for _, h := range l.around(s, d) {
		cost := crew.Rate * schedule.Money(l.Hours.Crews[c].At(s.Start))
		work := l.longer(schedule.ChangeWork, crew.ID, d, s, h)
		l.add(Act{Cost: cost}, on, work)
		own, beside := crew.Hours != nil && open, l.beside(site, h)
		if own && (h.End > site.End || h.Start < site.Start) && beside.Minutes() <= more {
			// Alone it opens less than an hour on the plot.
			wide := l.longer(schedule.ChangeOpen, schedule.SiteHours, d, site, beside)
			l.add(Act{Cost: cost, Ask: true}, on, wide, work)
		}
	}
}

// beside is the part of an hour that lies before or after the site's stretch, joined to
// it.
func (l *lister) beside(site, h calendars.Span) calendars.Span {
	if h.End > site.End {
		return calendars.Span{Start: site.End, End: h.End}
	}
	return calendars.Span{Start: h.Start, End: site.Start}
}

// needed is the first date on which a crew has work that isn't over; one after all dates
// when it has none.
func (l *lister) needed(c schedule.CrewID) calendars.Date {
	first := l.date(l.Plan.Site.Handover) + 1
	for a := range l.Plan.Activities() {
		d := l.Programme.Of(a)
		if !needs(l.Plan, a, c) || l.Plan.Over(a) || l.Programme.LeavesOut(a) {
			continue
		}
		from := max(l.Plan.Site.Opens, l.Plan.Now())
		if d.Start.IsReal() {
			from = d.Start
		}
		first = min(first, l.date(from))
	}
	return first
}

// places lists an hour more of the site and of the gate on a date, which others have to
// grant.
func (l *lister) places(d calendars.Date) {
	ask := Act{Ask: true}
	if s, ok := l.stretch(l.Hours.Site, d); ok {
		for _, h := range l.around(s, d) {
			l.add(ask, l.trail.days[d], l.longer(schedule.ChangeOpen, schedule.SiteHours, d, s, h))
		}
	}
	if g := l.Plan.Site.Gate; g == nil || g.Hours == nil {
		return
	}
	for o := range l.Hours.Gate.Openings(l.at(d, 0), l.at(d, calendars.Day)) {
		for _, h := range l.around(o, d) {
			l.add(ask, l.trail.gate[d], schedule.Change{
				Kind: schedule.ChangeOpen, Name: schedule.GateHours, Dates: []calendars.Date{d},
				From: l.minute(h.Start, d), To: l.minute(h.End, d),
			})
		}
	}
}

// slots lists an hour more around each slot of a machine on a date, or else a day more.
func (l *lister) slots(d calendars.Date) {
	for i := range l.Plan.Machines {
		m := &l.Plan.Machines[i]
		if len(m.Ours) == 0 {
			continue
		}
		on, there := l.trail.machines[machineDay{schedule.MachineID(i), d}], false
		for s := range l.Hours.There(schedule.MachineID(i), 1).Openings(l.at(d, 0), l.until(d)) {
			there = true
			for _, h := range l.around(s, d) {
				l.slot(m, h, on)
			}
		}
		s, open := l.stretch(l.Hours.Site, d)
		if open && !there && l.ahead(calendars.Span{Start: s.Start, End: s.Start + 1}) {
			s.End = min(s.End, l.Plan.Site.Handover)
			l.slot(m, s, on)
		}
	}
}

func (l *lister) slot(m *schedule.Machine, s calendars.Span, on bool) {
	l.add(Act{Cost: m.Rate.For(s.Minutes())}, on, schedule.Change{
		Kind: schedule.ChangeSlot, Name: m.ID,
		Span: [2]schedule.Moment{momentOf(l.Plan, s.Start), momentOf(l.Plan, s.End)},
	})
}

// appointments lists, for each task that waits for one, an appointment as soon as its
// work is finished.
func (l *lister) appointments() {
	for i := range l.Plan.Tasks {
		t, d := &l.Plan.Tasks[i], &l.Programme.Tasks[i]
		if t.Hold == nil || len(t.Hold.Appointments) == 0 || d.Dropped || !d.Finish.IsReal() {
			continue
		}
		at := l.Hours.Site.Next(max(quarter(d.Finish), quarter(l.Plan.Now())))
		if at >= l.Plan.Site.Handover || d.Signed.IsReal() && at.Plus(t.Hold.Takes) >= d.Signed {
			continue
		}
		l.add(Act{}, l.trail.seen[schedule.Activity(i)], schedule.Change{
			Kind: schedule.ChangeSign, Name: t.ID, At: momentOf(l.Plan, at),
		})
	}
}

// quarter is the next full quarter of an hour, for appointments that people can keep.
func quarter(t calendars.Instant) calendars.Instant {
	if !t.IsReal() {
		return t
	}
	const step = 15
	return t.Plus((step - calendars.Minutes(t%step)) % step)
}
