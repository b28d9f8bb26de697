package solve

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/search"
	"build.example/turflast/schedule/internal/halt"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/critical"
)

// programme turns the result of a search into the crew programme.
func (c *crewSearch) programme(f *found) *schedule.Programme {
	a := c.assemble(f)
	if a.unasked = c.tooMany(); !a.unasked {
		a.hands, a.halt = newHands(c.resources, a.Model, a.t, f.dropped), halt.After(c.ctx, grace)
	}
	g := a.programme()
	if !f.Found && !c.tooMany() {
		a = c.restOf(f, a)
	}
	if floats, ok := c.floats(a, f); ok {
		a.slips(floats)
	} else {
		g.Cut.Floats = true
		a.noSlips()
	}
	g.Cut.Search, g.Cut.Bound = c.stopped, c.proof.Cut
	g.Bound, g.Overfull = max(c.proof.Finish, c.s.model.Plan.Site.Opens), c.overfull()
	if c.kept > g.Bound {
		g.BoundAsTold = c.kept
	}
	g.Moves = moves(c.o.Reference, g)
	return g
}

// Once the context is done, floats and reasons of up to few activities are still worked
// out, as far as so many steps suffice: what takes no time that one notices is worth having.
const (
	few   = 500
	grace = 100_000
)

// tooMany says whether the context is done and the plan too big to work out more.
func (c *crewSearch) tooMany() bool { return c.cut() && c.s.model.Plan.Activities() > few }

// floats are the crew floats of what was found; ok is false when the context was done
// before they were worked out.
func (c *crewSearch) floats(a *assembly, f *found) (out crewFloats, ok bool) {
	if c.tooMany() {
		return out, false
	}
	return crewFloatsOf(c.ctx, c.resources, c.resources.Problem(a.Model, f.dropped, nil), a.t, a.totals())
}

// assemble puts the dates that a search found into the network of its choice.
func (c *crewSearch) assemble(f *found) *assembly {
	if !f.Found {
		c.some(f)
	}
	return c.assembleWithout(f, f.problem.Model.NoPlace)
}

// bare turns the result of a search into a programme with dates and breaks alone.
func (c *crewSearch) bare(f *found) *assembly {
	a := c.assemble(f)
	a.finish()
	a.dates()
	a.breaks()
	a.blocked()
	return a
}

// restOf is the assembly of a programme without what no place was found for, so that
// the rest has its floats.
func (c *crewSearch) restOf(f *found, whole *assembly) *assembly {
	noPlace := make([]bool, whole.Plan.Activities())
	for i := range whole.Plan.Activities() {
		noPlace[i] = whole.t.Done[whole.Node(i)] == calendars.Never || whole.HasNoPlace(i)
	}
	rest := c.assembleWithout(f, noPlace)
	rest.Programme = whole.Programme
	return rest
}

// assembleWithout is the assembly of a network in which some activities hold nothing.
func (c *crewSearch) assembleWithout(f *found, noPlace []bool) *assembly {
	was := f.problem.Model
	m, err := network.Expand(c.booked(f), was.Hours, network.Choice{
		Heads: c.heads(f), Dropped: f.dropped, NoPlace: noPlace,
	})
	if err != nil {
		panic(err) // the same links don't run in a ring with other hands
	}
	m.Blocked = was.Blocked
	t := network.NewTimes(m.Network)
	for number, k := range m.Number {
		at := was.Number[number]
		t.Start[k], t.Finish[k], t.Done[k] = f.Start[at], f.Finish[at], f.Done[at]
	}
	critical.Backward(m.Network, t)
	a := newAssembly(m, t, schedule.Crews)
	a.dropped = f.dropped
	return a
}

// totals are the total floats by node.
func (a *assembly) totals() []calendars.Minutes {
	out := make([]calendars.Minutes, len(a.Nodes))
	for i := range a.Plan.Activities() {
		if !a.Programme.LeavesOut(i) && !a.HasNoPlace(i) {
			out[a.Node(i)] = a.Programme.Of(i).TotalFloat
		}
	}
	return out
}

// slips sets the crew floats, and the latest arrival of each lorry from the latest
// start of its unloading: until a date breaks or one that is broken gets later.
func (a *assembly) slips(f crewFloats) {
	for i := range a.Plan.Activities() {
		if !a.Programme.LeavesOut(i) && !a.HasNoPlace(i) {
			a.Programme.Of(i).CrewFloat = f.slip[a.Node(i)]
		}
	}
	for i := range a.Programme.Unloads {
		if a.HasNoPlace(a.Plan.Unload(schedule.DeliveryID(i))) {
			continue
		}
		u, k := &a.Programme.Unloads[i], a.Node(a.Plan.Unload(schedule.DeliveryID(i)))
		u.LateArrival = a.withoutGap(k, a.keeping(schedule.DeliveryID(i), f.lorry[k]))
	}
}

// noSlips says that neither crew floats nor latest arrivals are worked out.
func (a *assembly) noSlips() {
	for i := range a.Plan.Activities() {
		if !a.Programme.LeavesOut(i) && !a.HasNoPlace(i) {
			a.Programme.Of(i).CrewFloat = schedule.NoFloat
		}
	}
	for i := range a.Programme.Unloads {
		a.Programme.Unloads[i].LateArrival = calendars.Never
	}
}

// withoutGap is the latest arrival, at most latest, such that a lorry that comes
// then or sooner is begun in the opening of the gate in which it comes: one that
// comes too near the end of an opening is sent away.
func (a *assembly) withoutGap(k int, latest calendars.Instant) calendars.Instant {
	own, takes := a.Calendars[a.Nodes[k].Calendar], a.Nodes[k].Work
	for at := a.t.Start[k]; takes > 0 && latest != calendars.Past && at < latest; {
		open, found := own.Opening(at)
		if !found {
			break
		}
		last := open.End.Plus(-takes)
		next := own.Fit(last+1, takes)
		if next > a.Hours.GateShuts(last+1) {
			return max(min(latest, last), a.t.Start[k])
		}
		at = next
	}
	return latest
}

// some finds dates for all, or else for as much work as possible, when the search has
// found none. What is optional and would miss a date, the line too, is left out.
func (c *crewSearch) some(f *found) {
	c.pose(f) // the first part of a search knows no line
	for missed := true; missed; {
		r, err := search.NewReplayer(&f.problem.Problem)
		if err != nil {
			panic(err) // the search would have failed
		}
		t, all := r.InTurn()
		if !all {
			early := network.NewTimes(f.problem.Net)
			critical.Forward(f.problem.Net, early)
			t = r.Some(early.Start)
		}
		f.Found = all
		f.Start, f.Finish, f.Done, f.Mode = t.Start, t.Finish, t.Done, make([]uint8, len(t.Start))
		missed = c.leaveMissed(f)
	}
}

// booked is the plan with the bookings that a search found.
func (c *crewSearch) booked(f *found) *schedule.Plan {
	if len(f.problem.Bookings) == 0 {
		return c.s.model.Plan
	}
	q := *c.s.model.Plan
	q.Deliveries = slices.Clone(q.Deliveries)
	next := 0
	for d, free := range f.free {
		if free {
			b := &f.problem.Bookings[next]
			q.Deliveries[d].Arrives = b.At(f.Start[b.Node])
			next++
		}
	}
	return &q
}

// heads are the people that a search found for every task.
func (c *crewSearch) heads(f *found) [][]int {
	out := make([][]int, len(c.s.model.Plan.Tasks))
	for i := range out {
		if f.problem.Left(schedule.TaskID(i)) {
			out[i] = make([]int, len(c.s.model.Plan.Tasks[i].Crew))
			continue
		}
		out[i] = f.problem.Heads[i][f.Mode[f.problem.Model.Node(schedule.Activity(i))]]
	}
	return out
}

// moves lists the starts that differ from a reference.
func moves(reference, g *schedule.Programme) []schedule.Move {
	if reference == nil || len(reference.Tasks) != len(g.Tasks) {
		return nil
	}
	start := func(t *schedule.TaskDates) calendars.Instant {
		if t.Dropped {
			return calendars.Never
		}
		return t.Start
	}
	var out []schedule.Move
	for i := range g.Tasks {
		if was, now := start(&reference.Tasks[i]), start(&g.Tasks[i]); was != now {
			out = append(out, schedule.Move{Task: schedule.TaskID(i), Was: was, Now: now})
		}
	}
	slices.SortStableFunc(out, func(a, b schedule.Move) int { return int(min(a.Was, a.Now)) - int(min(b.Was, b.Now)) })
	return out
}
