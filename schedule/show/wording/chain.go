package wording

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Step is one link of the hand-over chain in words.
type Step struct {
	At     calendars.Instant // when it starts
	End    calendars.Instant // when the work ends
	Name   string            // the task, or the lorry
	Reason string            // what it waited for, a clause
}

// Sentence names what starts and says what it waited for.
func (s Step) Sentence() string { return s.Name + ": " + s.Reason + "." }

// LastStep ends the hand-over chain.
const LastStep = "The last required work is done."

// Chain words the hand-over chain of a programme.
func (w *Writer) Chain(g *schedule.Programme) []Step {
	steps := make([]Step, 0, len(g.Chain))
	for _, s := range g.Chain {
		steps = append(steps, w.Step(g, s))
	}
	return steps
}

// Step words one link of the hand-over chain: what it waited for, with what held it as
// long, then whose hours held it back further.
func (w *Writer) Step(g *schedule.Programme, s schedule.Step) Step {
	d := g.Of(s.Activity)
	out := Step{Name: w.Activity(s.Activity), At: d.Start, End: d.Finish}
	if _, lorry := w.plan.Delivery(s.Activity); lorry {
		out.Name = "Lorry: " + out.Name
	}
	why := []schedule.Reason{s.Reason}
	for _, r := range d.Why {
		if r != s.Reason && r.Kind != schedule.ByLog {
			why = append(why, r)
		}
	}
	out.Reason = w.reasons(why, out.At, s.Activity)
	return out
}

// Trail words what led to the start of an activity, from the first cause on.
func (w *Writer) Trail(g *schedule.Programme, a schedule.Activity) []Step {
	var back []Step
	seen := make(map[schedule.Activity]bool)
	for a != schedule.Nothing && !seen[a] {
		seen[a] = true
		why := g.Of(a).Why
		if len(why) == 0 {
			break
		}
		back = append(back, w.Step(g, schedule.Step{Activity: a, Reason: why[0]}))
		a = why[0].After()
	}
	slices.Reverse(back)
	return back
}
