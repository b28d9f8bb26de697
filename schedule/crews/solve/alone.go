package solve

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule/crews/learner"
	"build.example/turflast/schedule/crews/resources"
	"build.example/turflast/schedule/crews/search"
)

// alone is the search for the earliest finish where that is all that counts. It goes on in
// turns, each about as much work: schedules from where the turn before left off, then
// learning from dead ends around the best of them, which the next turn takes in. What is
// learnt is kept from the second turn on: the first is all that most plans need.
type alone struct {
	going *search.Going
	of    *found // with its problem
	turns int    // that are over
	end   int64  // the best last finish that the schedules know of

	dead   *learner.Closing   // what is learnt from dead ends; nil before it
	closed *resources.Problem // of which it learns
	asked  question           // what that is about
}

// turnTries is the most schedules of a turn, unless the options say otherwise. learning is
// the most steps of the solver that learns, for each node that they place.
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
	if a.turns++; a.turns == 1 {
		return c.close(best, nil, c.learnt())
	}
	return c.learn(best)
}

// learnt is how many steps the solver that learns has done after the turns that are over.
func (c *crewSearch) learnt() int64 {
	return int64(learning * c.perTurn() * len(c.s.model.Nodes) * c.alone.turns)
}

// learn goes on with learning from dead ends around the best, from the second turn on. It
// begins only when turns have doubled, so that where it can't it costs little.
func (c *crewSearch) learn(best *found) *found {
	a := c.alone
	if !c.open(best) || best.dropped != nil {
		return best
	}
	again := a.dead == nil || a.asked != c.asked
	if again && a.turns&(a.turns-1) != 0 {
		return best
	}
	if again {
		a.closed, a.asked = c.proved, c.asked
	}
	from := (&found{problem: a.closed}).from(best)
	known := learner.Known{
		Finish: calendars.Instant(best.Cost.End), Bound: c.proof.Finish, Strict: true, Steps: c.learnt(),
		Start: from.Start, Mode: from.Mode,
	}
	if again {
		var err error
		if a.dead, err = learner.Begin(c.ctx, &a.closed.Problem, known); err != nil {
			return best // too large
		}
	}
	r := a.dead.Until(c.ctx, known)
	if r.Bound > c.proof.Finish {
		c.raise(r.Bound, true)
	}
	if r.Start == nil {
		return best
	}
	sooner := c.follow(best, &found{problem: a.closed, Result: search.Result{Start: r.Start, Mode: r.Mode}})
	if sooner.Cost.End > int64(r.Finish) {
		a.dead = nil // what it found can't be built
	}
	return sooner
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
