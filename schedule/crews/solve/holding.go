package solve

import (
	"context"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/crews/bound"
	"build.example/turflast/schedule/crews/search"
)

// holdTries is the most schedules built to find a programme that meets all dates.
const holdTries = 800

// holding looks for any crew programme that keeps the promise of the options, starting
// from the order of the reference, and takes the first. It has dates and breaks, but no
// reasons, chain or crew floats. When kept is false, it is the best found and nothing is
// proven.
func (s *Solver) holding(ctx context.Context, o Options) (a *assembly, kept bool) {
	c := s.crewSearch(ctx, o, holdTries)
	onTime := search.Cost{End: int64(o.Promise.line(s.model.Plan))}
	f := c.search(choice{enough: onTime}, nil)
	if free := c.movable(); f.late() && free != nil {
		f = better(c.search(choice{free: free, enough: onTime, share: 2, stage: 1}, f), f)
	}
	if all := c.allOptional(); f.late() && all != nil {
		f = better(c.search(choice{dropped: all, free: c.movable(), enough: onTime, share: 2, stage: 2}, f), f)
	}
	kept = f.Found && !f.late() && !o.Promise.blocks(f.problem.Model)
	return c.bare(f), kept
}

// Hopeless says whether links, hours and dates alone, hands unlimited, leave no programme
// that keeps a promise, whatever is rebooked and whichever optional tasks are left out. It
// is the part of [Solver.Unmeetable] that takes no time.
func (s *Solver) Hopeless(w Promise) bool {
	p, line := s.strict(w)
	return p == nil || bound.Links(p) > line
}

// Unmeetable says whether it is proven that no crew programme keeps a promise, whatever
// is rebooked and whichever optional tasks are left out. When ctx is done it says only what
// was proven by then.
func (s *Solver) Unmeetable(ctx context.Context, w Promise) bool {
	p, line := s.strict(w)
	return p == nil || bound.Finish(p, bound.Options{Upper: line + 1, Context: ctx}).Finish > line
}

// strict is the problem of a promise and the line by which all must be done; nil when
// required work has no place.
func (s *Solver) strict(w Promise) (*crews.Problem, calendars.Instant) {
	c := s.crewSearch(context.Background(), Options{Promise: w}, holdTries)
	dropped := c.allOptional()
	m := c.s.modelWithout(dropped)
	line := w.line(s.model.Plan)
	if w.blocks(m) {
		return nil, line
	}
	p := c.resources.Problem(m, dropped, c.movable())
	w.on(p)
	strict, err := p.Strict(line)
	if err != nil {
		panic(err) // the added nodes have no followers
	}
	return strict, line
}
