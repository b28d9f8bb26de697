package tolerance

import (
	"cmp"
	"math"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// ByHurt lists deliveries of a plan with what can hurt most first: those with
// nothing in hand even as booked, then those that break the hand-over when they come
// too late, then those that break another date. Of each kind those come first that can
// take the least share of their [Lateness], then the earlier booked.
func ByHurt(p *schedule.Plan, list []Delivery) []Delivery {
	return slices.SortedStableFunc(slices.Values(list), func(a, b Delivery) int {
		return cmp.Or(cmp.Compare(weight(&a), weight(&b)), cmp.Compare(share(p, &a), share(p, &b)),
			cmp.Compare(a.Booked, b.Booked))
	})
}

// weight orders deliveries by the date that they break.
func weight(d *Delivery) int {
	switch {
	case d.Held == calendars.Past:
		return 0
	case d.Breaks == nil:
		return 3
	case d.Breaks.Kind == schedule.BreakHandover:
		return 1
	}
	return 2
}

// share returns how much of its lateness a delivery can take: 1 or more for all of it,
// below 0 when not even its booking holds.
func share(p *schedule.Plan, d *Delivery) float64 {
	late := Lateness(&p.Deliveries[d.Delivery])
	switch {
	case d.Held == calendars.Past:
		return -1
	case late <= 0:
		return math.Inf(1)
	}
	return float64(d.Held-d.Booked) / float64(late)
}
