package trials

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Move moves a delivery from where On has it: by some minutes on the clock, and by whole
// days at the same time of day.
func (s Set) Move(on On, by calendars.Minutes, days calendars.Date) (next Set, why string) {
	d, _ := on.Plan.Delivery(on.Activity)
	b := &on.Plan.Deliveries[d]
	if on.Plan.Arrived(d) {
		return s, "That lorry has come."
	}
	loc := on.Plan.Site.Location
	to := later(on, by, days)
	c := change(schedule.ChangeShift, b.ID, calendars.Minutes(to-b.Arrives))
	if c.Length == 0 {
		// A shift by nothing: it is booked for this time instead, so that it is no
		// longer movable.
		c.Kind, c.At = schedule.ChangeBook, schedule.Moment{Date: calendars.DateIn(to, loc), Minute: clock(to, on.Plan)}
	}
	return s.Step(c), ""
}

// later returns the moment at a distance from where a delivery is.
func later(on On, by calendars.Minutes, days calendars.Date) calendars.Instant {
	at, loc := on.Booked.Plus(by), on.Plan.Site.Location
	if days == 0 {
		return at
	}
	at, _ = calendars.At(loc, calendars.DateIn(at, loc)+days, clock(at, on.Plan))
	return at
}

// clock returns the minute of the day of a moment at the site.
func clock(t calendars.Instant, p *schedule.Plan) calendars.Minutes {
	at := t.In(p.Site.Location)
	return calendars.Minutes(60*at.Hour() + at.Minute())
}
