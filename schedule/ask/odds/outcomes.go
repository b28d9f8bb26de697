package odds

import (
	"context"
	"math"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
)

// Outcome is what came of one build.
type Outcome struct {
	// Finish is when the last required work is done; Never when one has no place in the
	// build, or its longest waits can't all hold. What has no place in the programme
	// doesn't count.
	Finish calendars.Instant
	Broken bool // a date other than the hand-over of a task breaks
}

// Outcomes builds a crew programme as [Run] does and lists what came of each build. For
// programmes of one plan that differ in starts, heads and bookings, the same seed draws
// the same numbers build by build, so their outcomes are pairs. Memory grows with the
// number of builds.
func Outcomes(ctx context.Context, c network.Case, o Options) ([]Outcome, error) {
	w, err := newWay(ctx, c, o)
	if err != nil {
		return nil, err
	}
	return w.outcomes(ctx, o)
}

// outcomes is [Outcomes] of a way.
func (w *way) outcomes(ctx context.Context, o Options) ([]Outcome, error) {
	out := make([]Outcome, o.Builds)
	each(ctx, o.Builds, len(w.builders), w.batch(), func(worker, k int) {
		b := w.builders[worker]
		clear(b.broken)
		out[k].Finish, _, _ = b.build(o.Seed, uint64(k))
		out[k].Broken = slices.ContainsFunc(b.broken, func(n int) bool { return n > 0 })
	})
	return out, ctx.Err()
}

// Foreseen returns the plan as each of the first builds draws it, with all known
// beforehand: working times, late lorries, wet days and who turns out, and the bookings of
// the programme. What has happened stays.
func Foreseen(ctx context.Context, c network.Case, o Options) ([]*schedule.Plan, error) {
	if err := o.check(); err != nil {
		return nil, err
	}
	m, err := newModel(ctx, c, o)
	if err != nil {
		return nil, err
	}
	b, err := newBuilder(m, o.Replan)
	if err != nil {
		return nil, err
	}
	out := make([]*schedule.Plan, o.Builds)
	for k := range out {
		b.draw(o.Seed, uint64(k))
		out[k] = b.drawn()
	}
	return out, nil
}

// drawn returns the plan with what was drawn last.
func (b *builder) drawn() *schedule.Plan {
	p := b.m.Plan
	q := *p
	q.Tasks, q.Deliveries = slices.Clone(p.Tasks), slices.Clone(p.Deliveries)
	for k := range b.m.Tasks {
		id := b.m.Tasks[k].ID
		work := b.Network().Nodes[b.m.Node(id.Activity())].Work
		e := &q.Tasks[id].Effort
		switch {
		case p.Started(id):
		case e.Shared():
			heads := 0
			for _, h := range b.m.Heads[id] {
				heads += h
			}
			e.Num, e.Den = int64(work)*int64(max(heads, 1)), 1
		default:
			e.Takes = work
		}
	}
	for k := range b.m.Lorries {
		d := &q.Deliveries[b.m.Lorries[k].ID]
		d.HoldUp(d.Arrives, d.Arrives.Plus(b.Shift[b.m.Lorries[k].ID]))
	}
	b.turnOut(&q)
	if w := b.weather; w != nil {
		q.Site.WetOn = w.dates(q.Site.WetOn, w.wet, q.Site.Location)
		q.Site.WindyOn = w.dates(q.Site.WindyOn, w.windy, q.Site.Location)
	}
	return &q
}

// turnOut takes those away from the crews of a plan who didn't turn out in the last build.
func (b *builder) turnOut(q *schedule.Plan) {
	if len(b.Short) == 0 {
		return
	}
	q.Crews = slices.Clone(q.Crews)
	for i := range b.Short {
		x := &b.Short[i]
		c := &q.Crews[b.m.Crowds[x.Crowd].Crew]
		c.Away = append(slices.Clip(c.Away), schedule.Away{Span: x.Span, People: x.Planned - x.There})
	}
}

// Paired returns the 95 % confidence interval of the difference between two chances seen
// in pairs, where won pairs succeed only with the first and lost only with the second:
// Wald's, with half a pair added to each of the four cells (Agresti and Min, 2005).
func Paired(won, lost, pairs int) (low, high float64) {
	const z = 1.959963984540054
	n := float64(pairs) + 2
	b, c := float64(won)+0.5, float64(lost)+0.5
	mid := (b - c) / n
	half := z / n * math.Sqrt(b+c-float64((b-c)*(b-c)/n))
	return max(mid-half, -1), min(mid+half, 1)
}
