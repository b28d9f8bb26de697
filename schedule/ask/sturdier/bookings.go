package sturdier

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/mend"
)

// bookings moves the bookings that may be moved, one after the other, as long as that
// gains. It starts from the best candidate of all, the best that is done no later than
// planned, and the plan's own programme.
func (x *search) bookings() error {
	var starts []*candidate
	for _, by := range [...]calendars.Instant{calendars.Never, x.base.Programme.Finish} {
		for _, c := range x.best(1, by) {
			if !slices.Contains(starts, c) {
				starts = append(starts, c)
			}
		}
	}
	if !slices.Contains(starts, x.base) {
		starts = append(starts, x.base)
	}
	for _, c := range starts {
		by := x.cap
		if c.Programme.Finish <= x.base.Programme.Finish {
			by = x.base.Programme.Finish
		}
		for d := range x.base.Plan.Deliveries {
			var err error
			if c, err = x.rebook(c, schedule.DeliveryID(d), by); err != nil {
				return err
			}
		}
	}
	return nil
}

// rebook returns the best of a candidate and of those with another booking of one
// delivery that are done by a moment.
func (x *search) rebook(c *candidate, d schedule.DeliveryID, by calendars.Instant) (*candidate, error) {
	times := x.times(c, d)
	list := each(len(times), func(k int) *candidate {
		return x.sound(x.s.Rebook(c.Plan.Rebooked(d, times[k])).Ordered(c.Programme))
	})
	list = slices.DeleteFunc(list, func(n *candidate) bool { return n == nil || x.seen[n.key()] })
	if err := x.add(list); err != nil {
		return nil, err
	}
	for _, n := range list {
		if n.onTime > c.onTime && n.Programme.Finish <= by && x.keeps(n) {
			c = n
		}
	}
	return c, nil
}

// times returns other times for a delivery's booking within its range, the nearest to the
// present one first.
func (x *search) times(c *candidate, d schedule.DeliveryID) []calendars.Instant {
	m := x.base.Plan.Deliveries[d].Movable
	if m == nil {
		return nil
	}
	out := slices.DeleteFunc(mend.Bookings(c.Case, d),
		func(at calendars.Instant) bool { return at < m.Earliest || at > m.Latest })
	return out[:min(len(out), mostMoves)]
}
