package odds

import (
	"context"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/builds"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/critical"
)

// Days draws a number of days, wet or not, of build k.
func Days(w schedule.WetDays, k uint64, days int) []bool {
	x := sky{wet: &w, share: LongRun(&w), counted: days}
	var s builds.Stream
	s.Begin(1, k)
	out := make([]bool, days)
	x.days(&s, out)
	return out
}

// Starts are those of all tasks in one build of a programme; Never for one left out.
func Starts(c network.Case) ([]calendars.Instant, error) {
	m, err := newModel(context.Background(), c, Options{Builds: 1})
	if err != nil {
		return nil, err
	}
	b, err := newBuilder(m)
	if err != nil {
		return nil, err
	}
	_, t, _ := b.build(1, 0)
	out := make([]calendars.Instant, len(c.Plan.Tasks))
	for i := range out {
		a := schedule.Activity(i)
		if out[i] = t.Start[m.Node(a)]; c.Programme.Tasks[i].Dropped || m.HasNoPlace(a) {
			out[i] = calendars.Never
		}
	}
	return out, nil
}

// Built is one build as a plan with what was drawn and its programme, which says of
// breaks only which they are, but for tasks at the hand-over.
func Built(c network.Case, o Options, k uint64) (*schedule.Plan, *schedule.Programme, error) {
	g := c.Programme
	m, err := newModel(context.Background(), c, o)
	if err != nil {
		return nil, nil, err
	}
	b, err := newBuilder(m)
	if err != nil {
		return nil, nil, err
	}
	finish, t, _ := b.build(o.Seed, k)
	if finish == calendars.Never {
		return nil, nil, nil
	}
	q := *m.Plan
	q.Tasks = slices.Clone(q.Tasks)
	q.Deliveries = slices.Clone(q.Deliveries)
	out := &schedule.Programme{
		Scope: schedule.Crews, Finish: finish,
		Tasks: slices.Clone(g.Tasks), Unloads: slices.Clone(g.Unloads), Blocked: g.Blocked,
	}
	for i := range q.Tasks {
		d := &out.Tasks[i]
		if d.Dropped || m.HasNoPlace(schedule.Activity(i)) {
			continue
		}
		k := m.Node(schedule.Activity(i))
		node := &b.Network().Nodes[k]
		q.Tasks[i].Effort = schedule.Effort{Takes: node.Work}
		d.Start, d.Finish, d.Done = t.Start[k], t.Finish[k], t.Done[k]
		d.Signed = critical.Signed(b.Network(), node, t.Finish[k])
		if d.Work = nil; d.Start < d.Finish {
			d.Work = slices.Collect(b.Network().Calendars[node.Calendar].Openings(d.Start, d.Finish))
		}
	}
	for i := range q.Deliveries {
		if m.HasNoPlace(m.Plan.Unload(schedule.DeliveryID(i))) {
			continue
		}
		k := m.Node(m.Plan.Unload(schedule.DeliveryID(i)))
		q.Deliveries[i].HoldUp(q.Deliveries[i].Arrives, q.Deliveries[i].Arrives.Plus(b.Shift[i]))
		u := &out.Unloads[i]
		u.Arrives, u.Start, u.Finish = q.Deliveries[i].Arrives, t.Start[k], t.Finish[k]
		u.Waiting = m.Hours.WaitingTime(&q.Deliveries[i], u.Arrives, u.Start)
	}
	for day, is := range b.wet {
		if is {
			q.Site.WetOn = append(q.Site.WetOn, calendars.DateIn(m.sky.midnights[day], q.Site.Location))
		}
	}
	for i, n := range b.broken {
		if d := &m.Dates[i]; n > 0 {
			out.Breaks = append(out.Breaks, schedule.Break{Kind: d.Kind, Activity: d.Activity, Stock: d.Stock()})
		}
	}
	return &q, out, nil
}
