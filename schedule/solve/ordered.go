package solve

import (
	"context"

	"turflast/schedule"
	"turflast/schedule/levelling"
	"turflast/schedule/resources"
)

// Ordered is the crew programme that takes work in the order of the starts of
// another of the same tasks, with its heads and without what it leaves out, as soon
// as everything that is shared allows. With more than one schedule in the options,
// orders near that one are tried too, until one meets every date and is done by the
// finish that the options are content with. It has dates and breaks, but no reasons,
// chain or crew floats.
func (s *Solver) Ordered(ctx context.Context, g *schedule.Programme, o Options) *schedule.Programme {
	c, f := s.ordered(ctx, g, o)
	a := c.assemble(f)
	a.finish()
	a.dates()
	a.breaks()
	a.blocked()
	return a.g
}

// OrderedWhole is the same programme with all that one has, and what is proven of
// the plan.
func (s *Solver) OrderedWhole(ctx context.Context, g *schedule.Programme, o Options) *schedule.Programme {
	c, f := s.ordered(ctx, g, o)
	c.prove(f, nil, nil)
	return c.programme(f)
}

func (s *Solver) ordered(ctx context.Context, g *schedule.Programme, o Options) (*crews, *found) {
	o.Schedules = max(o.Schedules, 1)
	c := s.crews(ctx, o, manyTries)
	var dropped []bool
	for i := range g.Tasks {
		if g.Tasks[i].Dropped {
			if dropped == nil {
				dropped = make([]bool, len(g.Tasks))
			}
			dropped[i] = true
		}
	}
	ch := choice{dropped: dropped, order: g}
	if o.Content != 0 {
		ch.enough = levelling.Cost{End: int64(o.Content)}
	}
	return c, c.search(ch, nil)
}

// orderOf is the starts and heads of a programme of the same tasks.
func orderOf(g *schedule.Programme, p *resources.Problem) levelling.From {
	a := &aims{}
	a.want(g, p)
	return *a.from
}
