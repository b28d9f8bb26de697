package sturdier

import "build.example/turflast/calendars"

// SoFar is how far a search has come.
type SoFar struct {
	Step, Steps int     // orders of hands, mixes of the best, bookings, and the choice among them
	Tried       int     // programmes looked at beside the plan's own
	Planned     float64 // the chance as planned, by the builds that judge what is tried
	SameMargin  float64 // the best chance so far of one that is done no later
	Sturdiest   float64 // the best chance so far
}

const steps = 4

// sayHow says how far the search is.
func (x *search) sayHow() {
	if x.tell == nil {
		return
	}
	share := func(c *candidate) float64 { return float64(c.onTime) / float64(max(len(c.outcomes), 1)) }
	s := SoFar{Step: x.step, Steps: steps, Tried: len(x.all) - 1, Planned: share(x.base)}
	s.SameMargin, s.Sturdiest = s.Planned, s.Planned
	if best := x.best(1, x.base.Programme.Finish); len(best) > 0 {
		s.SameMargin = max(s.SameMargin, share(best[0]))
	}
	if best := x.best(1, calendars.Never); len(best) > 0 {
		s.Sturdiest = max(s.Sturdiest, share(best[0]))
	}
	x.tell(s)
}
