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

// Chain words the hand-over chain of a programme.
func (w *Writer) Chain(g *schedule.Programme) []Step {
	steps := make([]Step, 0, len(g.Chain))
	for _, s := range g.Chain {
		steps = append(steps, w.Step(g, s))
	}
	return steps
}

// Step words one link of the hand-over chain: what it waited for, and whose
// hours held it after that.
func (w *Writer) Step(g *schedule.Programme, s schedule.Step) Step {
	out := Step{Name: w.named(s)}
	if s.Task != schedule.None {
		d := &g.Tasks[s.Task]
		out.At, out.End = d.Start, d.Finish
	} else {
		u := &g.Unloads[s.Delivery]
		out.At, out.End = u.Start, u.Finish
	}
	out.Reason = w.Reason(s.Reason, out.At, s.Task)
	for _, r := range reasonsOf(g, s) {
		if r != s.Reason && (r.Kind == schedule.ByClosedHours || r.Kind == schedule.ByUnbroken) {
			out.Reason += "; " + w.Reason(r, out.At, s.Task)
		}
	}
	return out
}

func (w *Writer) named(s schedule.Step) string {
	if s.Task != schedule.None {
		return w.Task(s.Task)
	}
	return "Lorry: " + w.Delivery(s.Delivery)
}

// Trail words what led to the start of a task, or of a delivery's unloading
// when the task is None, from the moment that started it all.
func (w *Writer) Trail(g *schedule.Programme, t schedule.TaskID, d schedule.DeliveryID) []Step {
	var back []Step
	seen := make(map[schedule.Step]bool)
	for at := (schedule.Step{Task: t, Delivery: d}); !seen[at]; {
		seen[at] = true
		why := reasonsOf(g, at)
		if len(why) == 0 {
			break
		}
		step := w.Step(g, schedule.Step{Task: at.Task, Delivery: at.Delivery, Reason: why[0]})
		back = append(back, step)
		next, found := before(why[0])
		if !found {
			break
		}
		at = next
	}
	slices.Reverse(back)
	return back
}

func reasonsOf(g *schedule.Programme, s schedule.Step) []schedule.Reason {
	if s.Task != schedule.None {
		return g.Tasks[s.Task].Why
	}
	return g.Unloads[s.Delivery].Why
}

// before is the task or unloading that a reason waits for.
func before(r schedule.Reason) (s schedule.Step, found bool) {
	switch {
	case r.Task != schedule.None:
		return schedule.Step{Task: r.Task, Delivery: schedule.None}, true
	case r.Delivery != schedule.None && r.Kind != schedule.ByArrival:
		return schedule.Step{Task: schedule.None, Delivery: r.Delivery}, true
	}
	return s, false
}
