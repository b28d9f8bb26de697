package solve

import (
	"context"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/crews/learner"
	"build.example/turflast/schedule/crews/search"
)

// closing is the most steps of the solver that learns in one search for a programme.
const closing = 400_000

// beginning is the most steps of the solver that learns in each search for a schedule to
// begin with.
const beginning = 200_000

// begin is a schedule to begin with where a search found none, by learning from dead
// ends; nil where that finds none either. Schedules that are built in some order may miss
// for long what longest waits allow in few orders.
func (c *crewSearch) begin(f *found) *search.From {
	asked := func(g *found) bool { return slices.Equal(g.dropped, f.dropped) && slices.Equal(g.free, f.free) }
	if f.Found || c.cut() || len(f.problem.Net.Withins) == 0 || slices.ContainsFunc(c.begun, asked) {
		return nil
	}
	c.begun = append(c.begun, &found{dropped: f.dropped, free: f.free})
	r, err := learner.First(c.ctx, &f.problem.Problem, beginning)
	if err != nil || r.Start == nil {
		return nil
	}
	return &search.From{Start: r.Start, Mode: r.Mode}
}

// close looks, between the last finish of the best found and its bound, for a sooner
// one by learning from dead ends, and raises the bound. A programme on time has to
// stay so; a late one has to be less late, whatever is left out. Without some tasks, a
// programme on time says nothing of those without others, and the bound stays.
func (c *crewSearch) close(best *found, free []bool, steps int64) *found {
	c.prove(best, c.spared(best), free)
	for left := 2 * steps; c.open(best) && left > 0; {
		p := c.proved
		if best.dropped != nil && !best.late() {
			p = best.problem
		}
		from := (&found{problem: p}).from(best)
		r, err := learner.Close(c.ctx, &p.Problem, learner.Known{
			Finish: calendars.Instant(best.Cost.End), Bound: c.proof.Finish, Strict: !best.late(),
			Steps: min(steps, left), Start: from.Start, Mode: from.Mode,
		})
		if err != nil {
			return best // too large
		}
		left -= r.Steps / 2 // of two searches
		if p == c.proved && r.Bound > c.proof.Finish {
			c.raise(r.Bound, !best.late())
		}
		sooner := best
		if r.Start != nil {
			sooner = c.follow(best, &found{problem: p, Result: search.Result{Start: r.Start, Mode: r.Mode}})
		}
		if sooner == best {
			return best
		}
		best = sooner
	}
	return best
}

// NoSooner says whether it is proven that no programme is done before a moment, whatever
// is left out and however late dates are. It may come before the first step, and what it
// proves later steps know.
func (l *Longer) NoSooner(ctx context.Context, than calendars.Instant) bool {
	c := l.c
	c.ctx = ctx
	known := &found{Result: search.Result{Found: true, Cost: search.Cost{Late: 1, End: int64(than)}}}
	c.prove(known, c.allOptional(), c.movable())
	if c.proof.Finish < than && !c.cut() {
		r, err := learner.Close(ctx, &c.proved.Problem, learner.Known{Finish: than, Bound: c.proof.Finish, Steps: closing})
		if err == nil && r.Bound > c.proof.Finish {
			c.raise(r.Bound, false)
		}
	}
	return c.proof.Finish >= than
}

// open says whether a sooner last finish would be better and isn't proven impossible.
func (c *crewSearch) open(f *found) bool {
	if !f.Found || c.cut() || f.late() && f.Cost.Late == 0 {
		return false
	}
	return f.Cost.End > int64(max(c.proof.Finish, c.o.Content))
}

// follow is the programme in the order of one that was proposed, or the best if that
// costs less.
func (c *crewSearch) follow(best, proposed *found) *found {
	from := best.from(proposed)
	for k, at := range from.Start {
		if at == calendars.Past {
			from.Start[k], from.Mode[k] = best.Start[k], best.Mode[k]
		}
	}
	r, err := search.Follow(&best.problem.Problem, from)
	if err != nil || !r.Found || r.Cost.Dates(best.Cost) >= 0 {
		return best
	}
	f := *best
	f.Result = r
	if g := c.withoutMissed(&f); g.Found && g.Cost.Left == 0 && g.Cost.Dates(best.Cost) < 0 {
		return g
	}
	return best
}
