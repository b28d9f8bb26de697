package wording

import (
	"turflast/calendars"
	"turflast/schedule"
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

// Step words one link of the hand-over chain.
func (w *Writer) Step(g *schedule.Programme, s schedule.Step) Step {
	if s.Task == schedule.None {
		u := &g.Unloads[s.Delivery]
		name := "Lorry: " + w.Delivery(s.Delivery)
		return Step{At: u.Start, End: u.Finish, Name: name, Reason: w.Reason(s.Reason, u.Start)}
	}
	d := &g.Tasks[s.Task]
	zone := &w.plan.Zones[w.plan.Tasks[s.Task].Zones[0]]
	return Step{At: d.Start, End: d.Finish, Name: w.Task(s.Task), Reason: w.clause(s.Reason, d.Start, zone)}
}
