package sheets

import (
	"cmp"
	"iter"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
)

// Tie is a link of one activity to another, the one that its Activity names, which comes
// before or after it.
type Tie struct {
	network.Tie
	At   calendars.Instant // the start or finish of the other one that the link joins
	Free calendars.Instant // set by Before: when the other holds no more, cured and signed; without lags
	Hold bool              // the hold point of the earlier one must be signed in between
}

// Before lists what must come before an activity by the plan's links, rules, ways in and
// deliveries, the last to be over first. It leaves out what follows from another one on
// the list, and what the programme leaves out.
func (b *Book) Before(a schedule.Activity) []Tie {
	out := b.ties(b.Model.Before(a))
	for i := range out {
		tie := &out[i]
		switch t, task := b.Plan.Task(tie.Activity); {
		case !tie.Kind.FromFinish():
			tie.At = b.Programme.Of(tie.Activity).Start
			tie.Free = tie.At
		case task:
			b.finished(tie, t)
		default:
			tie.At = b.Programme.Of(tie.Activity).Finish
			tie.Free = tie.At
		}
	}
	slices.SortStableFunc(out, func(a, c Tie) int { return cmp.Compare(c.Free, a.Free) })
	return out
}

// finished sets the moments of a tie that holds from the finish of a task.
func (b *Book) finished(tie *Tie, id schedule.TaskID) {
	d, t := &b.Programme.Tasks[id], &b.Plan.Tasks[id]
	tie.At, tie.Free, tie.Hold = d.Finish, d.Finish, t.Hold != nil
	switch tie.Wait.Kind {
	case schedule.OwnCure:
		tie.Free = d.Finish.Plus(t.Cure)
	case schedule.Cure:
		tie.Free = d.Finish.Plus(tie.Wait.Time)
	}
	if tie.Hold {
		tie.Free = max(tie.Free, d.Signed)
	}
}

// After lists what must come after an activity, as [Book.Before] does, the earliest
// first.
func (b *Book) After(of schedule.Activity) []Tie {
	t, task := b.Plan.Task(of)
	hold := task && b.Plan.Tasks[t].Hold != nil
	out := b.ties(b.Model.After(of))
	for i := range out {
		tie := &out[i]
		tie.Hold = hold && tie.Kind.FromFinish()
		tie.At = b.Programme.Of(tie.Activity).Start
		if tie.Kind.ToFinish() {
			tie.At = b.Programme.Of(tie.Activity).Finish
		}
	}
	slices.SortStableFunc(out, func(a, c Tie) int { return cmp.Compare(a.At, c.At) })
	return out
}

// ties returns, without moments, the ties to what the programme doesn't leave out: for
// each activity, the first of each kind of link.
func (b *Book) ties(all iter.Seq[network.Tie]) []Tie {
	type end struct {
		activity schedule.Activity
		kind     schedule.LinkKind
	}
	seen := make(map[end]bool)
	var out []Tie
	for t := range all {
		if at := (end{t.Activity, t.Kind}); !seen[at] && !b.Programme.LeavesOut(t.Activity) {
			seen[at] = true
			out = append(out, Tie{Tie: t})
		}
	}
	return out
}
