package solve

import (
	"slices"

	"turflast/calendars"
	"turflast/schedule"
)

// chain traces the hand-over chain back from the last required finish.
func (a *assembly) chain() {
	last := schedule.TaskID(schedule.None)
	for i := range a.s.plan.Tasks {
		if !a.s.plan.Tasks[i].Optional && a.g.Tasks[i].Done == a.g.Finish && a.g.Finish != calendars.Never {
			last = schedule.TaskID(i)
			break
		}
	}
	if last == schedule.None {
		return
	}
	c := tracing{a: a, seen: make(map[int32]bool)}
	c.trace(int32(last))
	a.g.Chain = c.steps
	for _, s := range a.g.Chain {
		if s.Task != schedule.None {
			a.g.Tasks[s.Task].OnChain = true
		} else {
			a.g.Unloads[s.Delivery].OnChain = true
		}
	}
}

// tracing walks from a node to a moment that fixes it, never through one node
// twice: a longest wait holds both ways when it is just met.
type tracing struct {
	a     *assembly
	seen  map[int32]bool
	steps []schedule.Step
}

func (c *tracing) trace(number int32) bool {
	c.seen[number] = true
	task, delivery := c.a.m.Activity(number)
	for _, r := range c.a.drivers(number) {
		before := c.number(r)
		if before >= 0 && (c.seen[before] || !c.trace(before)) {
			continue
		}
		c.steps = append(c.steps, schedule.Step{Task: task, Delivery: delivery, Reason: r})
		return true
	}
	return false
}

// number is the node that a reason leads back to, negative for a moment.
func (c *tracing) number(r schedule.Reason) int32 {
	switch {
	case r.Task != schedule.None:
		return int32(r.Task)
	case r.Delivery != schedule.None && r.Kind != schedule.ByArrival:
		return int32(len(c.a.s.plan.Tasks) + int(r.Delivery))
	}
	return -1
}

// blocked says why some work has no place, if any has none.
func (a *assembly) blocked() {
	if len(a.s.ring) > 0 {
		b := &schedule.Blocked{Task: schedule.None, Unload: schedule.None, Reason: nothing(schedule.ByWithin)}
		for _, k := range a.s.ring {
			if t, _ := a.m.Activity(a.m.Spec[k]); t != schedule.None && !slices.Contains(b.Ring, t) {
				b.Ring = append(b.Ring, t)
			}
		}
		a.g.Blocked = b
		return
	}
	for k := range a.m.Nodes {
		task, delivery := a.m.Activity(a.m.Spec[k])
		if a.m.Nodes[k].Joint || a.t.Done[k] != calendars.Never {
			continue
		}
		a.g.Blocked = a.noPlace(int32(k), task, delivery)
		return
	}
}

// noPlace says why the first node without a place, in the order of the
// network, has none: no hours after what it waits for, or no appointment.
func (a *assembly) noPlace(k int32, task schedule.TaskID, delivery schedule.DeliveryID) *schedule.Blocked {
	number := a.m.Spec[k]
	b := &schedule.Blocked{Task: task, Unload: delivery, Reason: nothing(schedule.ByClosedHours)}
	if a.t.Start[k] != calendars.Never {
		b.Reason.Hold, b.From = true, a.t.Finish[k]
		return b
	}
	for i := range a.m.Withins {
		if w := &a.m.Withins[i]; w.From == k {
			b.Reason = nothing(schedule.ByWithin)
			b.Reason.Task, b.Reason.Delivery = a.m.Activity(a.m.Spec[w.To])
			b.Reason.Wait = schedule.Wait{Kind: schedule.Cure, Time: w.Most}
			return b
		}
	}
	b.From = a.m.Nodes[k].Earliest
	for _, arc := range a.m.Into(number) {
		b.From = max(b.From, a.until(arc, a.m.Nodes[k].Place))
	}
	b.Reason.Closed = schedule.ClosedTogether
	for _, o := range a.owners(number) {
		if o.hours.Next(b.From) == calendars.Never {
			b.Reason.Closed, b.Reason.Crew, b.Reason.Machine = o.closed, o.crew, o.machine
			break
		}
	}
	if a.m.Nodes[k].Unbroken && a.m.Calendars[a.m.Nodes[k].Calendar].Next(b.From) != calendars.Never {
		b.Reason.Kind = schedule.ByUnbroken
	}
	return b
}
