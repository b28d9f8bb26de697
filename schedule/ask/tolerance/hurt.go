package tolerance

import (
	"cmp"
	"math"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// ByHurt lists deliveries of a plan with what can hurt most first: those with nothing in
// hand even as booked, then those that can take the least share of their [Lateness] until
// the hand-over breaks, then, of those that can take all of it, the ones that can take the
// least share until another date does, then the earlier booked.
func ByHurt(p *schedule.Plan, list []Delivery) []Delivery {
	return slices.SortedStableFunc(slices.Values(list), func(a, b Delivery) int {
		return cmp.Or(cmp.Compare(min(share(p, &a, a.Handover), 1), min(share(p, &b, b.Handover), 1)),
			cmp.Compare(share(p, &a, a.End), share(p, &b, b.End)), cmp.Compare(a.Booked, b.Booked))
	})
}

// share returns how much of its lateness a delivery can take until an end: 1 or more for
// all of it, below 0 when not even its booking holds.
func share(p *schedule.Plan, d *Delivery, e End) float64 {
	late := Lateness(&p.Deliveries[d.Delivery])
	switch {
	case e.Held == calendars.Past:
		return -1
	case late <= 0:
		return math.Inf(1)
	}
	return float64(e.Held-d.Booked) / float64(late)
}
