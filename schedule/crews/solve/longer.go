package solve

import (
	"cmp"
	"context"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/network"
)

// Longer is a search for a crew programme that goes on in steps from what [Solver.Crews]
// finds, each about as much work as that took. After more steps the programme is never
// worse in the order of aims. Steps are counted work: so many of them give the same
// programme on any machine.
type Longer struct {
	c     *crewSearch
	first *found // after the first search; nil before
	best  *found
}

// Longer prepares a search; its first step is the search of [Solver.Crews] without more.
func (s *Solver) Longer(o Options) *Longer {
	return &Longer{c: s.crewSearch(context.Background(), o, manyTries)}
}

// Step goes on by one step and says whether it found a better programme. When ctx is done
// it ends at once with the best so far. A first search that was ended so is made anew by the
// next step: what was found in haste is nothing that others are better than.
func (l *Longer) Step(ctx context.Context) bool {
	if l.c.stopped {
		l.c, l.first = l.c.s.crewSearch(ctx, l.c.o, manyTries), nil
	}
	c := l.c
	c.ctx = ctx
	if l.first == nil {
		l.first = c.best()
		l.best = l.first
		return true
	}
	c.step++
	c.tell(l.best)
	was := l.best
	l.best = c.further(was)
	return l.best != was
}

// Taken is how many steps it went on by, the first search not counted.
func (l *Longer) Taken() int { return l.c.step }

// Proven says whether it is proven that no programme is better in the first three aims,
// so that no step can find one.
func (l *Longer) Proven() bool {
	return l.best != nil && l.best.dropped == nil && l.c.perfect(l.best, l.c.movable())
}

// Bound is a moment before which no better programme is done, by the last proof; 0 when
// that holds only as long as crews keep to what they were told.
func (l *Longer) Bound() calendars.Instant {
	if l.best == nil || l.c.hold || l.c.proved == nil {
		return 0
	}
	return l.c.proof.Finish
}

// Gains says whether the steps after the first found a programme that is better in the
// first three aims than the first did.
func (l *Longer) Gains() bool {
	return l.first != nil && l.c.compare(l.best, l.first) < 0
}

// Case is the best programme so far, with what is proven. It needs a step before.
func (l *Longer) Case() network.Case {
	defer func(hold bool) { l.c.hold = hold }(l.c.hold)
	shown := l.c.sturdiest(l.best)
	l.c.conclude(shown)
	return l.c.s.with(l.c.programme(shown), shown.dropped)
}

// tell reports where a longer search stands as a step begins.
func (c *crewSearch) tell(best *found) {
	if c.o.Progress != nil && best.Found {
		c.o.Progress(c.progress(0, best.Cost.End))
	}
}

// progress is how far the search has come, with a last finish that it found.
func (c *crewSearch) progress(schedules int, end int64) Progress {
	p := Progress{Schedules: schedules, Finish: calendars.Instant(end), Step: c.step, Steps: c.o.Steps}
	if c.proved != nil && !c.hold {
		p.Bound = c.proof.Finish
	}
	return p
}

// further searches once more from the best found, with other draws: as it is, with other
// bookings, and with fewer or other optional tasks left out.
func (c *crewSearch) further(best *found) *found {
	if c.goesOn {
		return c.furtherAlone(best)
	}
	was, free := best, c.movable()
	c.prove(best, c.spared(best), free)
	ch := choice{dropped: best.dropped, free: best.free, share: 1, enough: c.least()}
	if free != nil {
		ch.share = 2
		other := ch
		other.free = free
		best = c.finer(c.search(other, best), best)
		ch.free = best.free
	}
	best = c.finer(c.search(ch, best), best)
	if best.late() && !c.leastLate(best, free) {
		best = c.finer(c.drop(best), best)
	}
	if best.dropped != nil {
		best = c.finer(c.putBack(c.optional(), best), best)
	}
	if n := c.step + 1; n&(n-1) == 0 {
		best = c.finer(c.close(best, free, closing*c.patience()), best)
	}
	if c.compare(best, was) < 0 {
		best = c.settle(c.bookBack(best))
	}
	return best
}

// patience is how many times the first search's work learning from dead ends gets. It
// begins anew each time, so it runs only when the steps have doubled, for twice as long.
func (c *crewSearch) patience() int64 { return int64(c.step) + 1 }

// finer is f, which was found after best, if it is better in the order of aims. Bookings
// move only for what is better in the first three.
func (c *crewSearch) finer(f, best *found) *found {
	if !f.Found || f == best {
		return best
	}
	by := c.compare(f, best)
	if by < 0 || by == 0 && moreKept(f, best) && f.Cost.Compare(best.Cost) < 0 {
		return f
	}
	return best
}

// moreKept says whether f keeps every booking that another programme keeps.
func moreKept(f, best *found) bool {
	for d, free := range f.free {
		if free && (best.free == nil || !best.free[d]) {
			return false
		}
	}
	return true
}

// compare compares two programmes in the first three aims: lateness, with moves of what
// was told; then optional tasks left out, as few as can be and those of the lowest drop
// order; then the last finish. Less is better.
func (c *crewSearch) compare(a, b *found) int {
	x, y := a.Cost, b.Cost
	x.End, y.End = 0, 0
	return cmp.Or(x.Dates(y), c.compareLeft(a, b), cmp.Compare(a.Cost.End, b.Cost.End))
}

// compareLeft compares what two programmes leave out.
func (c *crewSearch) compareLeft(a, b *found) int {
	left := func(f *found) (ranks []int) {
		for rank, t := range c.optional() {
			if f.problem.Left(t) {
				ranks = append(ranks, rank)
			}
		}
		return ranks
	}
	x, y := left(a), left(b)
	return cmp.Or(cmp.Compare(len(x), len(y)), slices.Compare(x, y))
}
