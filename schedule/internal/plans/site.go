package plans

import (
	"fmt"
	"slices"
	"time"

	"build.example/turflast/calendars"
	"build.example/turflast/calendars/zones"
	"build.example/turflast/schedule"
)

// place is a time zone and dates on which a window may open: an ordinary one,
// and days before the clocks change.
type place struct {
	zone string
	days []calendars.Date
}

func places() []place {
	d := calendars.DateOf
	return []place{
		{"Europe/London", []calendars.Date{d(2027, 4, 30), d(2027, 6, 7), d(2027, 3, 26), d(2027, 10, 29)}},
		{"Australia/Melbourne", []calendars.Date{d(2027, 3, 24), d(2027, 4, 2), d(2027, 10, 1)}},
		{"America/New_York", []calendars.Date{d(2027, 5, 17), d(2027, 3, 12), d(2027, 11, 5)}},
		{"Australia/Lord_Howe", []calendars.Date{d(2027, 4, 2)}},
	}
}

func (m *maker) window() {
	at := pick(m, places())
	loc, err := zones.Load(at.zone)
	if err != nil {
		panic(fmt.Sprintf("plans: %v", err))
	}
	s := &m.p.Site
	s.Location = loc
	m.first, m.days = pick(m, at.days), m.in(3, 9)
	s.Opens = m.when(0, 7*60)
	s.Handover = m.when(m.days-1, m.minutes(11*60, 18*60))
	if m.chance(30) {
		s.Aim = s.Handover.Plus(-m.minutes(60, 300))
	}
	for range m.in(0, 3) / 2 {
		day := m.first + calendars.Date(m.in(0, m.days))
		if !slices.ContainsFunc(s.Holidays, func(h schedule.Holiday) bool { return h.On == day }) {
			s.Holidays = append(s.Holidays, schedule.Holiday{On: day, Name: "show preview"})
		}
	}
	slices.SortFunc(s.Holidays, func(a, b schedule.Holiday) int { return int(a.On) - int(b.On) })
	if m.chance(15) {
		s.Wet = &schedule.WetDays{AfterDry: 0.25, AfterWet: 0.5, Dries: 120}
	}
}

// ranges are the hours of a day.
func (m *maker) ranges() []calendars.Range {
	return pick(m, [][]calendars.Range{
		{{From: 7 * 60, To: 12 * 60}, {From: 12*60 + 30, To: 18 * 60}},
		{{From: 7 * 60, To: 17 * 60}},
		{{From: 8 * 60, To: 12 * 60}, {From: 13 * 60, To: 17*60 + 30}},
		{{From: 6*60 + 30, To: 15 * 60}, {From: 15 * 60, To: 19 * 60}},
	})
}

func (m *maker) week() calendars.WeekHours {
	day := m.ranges()
	w := calendars.WeekHours{time.Monday: day, time.Tuesday: day,
		time.Wednesday: day, time.Thursday: day, time.Friday: day}
	if m.chance(75) {
		w[time.Saturday] = []calendars.Range{{From: 8 * 60, To: 14 * 60}}
	}
	switch {
	case m.chance(30):
		w[time.Sunday] = []calendars.Range{{From: 9 * 60, To: 13 * 60}}
	case m.chance(8): // round the clock, over the hour that the clocks change
		for d := range w {
			w[d] = []calendars.Range{{From: 0, To: 4 * 60}, {From: 7 * 60, To: 18 * 60}, {From: 22 * 60, To: 24 * 60}}
		}
	case m.chance(8): // from an hour that may not exist or come twice
		for d := range w {
			w[d] = []calendars.Range{{From: 60 + 30, To: 2*60 + 15}, {From: 7 * 60, To: 18 * 60}}
		}
	}
	return w
}

// named are hours of one or two dates, at times a holiday, at times closed.
func (m *maker) named(percent int) []calendars.DayHours {
	if !m.chance(percent) {
		return nil
	}
	on := m.first + calendars.Date(m.in(0, m.days-1))
	if h := m.p.Site.Holidays; len(h) > 0 && m.chance(50) {
		on = h[0].On
	}
	ranges := []calendars.Range{{From: 9 * 60, To: 15 * 60}}
	if m.chance(20) {
		ranges = nil
	}
	return []calendars.DayHours{{On: on, Ranges: ranges}}
}

func (m *maker) closures(percent int) []calendars.Closure {
	if !m.chance(percent) {
		return nil
	}
	span := m.span(60, 300)
	return []calendars.Closure{{Span: span, Why: "show inspection"}}
}

// span is a stretch of a day of the window.
func (m *maker) span(least, most calendars.Minutes) calendars.Span {
	from := m.when(m.in(0, m.days-1), m.minutes(7*60, 14*60))
	return calendars.Span{Start: from, End: from.Plus(m.minutes(least, most))}
}

func (m *maker) siteHours() {
	s := &m.p.Site
	s.Hours = calendars.Hours{Weekly: m.week(), On: m.named(25), Closed: m.closures(20)}
	if m.chance(40) {
		day := []calendars.Range{{From: 8 * 60, To: 16 * 60}}
		s.Loud = &calendars.WeekHours{time.Monday: day, time.Tuesday: day,
			time.Wednesday: day, time.Thursday: day, time.Friday: day,
			time.Saturday: {{From: 9 * 60, To: 13 * 60}}}
	}
}

func (m *maker) gate() {
	if !m.chance(75) {
		return
	}
	g := &schedule.Gate{AtOnce: m.in(1, 2)}
	if m.chance(65) {
		day := []calendars.Range{{From: 6*60 + 30, To: 10 * 60}, {From: 13 * 60, To: 16 * 60}}
		h := &calendars.Hours{On: m.named(15), Closed: m.closures(20)}
		for d := range h.Weekly {
			if d != int(time.Sunday) {
				h.Weekly[d] = day
			}
		}
		g.Hours = h
	}
	m.p.Site.Gate = g
}

// zones are one to four in a row from the gate to the rear, and at times a yard.
func (m *maker) zones() {
	names := []string{"front", "lawn", "court", "rear"}
	for i := range m.in(1, 4) {
		z := schedule.Zone{ID: names[i], Name: names[i]}
		if m.chance(60) {
			z.People = m.in(4, 9)
		}
		if i > 0 && m.chance(80) {
			z.WayIn = []schedule.ZoneID{schedule.ZoneID(m.in(0, i-1))}
		}
		m.p.Zones = append(m.p.Zones, z)
	}
	if !m.chance(40) {
		return
	}
	day := []calendars.Range{{From: 8 * 60, To: 17 * 60}}
	yard := schedule.Zone{
		ID: "yard", Name: "Joiners' yard", OffSite: true,
		From: wall(m.p.Site.Location, m.first-calendars.Date(m.in(0, 9)), 8*60),
	}
	yard.Hours = calendars.Hours{
		On: m.named(20), Closed: m.closures(20),
		Weekly: calendars.WeekHours{time.Monday: day, time.Tuesday: day,
			time.Wednesday: day, time.Thursday: day, time.Friday: day},
	}
	m.p.Zones = append(m.p.Zones, yard)
}
