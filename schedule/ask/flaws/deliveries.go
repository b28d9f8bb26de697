package flaws

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// deliveries warns of bookings that break a date whatever the crews do.
func (c *checker) deliveries() {
	for i := range c.Plan.Deliveries {
		d := schedule.DeliveryID(i)
		if c.Programme.Unloads[d].Start == calendars.Never {
			continue
		}
		if over, t := c.keptOver(c.Programme, d); over > 0 {
			c.keptTooLong(d, t, over)
			continue
		}
		c.tooLate(d)
	}
}

// keptOver returns by how much living stock is kept too long, and the task that is done
// too late for it.
func (c *checker) keptOver(g *schedule.Programme, d schedule.DeliveryID) (calendars.Minutes, schedule.TaskID) {
	most, task := calendars.Minutes(0), schedule.TaskID(schedule.None)
	for _, b := range g.Breaks {
		if b.Stock == d && calendars.Minutes(b.Actual-b.Limit) > most {
			most, task = calendars.Minutes(b.Actual-b.Limit), schedule.TaskID(b.Activity)
		}
	}
	return most, task
}

func (c *checker) keptTooLong(d schedule.DeliveryID, t schedule.TaskID, over calendars.Minutes) {
	hint := "no other booking meets its keep and the dates: let " + c.Plan.Tasks[t].ID +
		" be done sooner or order stock that keeps longer"
	if at := c.laterBooking(d, over); at != calendars.Never {
		hint = "book it for " + c.w.Moment(at)
	}
	c.warn(c.Plan.Deliveries[d].Pos, hint,
		"delivery %s is kept %s too long before %s is done %s, even with hands unlimited",
		c.Plan.Deliveries[d].ID, c.w.Clock(over), c.Plan.Tasks[t].ID, c.w.Moment(c.Programme.Tasks[t].Finish))
}

// mostBookings is how many later bookings are tried for a delivery. Each is later by
// what the stock was still kept too long.
const mostBookings = 16

// laterBooking returns the earliest arrival at which a delivery is used within its keep
// and in time for every date that hangs on it, or Never.
func (c *checker) laterBooking(d schedule.DeliveryID, over calendars.Minutes) calendars.Instant {
	gate, takes := c.Hours.Unload(&c.Plan.Deliveries[d]), c.Plan.Deliveries[d].Unload.Takes
	at := c.Plan.Deliveries[d].Arrives
	for range mostBookings {
		if at = gate.Next(at.Plus(over)); takes > 0 {
			at = gate.Fit(at, takes)
		}
		if at == calendars.Never || at.Plus(takes) > c.Plan.Site.Handover {
			return calendars.Never
		}
		g := c.s.Rebook(c.Plan.Rebooked(d, at)).Logic().Programme
		if over, _ = c.keptOver(g, d); over > 0 {
			continue
		}
		if !c.holdsFrom(d, at) {
			return calendars.Never
		}
		return at
	}
	return calendars.Never
}

// holdsFrom says whether a delivery that is booked for a moment comes in time for every
// date that hangs on it, is used within its keep, and breaks no further date.
func (c *checker) holdsFrom(d schedule.DeliveryID, at calendars.Instant) bool {
	g := c.s.Rebook(c.Plan.Rebooked(d, at)).Logic().Programme
	over, _ := c.keptOver(g, d)
	return over == 0 && g.Unloads[d].LateStart >= at && !c.breaksMore(g)
}

// breaksMore says whether a programme breaks a date that the plan's own keeps.
func (c *checker) breaksMore(g *schedule.Programme) bool {
	held := make(map[schedule.Break]bool)
	key := func(b schedule.Break) schedule.Break {
		return schedule.Break{Kind: b.Kind, Activity: b.Activity, Stock: b.Stock}
	}
	for _, b := range c.Programme.Breaks {
		held[key(b)] = true
	}
	for _, b := range g.Breaks {
		if !held[key(b)] {
			return true
		}
	}
	return false
}

// tooLate warns of a lorry that comes too late for its load to be unloaded in time for
// every date.
func (c *checker) tooLate(d schedule.DeliveryID) {
	late, u := c.Programme.Unloads[d].LateStart, &c.Plan.Deliveries[d]
	if u.Out || late >= u.Arrives || len(c.Plan.Users(d)) == 0 {
		return
	}
	users := c.ids(c.Plan.Users(d))
	if late < c.Plan.Site.Opens {
		c.warn(u.Pos, "let less follow it, or what follows take less time",
			"delivery %s comes too late for %s to hold its dates, and would even on the first day", u.ID, users)
		return
	}
	hint := "no other booking helps alone: let less follow it, or what follows take less time"
	if c.holdsFrom(d, late) {
		hint = "book it for " + c.w.Moment(late)
	}
	c.warn(u.Pos, hint,
		"delivery %s arrives %s, %s after the last moment at which %s can hold its dates", u.ID, c.w.Moment(u.Arrives),
		c.w.Clock(calendars.Minutes(u.Arrives-late)), users)
}
