package plans

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// ends makes a plan in which some of what is said of every week, or dated beyond the
// hand-over, is said of the days of the window alone, so that late work gets what is
// made up.
func (m *maker) ends() {
	if !m.chance(30) {
		return
	}
	p := m.p
	for i := range p.Machines {
		p.Machines[i].Ours = booked(p.Machines[i].Ours, func(s calendars.Span) bool { return s.Start < p.Site.Handover })
	}
	for i := range p.Tasks {
		if h := p.Tasks[i].Hold; h != nil {
			h.Appointments = booked(h.Appointments, func(t calendars.Instant) bool { return t < p.Site.Handover })
		}
	}
	m.endWeeks()
}

// endWeeks gives some of what is said of every week to the dates of the window alone.
func (m *maker) endWeeks() {
	p := m.p
	for i := range p.Crews {
		if m.chance(40) {
			m.datedHeads(&p.Crews[i])
		}
		if h := p.Crews[i].Hours; h != nil && m.chance(40) {
			m.datedHours(h)
		}
	}
	if m.chance(40) {
		m.datedHours(&p.Site.Hours)
	}
	if g := p.Site.Gate; g != nil && g.Hours != nil && m.chance(40) {
		m.datedHours(g.Hours)
	}
	for i := range p.Zones {
		if p.Zones[i].OffSite && m.chance(40) {
			m.datedHours(&p.Zones[i].Hours)
		}
	}
}

// booked keeps those of some bookings that lie before the hand-over, and one at
// least.
func booked[T any](all []T, before func(T) bool) []T {
	after := func(t T) bool { return !before(t) }
	if i := slices.IndexFunc(all, after); i > 0 {
		return all[:i]
	}
	return all
}

// dates are those from a week and a half before the opening to the hand-over.
func (m *maker) dates() (all []calendars.Date) {
	for d := m.first - 10; d <= calendars.DateIn(m.p.Site.Handover, m.p.Site.Location); d++ {
		all = append(all, d)
	}
	return all
}

// datedHeads gives each date its own headcount instead of one for every week: at
// times one fewer, but not on every third date, so that every need is met on some.
func (m *maker) datedHeads(c *schedule.Crew) {
	if c.People == 0 {
		return
	}
	for i, d := range m.dates() {
		fewer := m.in(0, 4) / 4
		if i%3 == 0 {
			fewer = 0
		}
		if !slices.ContainsFunc(c.PeopleOn, func(on schedule.PeopleOn) bool { return on.On == d }) {
			c.PeopleOn = append(c.PeopleOn, schedule.PeopleOn{On: d, People: c.People - fewer})
		}
	}
	slices.SortFunc(c.PeopleOn, func(a, b schedule.PeopleOn) int { return int(a.On) - int(b.On) })
	c.People = 0
}

// datedHours gives each date its own hours instead of a week's.
func (m *maker) datedHours(h *calendars.Hours) {
	var on []calendars.DayHours
	for _, d := range m.dates() {
		named, found := h.Named(d)
		switch ranges := h.Weekly[d.Weekday()]; {
		case found:
			on = append(on, named)
		case len(ranges) > 0:
			on = append(on, calendars.DayHours{On: d, Ranges: ranges})
		}
	}
	*h = calendars.Hours{On: on, Closed: h.Closed}
}
