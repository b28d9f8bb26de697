package main

import (
	"context"
	"fmt"
	"time"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/crews/bound"
	"build.example/turflast/schedule/crews/instances"
	"build.example/turflast/schedule/crews/learner"
	"build.example/turflast/schedule/crews/search"
)

// row is the result of one instance.
type row struct {
	name      string
	starts    []int // nil: none found
	makespan  int
	path      int // the critical path
	bound     int
	proven    bool // nothing is better, or there is no schedule
	schedules int
	steps     int64
	seconds   float64
}

// unsound is a result that the independent check refuses.
type unsound struct{ why error }

func (u *unsound) Error() string { return "the solver is at fault: " + u.why.Error() }

// stepsWorth is how many steps of the solver that learns, for each activity,
// count as much as a schedule.
const stepsWorth = 100

// board is where the solvers of one instance put what they find.
type board struct {
	x      *instances.Instance
	row    row
	better func([]int)
	done   context.CancelFunc // called when nothing is left to find
	fault  error
}

// found notes a schedule, after checking it against the raw instance.
func (b *board) found(starts []int) {
	if b.fault != nil || b.row.starts != nil && b.x.Makespan(starts) >= b.row.makespan {
		return
	}
	if err := b.x.Check(starts); err != nil {
		b.fail(err)
		return
	}
	b.row.starts, b.row.makespan = starts, b.x.Makespan(starts)
	if b.better != nil {
		b.better(starts)
	}
	b.compare()
}

// raise notes a proven bound.
func (b *board) raise(bound int) {
	b.row.bound = max(b.row.bound, bound)
	b.compare()
}

// compare notes whether bound and schedule meet.
func (b *board) compare() {
	switch {
	case b.row.starts == nil || b.row.makespan > b.row.bound:
	case b.row.makespan < b.row.bound:
		b.fail(fmt.Errorf("a makespan of %d is below the bound of %d", b.row.makespan, b.row.bound))
	default:
		b.row.proven = true
		b.done()
	}
}

func (b *board) fail(err error) {
	b.fault = &unsound{err}
	b.done()
}

// hopeless notes the proof that there is no schedule.
func (b *board) hopeless() {
	b.row.proven = true
	if b.row.starts != nil {
		b.fail(fmt.Errorf("a schedule that was found is said not to exist"))
	}
}

// solveOne solves an instance through the solvers' exported functions.
func solveOne(s settings, it item, better func([]int)) (row, error) {
	begun := time.Now()
	ctx, done := context.WithCancel(context.Background())
	defer done()
	if s.seconds > 0 {
		var stop context.CancelFunc
		ctx, stop = context.WithTimeout(ctx, time.Duration(s.seconds*float64(time.Second)))
		defer stop()
	}
	b := &board{x: it.instance, better: better, done: done}
	b.row = row{name: it.name, path: it.instance.CriticalPath()}
	b.row.bound = max(b.row.path, 0)
	var err error
	switch {
	case it.lagged:
		err = learn(ctx, s, b, nil)
	case s.counted:
		err = schedules(ctx, s, b)
	default:
		err = both(ctx, s, b)
	}
	if err == nil {
		err = b.fault
	}
	b.row.seconds = time.Since(begun).Seconds()
	return b.row, err
}

// learn runs the solver that learns: two of it side by side or, when known says what
// others found, one.
func learn(ctx context.Context, s settings, b *board, known func() []int) error {
	o := learner.Options{
		Alone: known != nil, Known: known, Better: func(starts []int, _ int) { b.found(starts) },
		Raised: b.raise, Bound: b.row.bound,
	}
	if s.counted {
		o.Steps = int64(s.schedules) * stepsWorth * int64(len(b.x.Durations))
	}
	r, err := learner.Solve(ctx, b.x.Lagged(), o)
	b.row.steps = r.Steps
	if err == nil && r.Proven && r.Start == nil {
		b.hopeless()
	}
	return err
}

// schedules runs the search for schedules, up to the number of schedules.
func schedules(ctx context.Context, s settings, b *board) error {
	p, err := b.x.Problem()
	if err != nil {
		return err
	}
	b.raise(int(bound.Finish(p, bound.Options{}).Finish - instances.Start))
	r, err := search.Search(ctx, p, search.Options{
		Schedules: s.schedules, Seed: s.seed, Enough: b.enough(),
		Better: func(r search.Result) { b.found(b.units(p, r)) },
	})
	b.row.schedules = r.Schedules
	return err
}

// enough is the cost of a schedule that ends at the bound.
func (b *board) enough() search.Cost {
	return search.Cost{End: int64(instances.Start + calendars.Instant(b.row.bound))}
}

// units are the starts of a schedule in units of time from 0.
func (b *board) units(p *crews.Problem, r search.Result) []int {
	starts := make([]int, len(r.Start))
	for i := range starts {
		starts[i] = int(r.Start[p.Net.Number[i]] - instances.Start)
	}
	return starts
}

// from is the best schedule for a search to go on from; none before one is found.
func (b *board) from(p *crews.Problem) []search.From {
	if b.row.starts == nil {
		return nil
	}
	from := search.From{Start: make([]calendars.Instant, len(b.row.starts))}
	for i, at := range b.row.starts {
		from.Start[p.Net.Number[i]] = instances.Start + calendars.Instant(at)
	}
	return []search.From{from}
}

// turn is how many activities the search for schedules places before the solver that
// learns has its next round, which at [stepsWorth] takes a few times as long.
const turn = 20_000

// both runs the search for schedules and the solver that learns in turns of counted
// work; each goes on from what the other found.
func both(ctx context.Context, s settings, b *board) error {
	p, err := b.x.Problem()
	if err != nil {
		return err
	}
	b.raise(int(bound.Finish(p, bound.Options{}).Finish - instances.Start))
	g, err := search.Begin(p, search.Options{Seed: s.seed})
	if err != nil {
		return err
	}
	known := func() []int {
		g.Until(ctx, search.Options{
			Schedules: g.Built() + turn/len(b.x.Durations), Enough: b.enough(), From: b.from(p),
			Better: func(r search.Result) { b.found(b.units(p, r)) },
		})
		b.row.schedules = g.Built()
		return b.row.starts
	}
	return learn(ctx, s, b, known)
}
