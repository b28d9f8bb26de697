package network

import "build.example/turflast/schedule"

// Case is a programme with what gives it meaning: its plan, the plan's hours and
// the plan's network. A question about a programme takes a Case, so that it can't
// mix one plan with the dates of another.
type Case struct {
	*Model
	Programme *schedule.Programme
}

// With is the case of another programme of the same plan.
func (c Case) With(g *schedule.Programme) Case { return Case{c.Model, g} }
