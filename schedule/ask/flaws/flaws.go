// Package flaws finds what is wrong with a plan that the reader accepts: faults and
// warnings that only the network of tasks and their dates show, such as rings of
// links, bookings that can't hold, loose ends and work that has no place.
//
// Whether a programme keeps the plan is another question, which package verify
// answers.
package flaws

import (
	"fmt"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/network"
)

// Of returns the flaws of a plan. Each ring of links, rules and ways in is a fault. All
// else is a warning, found in the plan's logic programme: work that has no place or fits
// only after the hand-over, waits that can't all hold, a delivery that comes too late or
// is kept too long whatever the crews do, a task that nothing follows, one that lifts
// and may pause. It takes a few solves more than the programme itself.
func Of(p *schedule.Plan) schedule.Problems {
	s, err := solve.New(p)
	if err != nil {
		return Rings(p, err)
	}
	c := &checker{Case: s.Logic(), s: s, w: p.Site.Figures()}
	c.places()
	c.onlyAfter()
	c.deliveries()
	c.looseEnds()
	c.lifting()
	c.problems.Sort()
	return c.problems
}

// Rings returns the faults behind an error of [solve.New]: one for each ring of links,
// rules, deliveries and ways in, with all its parts and what made them.
func Rings(p *schedule.Plan, err error) schedule.Problems {
	var out schedule.Problems
	for _, ring := range solve.Rings(err) {
		var parts []string
		var pos schedule.Pos
		for i, step := range ring {
			next := ring[(i+1)%len(ring)]
			parts = append(parts, fmt.Sprintf("%s before %s (%s)", p.ActivityID(step.Activity),
				p.ActivityID(next.Activity), madeBy(p, step.Origin)))
			if pos == (schedule.Pos{}) {
				pos = step.Origin.Pos
			}
		}
		if t, ok := p.Task(ring[0].Activity); ok && pos == (schedule.Pos{}) {
			pos = p.Tasks[t].Pos
		}
		out = append(out, schedule.Problem{
			Pos:  pos,
			Text: "these wait for each other in a ring: " + strings.Join(parts, ", "),
			Hint: "take one of these out, or excuse a task from its rule",
		})
	}
	out.Sort()
	return out
}

// madeBy says what part of a plan made a part of a ring.
func madeBy(p *schedule.Plan, o network.Origin) string {
	switch o.Kind {
	case network.FromDelivery:
		return "uses"
	case network.FromRule:
		return fmt.Sprintf("rule %q", p.Rules[o.Rule].Text)
	case network.FromWayIn:
		return "way in"
	}
	return fmt.Sprintf("after, line %d", o.Pos.Line)
}

// checker looks at one plan and its logic programme.
type checker struct {
	network.Case
	s        *solve.Solver
	w        calendars.Figures // says moments and lengths
	problems schedule.Problems
}

func (c *checker) warn(at schedule.Pos, hint, format string, args ...any) {
	c.problems = append(c.problems,
		schedule.Problem{Pos: at, Text: fmt.Sprintf(format, args...), Hint: hint, Warning: true})
}

// looseEnds warns of tasks that nothing follows though work goes on after they
// are done. Cleaning, striking and optional work may be ends.
func (c *checker) looseEnds() {
	last := calendars.Past
	for i := range c.Programme.Tasks {
		if done := c.Programme.Tasks[i].Done; done.IsReal() {
			last = max(last, done)
		}
	}
	for i := range c.Plan.Tasks {
		t := &c.Plan.Tasks[i]
		done := c.Programme.Tasks[i].Done
		if !done.IsReal() || done == last || t.Optional || c.Plan.LeavesLast(t.Stage) || c.followed(schedule.TaskID(i)) {
			continue
		}
		c.warn(t.Pos, "name it under after of what needs it, or make it optional",
			"nothing follows task %s, which is done %s", t.ID, c.w.Moment(c.Programme.Tasks[i].Done))
	}
}

// followed says whether anything follows a task.
func (c *checker) followed(t schedule.TaskID) bool {
	for range c.After(t.Activity()) {
		return true
	}
	return false
}

// ids returns the ids of tasks, separated by commas.
func (c *checker) ids(tasks []schedule.TaskID) string {
	var names []string
	for _, t := range tasks {
		names = append(names, c.Plan.Tasks[t].ID)
	}
	return strings.Join(names, ", ")
}
