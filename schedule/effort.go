package schedule

import (
	"build.example/turflast/calendars"
)

// Effort is how much work a task is: a fixed working time, or person-minutes
// shared by all heads, held as a fraction so that no minute is lost.
type Effort struct {
	Takes    calendars.Minutes // when Num is zero
	Num, Den int64             // person-minutes
	Amount   string            // as written, such as "64 m2"; may be empty
	Rate     string            // as written, such as "8 m2/person-hour"
	Unit     string            // of Amount
}

// Time is the working time with that many heads in all, rounded up to the
// minute.
func (e Effort) Time(heads int) calendars.Minutes {
	if e.Num == 0 {
		return e.Takes
	}
	d := e.Den * int64(max(heads, 1))
	return calendars.Minutes((e.Num + d - 1) / d)
}

// Shared says whether the effort is divided by heads.
func (e Effort) Shared() bool { return e.Num != 0 }

// Spread is the best and worst working time; the effort itself is likeliest.
type Spread struct{ Best, Worst calendars.Minutes }
