package tui

import (
	"fmt"

	"turflast/calendars"
	"turflast/schedule"
	"turflast/tui/deliveries"
)

// target is a plan to solve: the file's, with the trial bookings in force.
type target struct {
	filed  *schedule.Plan
	plan   *schedule.Plan
	trials []trial
}

// trial is one booking moved without touching the file.
type trial struct {
	delivery string // its id, which outlives a reload
	from, to calendars.Instant
}

// move adds a trial. A booking that is tried holds, though the plan says that it
// may be moved.
func (t target) move(d schedule.DeliveryID, to calendars.Instant) target {
	now := &t.plan.Deliveries[d]
	one := trial{now.ID, now.Arrives, to}
	t.trials = append(t.trials[:len(t.trials):len(t.trials)], one)
	t.plan = t.plan.Rebooked(d, to)
	t.plan.Deliveries[d].Movable = nil
	return t
}

// moved adds the trial that a key asks for, from a booking on.
func (t target) moved(m deliveries.Moved, from calendars.Instant) target {
	return t.move(m.Delivery, t.later(m, from))
}

// later is the arrival that a trial asks for.
func (t target) later(m deliveries.Moved, from calendars.Instant) calendars.Instant {
	at, loc := from.Plus(m.By), t.plan.Site.Location
	if m.Days == 0 {
		return at
	}
	date := calendars.DateIn(at, loc)
	wall := at.In(loc)
	at, _ = calendars.At(loc, date+m.Days, calendars.Minutes(wall.Hour()*60+wall.Minute()))
	return at
}

// booked is what a trial of a delivery starts from: the booking tried last, else
// the one that is shown, which may be the programme's.
func (a app) booked(d schedule.DeliveryID) calendars.Instant {
	if a.want.plan.Deliveries[d].Movable != nil {
		return a.garden.Programme.Unloads[d].Arrives
	}
	return a.want.plan.Deliveries[d].Arrives
}

// undo takes the newest trial back.
func (t target) undo() target {
	return t.reload(t.filed, t.trials[:len(t.trials)-1])
}

// reload puts trials on a plan as filed. Those of a delivery that is gone, or
// that the file now books otherwise, are dropped.
func (t target) reload(filed *schedule.Plan, trials []trial) target {
	out := target{filed: filed, plan: filed}
	for _, one := range trials {
		d := filed.FindDelivery(one.delivery)
		if d != schedule.None && out.plan.Deliveries[d].Arrives == one.from {
			out = out.move(d, one.to)
		}
	}
	return out
}

// trialled counts the bookings that differ from the file's.
func (t target) trialled() int {
	n := 0
	for d := range t.filed.Deliveries {
		if t.filed.Deliveries[d].Arrives != t.plan.Deliveries[d].Arrives {
			n++
		}
	}
	return n
}

// trialWords say what is only tried.
func (t target) trialWords() string {
	n := t.trialled()
	switch n {
	case 0:
		return ""
	case 1:
		return "Trial: 1 booking moved; the plan file is unchanged."
	}
	return fmt.Sprintf("Trial: %d bookings moved; the plan file is unchanged.", n)
}
