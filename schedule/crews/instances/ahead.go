package instances

import "slices"

// Before lists the activities that take time and must be finished before one starts,
// in rising order: through others that take none, too, as they neither take time nor
// hold anything. Every lag into it must be the whole duration of the activity that it
// leads from, as in all .sm files.
func (x *Instance) Before(activity int) []int {
	var out []int
	seen := make([]bool, len(x.Durations))
	var walk func(to int)
	walk = func(to int) {
		for _, l := range x.Lags {
			switch {
			case l.To != to || seen[l.From]:
			case x.Durations[l.From] > 0:
				seen[l.From] = true
				out = append(out, l.From)
			default:
				seen[l.From] = true
				walk(l.From)
			}
		}
	}
	walk(activity)
	slices.Sort(out)
	return out
}

// InTurn is the makespan of one activity after the other.
func (x *Instance) InTurn() int {
	sum := 0
	for _, d := range x.Durations {
		sum += d
	}
	return sum
}
