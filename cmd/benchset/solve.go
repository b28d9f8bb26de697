package main

import (
	"context"
	"fmt"
	"sync"
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
	mu     sync.Mutex
	x      *instances.Instance
	row    row
	better func([]int)
	done   context.CancelFunc // called when nothing is left to find
	fault  error
}

// found notes a schedule, after checking it against the raw instance.
func (b *board) found(starts []int) {
	b.mu.Lock()
	defer b.mu.Unlock()
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
	b.mu.Lock()
	defer b.mu.Unlock()
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
	b.mu.Lock()
	defer b.mu.Unlock()
	b.row.proven = true
	if b.row.starts != nil {
		b.fail(fmt.Errorf("a schedule that was found is said not to exist"))
	}
}

func (b *board) starts() []int {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.row.starts
}

func (b *board) bound() int {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.row.bound
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
		err = learn(ctx, s, b, false)
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

// learn runs the solver that learns, alone or two of it side by side.
func learn(ctx context.Context, s settings, b *board, alone bool) error {
	o := learner.Options{
		Alone: alone, Better: func(starts []int, _ int) { b.found(starts) },
		Raised: b.raise, Bound: b.bound(),
	}
	if s.counted {
		o.Steps = int64(s.schedules) * stepsWorth * int64(len(b.x.Durations))
	}
	if alone {
		o.Known = b.starts
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
	least := bound.Finish(p, bound.Options{})
	b.raise(int(least.Finish - instances.Start))
	return stage(ctx, p, b, search.Options{Schedules: s.schedules, Seed: s.seed})
}

// stage is one search, which stops at the bound.
func stage(ctx context.Context, p *crews.Problem, b *board, o search.Options) error {
	units := func(r search.Result) []int {
		starts := make([]int, len(r.Start))
		for i := range starts {
			starts[i] = int(r.Start[p.Net.Number[i]] - instances.Start)
		}
		return starts
	}
	o.Enough = search.Cost{End: int64(instances.Start + calendars.Instant(b.bound()))}
	o.Better = func(r search.Result) { b.found(units(r)) }
	r, err := search.Search(ctx, p, o)
	b.row.schedules += r.Schedules
	if err == nil && r.Found {
		b.found(units(r))
	}
	return err
}

// both runs the search in longer and longer stages, and the solver that learns
// beside it; each starts from what the other found.
func both(ctx context.Context, s settings, b *board) error {
	p, err := b.x.Problem()
	if err != nil {
		return err
	}
	var all sync.WaitGroup
	defer all.Wait()
	var failed error
	all.Go(func() {
		b.raise(int(bound.Finish(p, bound.Options{}).Finish - instances.Start))
		failed = learn(ctx, s, b, true)
	})
	for k := uint64(0); ctx.Err() == nil; k++ {
		o := search.Options{Schedules: 5000 << min(k, 4), Seed: s.seed + k}
		if starts := b.starts(); starts != nil && k > 0 {
			from := search.From{Start: make([]calendars.Instant, len(starts))}
			for i, at := range starts {
				from.Start[p.Net.Number[i]] = instances.Start + calendars.Instant(at)
			}
			o.From = []search.From{from}
		}
		if err := stage(ctx, p, b, o); err != nil {
			return err
		}
	}
	all.Wait()
	return failed
}
