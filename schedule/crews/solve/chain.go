package solve

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network/critical"
)

// chain traces the hand-over chain back from the last required finish.
func (a *assembly) chain() {
	last := schedule.Nothing
	finish := a.Programme.Finish
	for i := range a.Plan.Tasks {
		if a.Plan.Required(schedule.Activity(i)) && a.Programme.Tasks[i].Done == finish && finish != calendars.Never {
			last = schedule.Activity(i)
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

// blocked sets why some work has no place, if any has none.
func (a *assembly) blocked() {
	if len(a.Ring) > 0 {
		b := &schedule.Blocked{Activity: schedule.Nothing, Reason: nothing(schedule.ByWithin)}
		for _, k := range a.Ring {
			if t, ok := a.Plan.Task(a.At(k)); ok && !slices.Contains(b.Ring, t) {
				b.Ring = append(b.Ring, t)
			}
		}
		a.Programme.Blocked = b
		return
	}
	for k := range a.Nodes {
		if a.Nodes[k].Joint || a.t.Done[k] != calendars.Never {
			continue
		}
		b := a.noPlace(int32(k))
		if b.From != calendars.Never {
			a.Programme.Blocked = b
			return
		}
		if a.Programme.Blocked == nil {
			a.Programme.Blocked = b
		}
	}
}

// noPlace says why a node has no place: no appointment is left, no hours come
// after what it waits for, a shared resource is never free for it, or the node
// that must follow within a longest wait has no place. From is Never when
// something that it waits for has no place itself.
func (a *assembly) noPlace(k int32) *schedule.Blocked {
	node, number := &a.Nodes[k], a.Spec[k]
	b := &schedule.Blocked{Reason: nothing(schedule.ByClosedHours), From: node.Earliest}
	b.Activity = a.Activity(number)
	if a.t.Start[k] != calendars.Never {
		b.Reason.Hold, b.From = true, a.t.Finish[k]
		return b
	}
	for _, arc := range a.Into(number) {
		b.From = max(b.From, a.until(arc, node.Place))
	}
	if start, _ := critical.Place(a.Network, node, b.From, calendars.Past); start == calendars.Never {
		a.whoNeverOpens(b, k)
		return b
	}
	if a.hands != nil && b.From != calendars.Never {
		if r, never := a.neverFree(int(k), b.From); never {
			b.Reason = r
			return b
		}
	}
	b.From = calendars.Never
	for i := range a.Withins {
		if w := &a.Withins[i]; w.From == k {
			b.Reason = nothing(schedule.ByWithin)
			b.Reason.Other = a.At(w.To)
			b.Reason.Wait = schedule.Wait{Kind: schedule.Cure, Time: w.Most}
		}
	}
	return b
}

// neverFree returns which shared resource is never free for a node from a moment
// on; ok is false when the node would find a place.
func (a *assembly) neverFree(k int, from calendars.Instant) (r schedule.Reason, ok bool) {
	start, finish := critical.Place(a.Network, &a.Nodes[k], from, calendars.Past)
	for start != calendars.Never {
		end, need, holder := a.lastShort(k, start, finish, nil)
		if end <= start {
			return r, false
		}
		r = a.sharedReason(need, holder, end)
		start, finish = critical.Place(a.Network, &a.Nodes[k], end, calendars.Past)
	}
	return r, true
}

// whoNeverOpens sets in b whose hours end before b.From.
func (a *assembly) whoNeverOpens(b *schedule.Blocked, k int32) {
	node := &a.Nodes[k]
	b.Reason.Closed = schedule.ClosedTogether
	for _, o := range a.owners(a.Spec[k]) {
		if o.hours.Next(b.From) == calendars.Never {
			b.Reason.Closed, b.Reason.Crew, b.Reason.Machine = o.closed, o.crew, o.machine
			break
		}
	}
	if node.Unbroken && a.Calendars[node.Calendar].Next(b.From) != calendars.Never {
		b.Reason.Kind = schedule.ByUnbroken
	}
}
