package mend

import (
	"cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// late is how far a programme is from meeting every date, the weightiest part first.
// All parts are zero when every date is met.
type late struct {
	nowhere  int               // tasks and lorries without a place
	over     calendars.Minutes // on the clock, of the last that is done after the hand-over
	by, kept calendars.Minutes // the sums over dates of tasks, and over keeps, lorries and longest waits
}

// lateOf returns how late a programme is.
func lateOf(g *schedule.Programme) (l late) {
	for i := range g.Tasks {
		if !g.Tasks[i].Dropped && !g.Tasks[i].Done.IsReal() {
			l.nowhere++
		}
	}
	for i := range g.Unloads {
		if !g.Unloads[i].Finish.IsReal() {
			l.nowhere++
		}
	}
	if g.Blocked != nil {
		l.nowhere = max(l.nowhere, 1)
	}
	for _, b := range g.Breaks {
		if b.Actual == calendars.Never {
			continue // counted above
		}
		over := calendars.Minutes(b.Actual - b.Limit)
		switch b.Kind {
		case schedule.BreakHandover:
			l.over = max(l.over, over)
		case schedule.BreakBy:
			l.by += over
		default:
			l.kept += over
		}
	}
	return l
}

// none says whether every date is met.
func (l late) none() bool { return l == late{} }

// handover says whether the hand-over is met.
func (l late) handover() bool { return l.nowhere == 0 && l.over == 0 }

// nearer says whether less is missing than of another: of the hand-over, if the other
// doesn't meet it.
func (l late) nearer(than late) bool {
	if !than.handover() {
		return cmp.Or(cmp.Compare(l.nowhere, than.nowhere), cmp.Compare(l.over, than.over)) < 0
	}
	return l.compare(than) < 0
}

func (l late) compare(other late) int {
	return cmp.Or(cmp.Compare(l.nowhere, other.nowhere), cmp.Compare(l.over, other.over),
		cmp.Compare(l.by, other.by), cmp.Compare(l.kept, other.kept))
}
