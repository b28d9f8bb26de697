// Package verify checks a programme against its plan from first principles. It
// shares no scheduling code and no calendar code with the solvers: from the
// plan it builds its own lists of open spans, stepping through the dates that
// the programme touches, and then checks every rule of every task directly.
//
// Rules may not break: a [Fault] is an error of ours. Dates may break: the
// broken ones are worked out here, and a programme that reports others, or
// another finish or margin, is at fault.
package verify

import (
	"fmt"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Result is what a check found.
type Result struct {
	Rules  []Fault          // broken rules, in the order they are checked
	Breaks []schedule.Break // broken dates, by kind, then by activity
}

// Fault is one rule that a programme breaks. Rule is a short name that stays
// the same; Activity is Nothing where the fault is of the whole programme.
type Fault struct {
	Rule     string
	Activity schedule.Activity
	Text     string
}

// String is the fault as one line.
func (f Fault) String() string { return f.Rule + ": " + f.Text }

// checker is one check at work.
type checker struct {
	p     *schedule.Plan
	g     *schedule.Programme
	scope schedule.Scope

	here   []bool              // tasks with dates that are not left out
	came   []bool              // deliveries with dates
	signed []calendars.Instant // hold point over; the finish when there is none
	done   []calendars.Instant // work, cure and hold point
	stages [][]schedule.TaskID // tasks with dates, by stage
	hours  hours

	result Result
}

// Check checks every rule in scope: the time rules, and for Crews the shared
// hands as well. It takes starts, finishes, heads, arrivals and what is dropped
// from the programme, and works out all else that it compares: when tasks are
// worked, signed off and done, the finish, the breaks and the margins. Floats
// and reasons are not checked.
func Check(p *schedule.Plan, g *schedule.Programme, scope schedule.Scope) Result {
	c := &checker{p: p, g: g, scope: scope}
	if len(g.Tasks) != len(p.Tasks) || len(g.Unloads) != len(p.Deliveries) {
		c.fault("dates", schedule.Nothing, "the programme has %d tasks and %d deliveries, the plan %d and %d",
			len(g.Tasks), len(g.Unloads), len(p.Tasks), len(p.Deliveries))
		return c.result
	}
	c.place()
	c.hours = hoursOf(p, c.touched())
	c.finishAll()
	c.checkTasks()
	c.checkRules()
	c.checkWaysIn()
	c.checkDeliveries()
	if scope == schedule.Crews {
		c.checkHands()
		c.checkApart()
		c.checkClears()
		c.checkClosings()
	}
	c.checkDates()
	return c.result
}

func (c *checker) fault(rule string, of schedule.Activity, format string, args ...any) {
	c.result.Rules = append(c.result.Rules, Fault{rule, of, fmt.Sprintf(format, args...)})
}

func (c *checker) placeTask(id schedule.TaskID) {
	switch t, d := &c.p.Tasks[id], &c.g.Tasks[id]; {
	case d.Dropped:
		if c.required(id) {
			c.fault("dropped", id.Activity(), "%s is left out, which it may not be", t.ID)
		}
	case d.Start == calendars.Never, c.p.InHand(id) && d.Finish == calendars.Never: // see checkBlocked
	case !d.Start.IsReal() || !d.Finish.IsReal() || d.Finish < d.Start:
		c.fault("dates", id.Activity(), "%s has no usable dates", t.ID)
	default:
		c.here[id] = true
		c.stages[t.Stage] = append(c.stages[t.Stage], id)
	}
}

// place finds which tasks and deliveries have dates, and lists them by stage.
func (c *checker) place() {
	c.here = make([]bool, len(c.p.Tasks))
	c.came = make([]bool, len(c.p.Deliveries))
	c.stages = make([][]schedule.TaskID, len(c.p.Stages))
	for i := range c.p.Tasks {
		c.placeTask(schedule.TaskID(i))
	}
	for i := range c.p.Deliveries {
		d := &c.g.Unloads[i]
		switch {
		case d.Start == calendars.Never: // see checkBlocked
		case !d.Arrives.IsReal() || !d.Start.IsReal() || !d.Finish.IsReal() || d.Finish < d.Start:
			c.fault("dates", c.p.Unload(schedule.DeliveryID(i)), "%s has no usable dates", c.p.Deliveries[i].ID)
		default:
			c.came[i] = true
		}
	}
}

// touched is the stretch of time that the programme touches, with room after it
// for sign-offs; it stays near the plan even when the programme doesn't.
func (c *checker) touched() calendars.Span {
	s := calendars.Span{Start: c.p.Site.Opens, End: c.p.Site.Handover}
	if aim := c.p.Site.Aim; aim.IsReal() {
		s.Start = min(s.Start, aim)
	}
	near := calendars.Span{Start: s.Start.Plus(-80 * calendars.Week), End: s.End.Plus(60 * calendars.Week)}
	for z := range c.p.Zones {
		if from := c.p.Zones[z].From; from.IsReal() {
			near.Start = min(near.Start, from)
		}
	}
	for i, here := range c.here {
		if here {
			s.Start, s.End = min(s.Start, c.g.Tasks[i].Start), max(s.End, c.g.Tasks[i].Finish)
		}
	}
	for i, came := range c.came {
		if came {
			s.Start, s.End = min(s.Start, c.g.Unloads[i].Start), max(s.End, c.g.Unloads[i].Finish)
		}
	}
	return calendars.Span{Start: max(s.Start, near.Start), End: min(s.End.Plus(2*calendars.Week), near.End)}
}

// at writes a moment for the text of a fault.
func (c *checker) at(t calendars.Instant) string {
	if !t.IsReal() {
		return "never"
	}
	return t.In(c.p.Site.Location).Format("Mon 2 Jan 15:04")
}
