package mend

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
)

// mostOpenings is how many openings of the gate before and after a booking are tried.
const mostOpenings = 4

// bookings lists other times for a delivery.
func (l *lister) bookings(d schedule.DeliveryID) {
	for _, at := range Bookings(l.Case, d) {
		a := bookedFor(l.Case, d, at)
		a.on = l.trail.seen[l.Plan.Unload(d)]
		l.acts = append(l.acts, a)
	}
}

// Elsewhen lists the lorries of a plan that come at another time than in an earlier plan of
// the garden, by a change or by its log.
func Elsewhen(before, after *schedule.Plan) (out []schedule.DeliveryID) {
	for d := range after.Deliveries {
		was := before.FindDelivery(after.Deliveries[d].ID)
		if was != schedule.None && before.Deliveries[was].Arrives != after.Deliveries[d].Arrives {
			out = append(out, schedule.DeliveryID(d))
		}
	}
	return out
}

// bookedFor is the act that books a delivery for another time.
func bookedFor(c network.Case, d schedule.DeliveryID, at calendars.Instant) Act {
	return Act{Measure: schedule.None, Changes: []schedule.Change{
		{Kind: schedule.ChangeBook, Name: c.Plan.Deliveries[d].ID, At: momentOf(c.Plan, at)},
	}}
}

// Bookings lists other times at which a delivery that hasn't come could be booked, the
// least move first. All lie in hours of the gate in which it can be unloaded at once, now
// or later, and are over before the hand-over: the ends of its movable range, the first
// and the last time in the openings around its booking, and the times that the programme
// itself asks for.
func Bookings(c network.Case, d schedule.DeliveryID) []calendars.Instant {
	v := &c.Plan.Deliveries[d]
	if c.Plan.Arrived(d) {
		return nil
	}
	b := &booking{gate: c.Hours.Unload(v), takes: v.Unload.Takes, now: c.Programme.Unloads[d].Arrives,
		from: max(c.Plan.Site.Opens, c.Plan.Now()), to: c.Plan.Site.Handover}
	if v.Movable != nil {
		b.consider(v.Movable.Earliest)
		b.consider(v.Movable.Latest)
	}
	b.openings()
	b.asked(c, d)
	slices.SortFunc(b.out, func(x, y calendars.Instant) int {
		return cmp.Or(cmp.Compare(max(x-b.now, b.now-x), max(y-b.now, b.now-y)), cmp.Compare(x, y))
	})
	return slices.Compact(b.out)
}

// booking collects times for one delivery.
type booking struct {
	gate     *calendars.Calendar // when it can be unloaded
	takes    calendars.Minutes
	now      calendars.Instant // as it is booked
	from, to calendars.Instant
	out      []calendars.Instant
}

// consider notes a time, if a lorry that comes then can be unloaded at once.
func (b *booking) consider(at calendars.Instant) {
	if at.IsReal() && at != b.now && at >= b.from && at.Plus(b.takes) <= b.to && b.fits(at) {
		b.out = append(b.out, at)
	}
}

func (b *booking) fits(at calendars.Instant) bool {
	if b.takes == 0 {
		return b.gate.IsOpen(at)
	}
	return b.gate.Fit(at, b.takes) == at
}

// openings notes the first and the last time in the openings around the booking.
func (b *booking) openings() {
	var all []calendars.Span
	before := 0
	for o := range b.gate.Openings(b.from, b.to) {
		if o.Minutes() < b.takes {
			continue
		}
		if all = append(all, o); o.Start < b.now {
			before++
		}
	}
	for _, o := range all[max(before-mostOpenings, 0):min(before+mostOpenings, len(all))] {
		b.consider(o.Start)
		b.consider(o.End.Plus(-max(b.takes, 1)))
	}
}

// asked notes the times that the programme asks for: later by what stock is kept too
// long or the lorry stands too long, when it is unloaded, and earlier by what the
// hand-over is late.
func (b *booking) asked(c network.Case, d schedule.DeliveryID) {
	u := &c.Programme.Unloads[d]
	b.consider(u.Start)
	for _, x := range c.Programme.Breaks {
		over := calendars.Minutes(x.Actual - x.Limit)
		if x.Actual == calendars.Never {
			continue
		}
		switch x.Kind {
		case schedule.BreakKeep, schedule.BreakSentAway:
			if x.Stock == d || x.Activity == c.Plan.Unload(d) {
				b.later(b.now.Plus(over))
			}
		default:
			b.earlier(b.now.Plus(-over))
		}
	}
}

// later notes the first time from a moment on.
func (b *booking) later(at calendars.Instant) {
	if b.takes > 0 {
		b.consider(b.gate.Fit(at, b.takes))
	} else {
		b.consider(b.gate.Next(at))
	}
}

// earlier notes the last time up to a moment.
func (b *booking) earlier(at calendars.Instant) {
	if b.takes > 0 {
		b.consider(b.gate.FitBack(at.Plus(b.takes), b.takes))
	} else {
		b.consider(b.gate.Last(at))
	}
}
