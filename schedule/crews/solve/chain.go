package solve

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// chain traces the hand-over chain back from the last required finish.
func (a *assembly) chain() {
	last := schedule.Nothing
	finish := a.Programme.Finish
	for i := range a.Plan.Activities() {
		if a.counts(i) && a.t.Done[a.Node(i)] == finish && finish != calendars.Never {
			last = i
			break
		}
	}
	if last == schedule.Nothing {
		return
	}
	c := tracing{a: a, seen: make(map[int32]bool)}
	if !c.trace(int32(last)) {
		// Waits hold each other in a ring, and the chain begins within it.
		c = tracing{a: a, seen: make(map[int32]bool), ends: true}
		c.trace(int32(last))
	}
	a.Programme.Chain = c.steps
	for _, s := range a.Programme.Chain {
		a.Programme.Of(s.Activity).OnChain = true
	}
}

// tracing walks from a node back to a moment that fixes it, and never through one
// node twice, since a longest wait that is just met would lead back and forth.
type tracing struct {
	a     *assembly
	seen  map[int32]bool
	ends  bool // where nothing leads on, the chain begins
	steps []schedule.Step
}

func (c *tracing) trace(number int32) bool {
	if c.a.halt.Over() {
		return false
	}
	c.seen[number] = true
	drivers := slices.Clone(c.a.fixes(number))
	for _, r := range drivers {
		before := r.After()
		if before != schedule.Nothing && (c.seen[int32(before)] || !c.trace(int32(before))) {
			continue
		}
		c.steps = append(c.steps, schedule.Step{Activity: c.a.Activity(number), Reason: r})
		return true
	}
	if c.ends && len(drivers) > 0 {
		c.steps = append(c.steps, schedule.Step{Activity: c.a.Activity(number), Reason: drivers[0]})
	}
	return c.ends
}
