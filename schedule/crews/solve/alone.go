package solve

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule/crews/search"
)

// alone is the search for the earliest finish where that is all that counts. It goes on in
// turns, each about as much work: schedules from where the turn before left off, then
// learning from dead ends around the best of them, which the next turn takes in.
type alone struct {
	going *search.Going
	of    *found // with its problem
	turns int    // that are over
	end   int64  // the best last finish that the schedules know of
}

// turnTries is the most schedules of a turn, unless the options say otherwise. learning is
// the most steps of the solver that learns, for each node that they place, in the first turn:
// it begins anew each time, so it learns in turns 1, 2, 4, 8 and so on, for as many times that
// as turns are over.
const turnTries, learning = 10_000, 3

// perTurn is how many schedules a turn builds.
func (c *crewSearch) perTurn() int {
	if c.o.Schedules > 0 || c.schedules < manyTries {
		return c.schedules
	}
	return min(max(effort/len(c.s.model.Nodes), manyTries), turnTries)
}

// prepare begins the search for the last finish alone, from the best found.
func (c *crewSearch) prepare(best *found) *alone {
	a := &alone{of: &found{dropped: best.dropped, free: best.free}, end: best.Cost.End}
	c.pose(a.of)
	o := search.Options{Seed: c.o.Seed, From: []search.From{a.of.from(best)}}
	going, err := search.Begin(&a.of.problem.Problem, o)
	if err != nil {
		panic(err) // the reader refuses plans that need more than there ever is
	}
	a.going = going
	return a
}

// turn goes on until the turn is over or something is done by the line. It works without
// the line, so what it finds in so many turns is the same wherever that stands.
func (c *crewSearch) turn(best *found, line calendars.Instant) *found {
	defer func(line calendars.Instant) { c.line = line }(c.line)
	c.line = calendars.Never
	if c.alone == nil {
		c.alone = c.prepare(best)
	}
	a := c.alone
	c.prove(best, c.spared(best), nil)
	o := search.Options{Schedules: (a.turns + 1) * c.perTurn(), Enough: c.least()}
	o.Enough.End = max(o.Enough.End, int64(line))
	if best.Cost.End < a.end {
		o.From = []search.From{a.of.from(best)}
	}
	if c.o.Progress != nil {
		o.Better = func(r search.Result) { c.o.Progress(c.progress(r.Schedules, r.Cost.End)) }
	}
	f := *a.of
	f.Result = a.going.Until(c.ctx, o)
	best = better(&f, best)
	if a.end = best.Cost.End; a.end <= int64(line) || c.cut() {
		return best
	}
	if a.turns++; a.turns&(a.turns-1) == 0 {
		best = c.close(best, nil, int64(learning*c.perTurn()*len(c.s.model.Nodes)*a.turns))
	}
	return best
}

// furtherAlone is a step of a longer search where the last finish is all that counts.
func (c *crewSearch) furtherAlone(best *found) *found {
	line := c.line
	c.line = calendars.Never
	c.weigh(best)
	next := c.turn(best, calendars.Past)
	if next != best {
		next = c.settle(next)
	}
	c.line = line
	c.weigh(next)
	return next
}
