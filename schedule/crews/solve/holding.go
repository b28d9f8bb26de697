package solve

import (
	"context"

	"build.example/turflast/schedule/crews/bound"
	"build.example/turflast/schedule/crews/search"
	"build.example/turflast/schedule/network"
)

// holdTries is the most schedules built to find a programme that meets all dates.
const holdTries = 800

// Holding looks for any crew programme that meets every date, starting from the
// order of the reference, and takes the first. It has dates and breaks, but no
// reasons, chain or crew floats. When found is false, nothing is proven.
func (s *Solver) Holding(ctx context.Context, o Options) (holding network.Case, found bool) {
	c := s.crewSearch(ctx, o, holdTries)
	onTime := search.Cost{End: int64(s.model.Plan.Site.Handover)}
	f := c.search(choice{enough: onTime}, nil)
	if free := c.movable(); f.late() && free != nil {
		f = better(c.search(choice{free: free, enough: onTime, share: 2, stage: 1}, f), f)
	}
	if all := c.allOptional(); f.late() && all != nil {
		f = better(c.search(choice{dropped: all, free: c.movable(), enough: onTime, share: 2, stage: 2}, f), f)
	}
	if !f.Found || f.late() || stuck(f.problem.Model) {
		return network.Case{}, false
	}
	a := c.assemble(f)
	a.finish()
	a.dates()
	a.breaks()
	return s.with(a.Programme), true
}

// Unmeetable says whether it is proven that no crew programme meets every date,
// whatever is rebooked and whichever optional tasks are left out.
func (s *Solver) Unmeetable(ctx context.Context) bool {
	c := s.crewSearch(ctx, Options{}, holdTries)
	dropped := c.allOptional()
	m := c.expand(dropped)
	if stuck(m) {
		return true
	}
	p := c.resources.Problem(m, dropped, c.movable())
	handover := s.model.Plan.Site.Handover
	strict, err := p.Strict(handover)
	if err != nil {
		panic(err) // the added nodes have no followers
	}
	return bound.Finish(strict, bound.Options{Upper: handover + 1}).Finish > handover
}
