package odds

import (
	"context"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/critical"
)

// Play is one build as it went.
type Play struct {
	Options
	Number int               // of the builds, from 1
	Finish calendars.Instant // when the last required work is done

	// Plan is the plan as it turned out: working times, lorries, weather, and what people
	// got at another time.
	Plan *schedule.Plan
	// Programme is what came of it. Its breaks say only which dates break, without those of
	// tasks at the hand-over.
	Programme *schedule.Programme
	Happened  []Happening // in order of time
}

// Played builds one build of a crew programme, that of number k among those of [Run]. It is nil
// when some work has no place in it, or longest waits can't all hold. Errors are those of
// [Run].
func Played(ctx context.Context, c network.Case, o Options, k uint64) (*Play, error) {
	w, err := newWay(ctx, c, o)
	if err != nil {
		return nil, err
	}
	return w.played(c.Programme, o, k), nil
}

// played is [Played] of a way, of a programme.
func (w *way) played(planned *schedule.Programme, o Options, k uint64) *Play {
	b := w.builders[0]
	clear(b.broken)
	if b.people != nil {
		b.people.Telling = true
	}
	finish, t, _ := b.build(o.Seed, k)
	if finish == calendars.Never {
		return nil
	}
	out := &Play{
		Options: o, Number: int(k) + 1, Finish: finish, Plan: b.turnedOut(t), Programme: b.programme(planned, t),
	}
	out.Programme.Finish = finish
	out.Happened = b.happened(planned, out)
	return out
}

// fails says whether the sign-off of a task fails the first time in the last build.
func (b *builder) fails(id schedule.TaskID) bool {
	h := b.Network().Nodes[b.m.Node(id.Activity())].Hold
	return h != network.None && b.Network().Holds[h].Right > 0
}

// turnedOut is the plan with what was drawn last and what people got at another time.
func (b *builder) turnedOut(t *network.Times) *schedule.Plan {
	q := b.drawn()
	for i := range q.Tasks {
		if a := schedule.Activity(i); !b.m.HasNoPlace(a) && q.Tasks[i].Effort.Shared() {
			q.Tasks[i].Effort = schedule.Effort{Takes: b.Network().Nodes[b.m.Node(a)].Work}
		}
		q.Tasks[i].Crew = slices.Clone(q.Tasks[i].Crew)
		for k, n := range b.m.Heads[i] {
			q.Tasks[i].Crew[k].Least = max(n, q.Tasks[i].Crew[k].Least) // no crew is made up with fewer
		}
	}
	if b.people != nil {
		b.called(q)
	}
	for i := range b.m.Checks {
		if id := b.m.Checks[i].ID; b.fails(id) {
			q.Tasks[id].Hold = b.failed(q.Tasks[id].Hold, t, b.m.Node(id.Activity()))
		}
	}
	return q
}

// failed is a hold point as it turned out, which took until it was signed at last.
func (b *builder) failed(h *schedule.HoldPoint, t *network.Times, node int) *schedule.HoldPoint {
	out := *h
	n := b.Network()
	at := signed(n, node, t.Finish[node])
	switch {
	case at == calendars.Never:
	case len(h.Appointments) > 0:
		out.Appointments = slices.DeleteFunc(slices.Clone(h.Appointments), func(x calendars.Instant) bool {
			return x < at.Plus(-h.Takes)
		})
		if len(out.Appointments) == 0 {
			out.Appointments = []calendars.Instant{at.Plus(-h.Takes)}
		}
	case h.OnTheClock:
		out.Takes = calendars.Minutes(at - t.Finish[node])
	default:
		out.Takes += h.Takes + n.Holds[n.Nodes[node].Hold].Right
	}
	return &out
}

// signed is when the hold point of a node is signed.
func signed(n *network.Network, node int, finish calendars.Instant) calendars.Instant {
	return critical.Signed(n, &n.Nodes[node], finish)
}

// called gives a plan what people got at another time.
func (b *builder) called(q *schedule.Plan) {
	q.Machines = slices.Clone(q.Machines)
	for _, x := range b.people.Changes {
		if x.Call == network.None {
			continue
		}
		switch call := &b.m.Calls[x.Call]; {
		case call.Task != schedule.None:
			h := *q.Tasks[call.Task].Hold
			h.Appointments = append(slices.Clone(h.Appointments), x.From)
			slices.Sort(h.Appointments)
			q.Tasks[call.Task].Hold = &h
		default:
			w := &q.Machines[call.Machine]
			w.Ours = slices.DeleteFunc(slices.Clone(w.Ours), func(s calendars.Span) bool { return s.Start >= x.From })
			if n := len(w.Ours); n > 0 {
				w.Ours[n-1].End = min(w.Ours[n-1].End, x.From)
			}
			w.Ours = append(w.Ours, calendars.Span{Start: x.From, End: q.Site.Handover})
		}
	}
}

// programme is what came of the last build, with the dates t by node.
func (b *builder) programme(g *schedule.Programme, t *network.Times) *schedule.Programme {
	m, n := b.m, b.Network()
	out := &schedule.Programme{
		Scope: schedule.Crews, Tasks: slices.Clone(g.Tasks), Unloads: slices.Clone(g.Unloads), Blocked: g.Blocked,
	}
	if b.people != nil {
		for _, x := range b.people.Changes {
			if x.Left != schedule.None {
				out.Tasks[x.Left] = schedule.LeftOut(len(m.Plan.Tasks[x.Left].Crew))
			}
		}
	}
	for i := range out.Tasks {
		d := &out.Tasks[i]
		if d.Dropped || m.HasNoPlace(schedule.Activity(i)) {
			continue
		}
		k := m.Node(schedule.Activity(i))
		node := &n.Nodes[k]
		d.Start, d.Finish, d.Done, d.Signed = t.Start[k], t.Finish[k], t.Done[k], signed(n, k, t.Finish[k])
		if d.Work = nil; d.Start < d.Finish {
			d.Work = slices.Collect(n.Calendars[node.Calendar].Openings(d.Start, d.Finish))
		}
	}
	for i := range out.Unloads {
		id := schedule.DeliveryID(i)
		if m.HasNoPlace(m.Plan.Unload(id)) {
			continue
		}
		k := m.Node(m.Plan.Unload(id))
		u, d := &out.Unloads[i], &m.Plan.Deliveries[i]
		u.Arrives, u.Start, u.Finish = d.Arrives.Plus(b.Shift[i]), t.Start[k], t.Finish[k]
		u.Waiting = m.Hours.WaitingTime(d, u.Arrives, u.Start)
	}
	for i, n := range b.broken {
		if d := &m.Dates[i]; n > 0 {
			out.Breaks = append(out.Breaks, schedule.Break{Kind: d.Kind, Activity: d.Activity, Stock: d.Stock()})
		}
	}
	return out
}
