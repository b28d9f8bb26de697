package solve

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/internal/halt"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/critical"
)

// assembly builds a programme from the times of its network.
type assembly struct {
	network.Case // its programme is filled in
	t            *network.Times

	hands    *hands // nil in a logic programme
	dropped  []bool // optional tasks left out; nil for none
	required []bool // by Activity, as [schedule.Plan.Required]
	halt     halt.Halt
	unasked  bool // reasons are left out

	scratch, tight []schedule.Reason // scratch space for own reasons and what fixes a start
	barred         []bar             // scratch space for bars
	gone           cleared           // scratch space for what is taken away
	list           []schedule.Reason // the reasons kept in the programme, several to a slice
}

// newAssembly begins a programme with the times t.
func newAssembly(m *network.Model, t *network.Times, scope schedule.Scope) *assembly {
	g := &schedule.Programme{
		Scope:   scope,
		Tasks:   make([]schedule.TaskDates, len(m.Plan.Tasks)),
		Unloads: make([]schedule.UnloadDates, len(m.Plan.Deliveries)),
	}
	return &assembly{Case: network.Case{Model: m, Programme: g}, t: t, required: m.Plan.RequiredOfEach()}
}

// finish sets the last required finish, of what has a place, and the margins from it to
// the hand-over and the aim.
func (a *assembly) finish() {
	p := a.Plan
	a.Programme.Finish = p.Site.Opens
	for i := range p.Activities() {
		if done := a.t.Done[a.Node(i)]; a.counts(i) && done != calendars.Never {
			a.Programme.Finish = max(a.Programme.Finish, done)
		}
	}
	a.Programme.Handover = a.margin(p.Site.Handover)
	if p.Site.Aim != 0 {
		a.Programme.Aim = a.margin(p.Site.Aim)
	}
}

// counts says whether the hand-over waits for an activity, which has a place.
func (a *assembly) counts(of schedule.Activity) bool { return a.required[of] && !a.HasNoPlace(of) }

// margin is the site time from the last required finish to a moment. A negative
// margin without any site time is on the clock.
func (a *assembly) margin(to calendars.Instant) schedule.Margin {
	from := a.Programme.Finish
	open := a.Hours.Site.Between(from, to)
	if open == 0 && from > to {
		return schedule.Margin{Time: calendars.Minutes(to - from), Clock: true}
	}
	return schedule.Margin{Time: open}
}

func (a *assembly) dates() {
	p, t := a.Plan, a.t
	free := critical.Free(a.Network, t, a.Programme.Finish)
	for i := range p.Tasks {
		k := a.Node(schedule.Activity(i))
		node := &a.Nodes[k]
		d := &a.Programme.Tasks[i]
		if a.dropped != nil && a.dropped[i] {
			*d = schedule.LeftOut(len(p.Tasks[i].Crew))
			continue
		}
		if a.HasNoPlace(schedule.Activity(i)) {
			a.unplaced(schedule.TaskID(i))
			continue
		}
		*d = schedule.TaskDates{
			Dates: a.datesOf(k, free), Done: t.Done[k], LateFinish: t.LateFinish[k],
			Signed: critical.Signed(a.Network, node, t.Finish[k]), Heads: a.Heads[i],
		}
		if d.Start < d.Finish {
			d.Work = slices.AppendSeq(make([]calendars.Span, 0, 2),
				a.Calendars[node.Calendar].Openings(d.Start, d.Finish))
		}
		a.stood(schedule.TaskID(i))
	}
	for i := range p.Deliveries {
		k := a.Node(p.Unload(schedule.DeliveryID(i)))
		u := &a.Programme.Unloads[i]
		if a.HasNoPlace(p.Unload(schedule.DeliveryID(i))) {
			*u = schedule.UnloadDates{Dates: schedule.NoDates(), Arrives: p.Deliveries[i].Arrives}
			u.TotalFloat = schedule.NoFloat
			a.unloaded(schedule.DeliveryID(i))
			continue
		}
		*u = schedule.UnloadDates{Dates: a.datesOf(k, free), Arrives: p.Deliveries[i].Arrives}
		a.unloaded(schedule.DeliveryID(i))
		u.Waiting = a.Hours.WaitingTime(&p.Deliveries[i], u.Arrives, u.Start)
	}
}

// datesOf are the dates and floats of a node.
func (a *assembly) datesOf(k int, free []calendars.Minutes) schedule.Dates {
	return schedule.Dates{
		Start: a.t.Start[k], Finish: a.t.Finish[k], LateStart: a.t.LateStart[k],
		TotalFloat: critical.Total(a.Network, a.t, k), FreeFloat: free[k],
	}
}

// stood puts what has happened before the dates of a task's rest. A finished task
// has no float left.
func (a *assembly) stood(id schedule.TaskID) {
	if !a.Plan.Started(id) {
		return
	}
	d, was := &a.Programme.Tasks[id], &a.Plan.Progress.Tasks[id]
	if was.Finish != 0 {
		d.LateStart, d.LateFinish, d.TotalFloat, d.FreeFloat = was.Start, was.Finish, 0, 0
		d.Heads = was.Heads
	} else {
		d.Resumes = d.Start
	}
	d.Start = was.Start
	d.Work = append(slices.Clone(was.Worked), d.Work...)
}

// unloaded puts the start that happened before the dates of an unloading in hand
// or over.
func (a *assembly) unloaded(id schedule.DeliveryID) {
	if !a.Plan.Unloading(id) {
		return
	}
	u := &a.Programme.Unloads[id]
	u.Start = a.Plan.Progress.Deliveries[id].Start
	if a.Plan.Unloaded(id) {
		u.LateStart, u.TotalFloat, u.FreeFloat = u.Start, 0, 0
	}
}

// unplaced sets the entry of a task without a place. An optional one is left out.
func (a *assembly) unplaced(id schedule.TaskID) {
	d := &a.Programme.Tasks[id]
	*d = schedule.LeftOut(len(a.Plan.Tasks[id].Crew))
	d.TotalFloat = schedule.NoFloat
	d.Dropped = a.Plan.Tasks[id].Optional && !a.Plan.Started(id)
	d.Heads = a.Heads[id]
	a.stood(id)
}

// lateArrivals sets the latest arrivals. Once unloading has begun, that is when
// the lorry came.
func (a *assembly) lateArrivals() {
	for i := range a.Programme.Unloads {
		d := schedule.DeliveryID(i)
		if a.HasNoPlace(a.Plan.Unload(d)) {
			a.Programme.Unloads[i].LateArrival = calendars.Never
		} else if a.Plan.Unloading(d) {
			a.Programme.Unloads[i].LateArrival = a.Programme.Unloads[i].Arrives
		} else {
			a.Programme.Unloads[i].LateArrival = a.lateArrival(d)
		}
	}
}

// lateArrival is the latest arrival of a lorry that is held up at which every date
// that depends on it holds: the late start of its unloading, whatever the opening of
// the gate in which it is booked. Its stock keeps as long as if it came in time.
func (a *assembly) lateArrival(d schedule.DeliveryID) calendars.Instant {
	unload := a.Node(a.Plan.Unload(d))
	return a.withoutGap(unload, a.keeping(d, critical.LatestStart(a.Network, a.t, unload)))
}

// keeping is the latest arrival of a lorry that is held up, at most latest, at which its
// stock isn't past its keep as it comes: dates that are broken already, or that nothing
// makes, don't say so.
func (a *assembly) keeping(d schedule.DeliveryID, latest calendars.Instant) calendars.Instant {
	s := &a.Plan.Deliveries[d]
	if s.Keep == 0 {
		return latest
	}
	return min(latest, max(s.KeepsUntil(s.Arrives), s.Arrives))
}

// breaks lists the dates that don't hold, by kind, and in each kind deliveries
// before tasks.
func (a *assembly) breaks() {
	p, g := a.Plan, a.Programme
	g.Breaks = nil
	add := func(
		kind schedule.BreakKind, of schedule.Activity, stock schedule.DeliveryID, limit, actual calendars.Instant,
	) {
		if actual > limit && actual != calendars.Never {
			g.Breaks = append(g.Breaks, schedule.Break{
				Kind: kind, Activity: of, Stock: stock, Limit: limit, Actual: actual,
			})
		}
	}
	for i := range p.Tasks {
		t, d, id := &p.Tasks[i], &g.Tasks[i], schedule.Activity(i)
		if a.required[i] {
			add(schedule.BreakHandover, id, schedule.None, p.Site.Handover, d.Done)
		}
		if t.By != 0 {
			add(schedule.BreakBy, id, schedule.None, t.By, d.Finish)
		}
		for _, u := range t.Uses {
			if s := &p.Deliveries[u]; s.Keep > 0 {
				add(schedule.BreakKeep, id, u, s.KeepsUntil(g.Unloads[u].Arrives), d.Finish)
			}
		}
	}
	for i := range p.Deliveries {
		u, id := &g.Unloads[i], p.Unload(schedule.DeliveryID(i))
		if a.required[id] {
			add(schedule.BreakHandover, id, schedule.None, p.Site.Handover, u.Finish)
		}
		add(schedule.BreakSentAway, id, schedule.None, a.Hours.GateShuts(u.Arrives), u.Start)
	}
	for _, l := range a.Limits {
		of := a.Activity(l.Number)
		add(schedule.BreakWithin, of, schedule.None, l.At, a.event(of, l.Finish))
	}
	task := func(b schedule.Break) int {
		if _, ok := p.Task(b.Activity); ok {
			return 1
		}
		return 0
	}
	slices.SortFunc(g.Breaks, func(x, y schedule.Break) int {
		return cmp.Or(cmp.Compare(x.Kind, y.Kind), cmp.Compare(task(x), task(y)), cmp.Compare(x.Activity, y.Activity),
			cmp.Compare(x.Stock, y.Stock), cmp.Compare(x.Limit, y.Limit))
	})
}

// event is the start or finish of an activity in the programme.
func (a *assembly) event(of schedule.Activity, finish bool) calendars.Instant {
	if finish {
		return a.Programme.Of(of).Finish
	}
	return a.Programme.Of(of).Start
}
