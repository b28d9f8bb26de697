package cost

import "build.example/turflast/schedule"

// Difference is what one programme costs more than another; less is below 0.
type Difference struct {
	Was, Now schedule.Money
	More     schedule.Money // in all
	Extra    schedule.Money // of that, what overtime costs above the usual rate
}

// Between is the difference of two bills.
func Between(before, after *Bill) Difference {
	return Difference{before.Total, after.Total, after.Total - before.Total, after.Extra - before.Extra}
}
