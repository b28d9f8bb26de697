package instances

import "fmt"

// Check returns an error for the first constraint that a schedule breaks. It
// shares no code with the solver. starts holds the start of each activity in time
// units from 0.
func (x *Instance) Check(starts []int) error {
	if len(starts) != len(x.Durations) {
		return fmt.Errorf("instances: %d starts for %d activities", len(starts), len(x.Durations))
	}
	for i, s := range starts {
		if s < 0 {
			return fmt.Errorf("instances: activity %d starts at %d", i, s)
		}
	}
	if len(starts) > 0 && x.Durations[0] == 0 && starts[0] != 0 { // the source, which all lags count from
		return fmt.Errorf("instances: activity 0 starts at %d, not at 0", starts[0])
	}
	for _, l := range x.Lags {
		if starts[l.To] < starts[l.From]+l.Least {
			return fmt.Errorf("instances: activity %d starts %d after %d, not %d",
				l.To, starts[l.To]-starts[l.From], l.From, l.Least)
		}
	}
	return x.overuse(starts)
}

// overuse returns an error for the first moment at which a resource runs short.
func (x *Instance) overuse(starts []int) error {
	end := 0
	for i, s := range starts {
		end = max(end, s+x.Durations[i])
	}
	for t := range end {
		used := make([]int, len(x.Capacity))
		for i, s := range starts {
			if s <= t && t < s+x.Durations[i] {
				for r, n := range x.Needs[i] {
					used[r] += n
				}
			}
		}
		for r, n := range used {
			if n > x.Capacity[r] {
				return fmt.Errorf("instances: %d of resource %d in use at %d, of %d", n, r, t, x.Capacity[r])
			}
		}
	}
	return nil
}

// Makespan is the last finish of a schedule.
func (x *Instance) Makespan(starts []int) int {
	end := 0
	for i, s := range starts {
		end = max(end, s+x.Durations[i])
	}
	return end
}

// CriticalPath is the longest path over the lags from time 0, which no makespan
// can beat. It is -1 when the lags run in a ring that can't hold.
func (x *Instance) CriticalPath() int {
	at := make([]int, len(x.Durations))
	for range len(at) + 1 {
		moved := false
		for _, l := range x.Lags {
			if at[l.From]+l.Least > at[l.To] {
				at[l.To], moved = at[l.From]+l.Least, true
			}
		}
		if !moved {
			return x.Makespan(at)
		}
	}
	return -1
}
