package solve

import (
	"context"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/search"
	"build.example/turflast/schedule/network"
)

// Ordered is the crew programme that takes work in the order of the starts of g,
// another programme of the same tasks, with its heads and without the tasks that
// it drops, each as soon as everything shared allows. What is optional and would miss
// a date is left out. It has dates and breaks, but no reasons, chain or crew floats.
func (s *Solver) Ordered(g *schedule.Programme) network.Case {
	c, f := s.ordered(context.Background(), g)
	return s.with(c.bare(f).Programme, f.dropped)
}

// OrderedWhole is the programme of Ordered with reasons, chain, crew floats and
// what is proven of the plan.
func (s *Solver) OrderedWhole(ctx context.Context, g *schedule.Programme) network.Case {
	c, f := s.ordered(ctx, g)
	c.prove(f, nil, nil)
	return s.with(c.programme(f), f.dropped)
}

func (s *Solver) ordered(ctx context.Context, g *schedule.Programme) (*crewSearch, *found) {
	c := s.crewSearch(ctx, Options{}, manyTries)
	f := &found{}
	for i := range g.Tasks {
		if g.Tasks[i].Dropped {
			if f.dropped == nil {
				f.dropped = make([]bool, len(g.Tasks))
			}
			f.dropped[i] = true
		}
	}
	f.problem = c.resources.Problem(c.s.modelWithout(f.dropped), f.dropped, nil)
	for missed := true; missed; missed = f.Found && c.leaveMissed(f) {
		order := &aims{}
		order.want(g, f.problem)
		r, err := search.Follow(&f.problem.Problem, *order.from)
		if err != nil {
			panic(err) // the reader refuses plans that need more than there ever is
		}
		f.Result = r
	}
	return c, f
}
