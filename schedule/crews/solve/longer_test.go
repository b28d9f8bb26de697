package solve_test

import (
	"context"
	"runtime"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/oracle"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/verify"
)

// hurriedly is a search that leaves much to be found in steps.
var hurriedly = solve.Options{Schedules: 2}

// Each step of a longer search is checked, and never worse than the one before in the
// order of aims. Some find better.
func TestALongerSearchIsNeverWorse(t *testing.T) {
	gains := 0
	for seed := range uint64(2 * few) {
		p := plans.Small(plans.Seeded(seed))
		if seed%4 == 0 {
			p = plans.Tiny(plans.Seeded(seed))
		}
		l := solver(t, p).Longer(hurriedly)
		l.Step(t.Context())
		first := l.Case()
		for before, step := first.Programme, 1; step <= 4 && before.Blocked == nil; step++ {
			l.Step(t.Context())
			now := l.Case()
			checked(t, p, now.Programme)
			by := oracle.CostOf(p, now.Programme).Compare(oracle.CostOf(p, before), p)
			if by > 0 {
				t.Errorf("seed %d: step %d is worse\n%s", seed, step, plans.YAML(p))
			}
			before = now.Programme
		}
		if first.Programme.Blocked != nil {
			continue
		}
		was, now := oracle.CostOf(p, first.Programme), oracle.CostOf(p, l.Case().Programme)
		was.Beyond, now.Beyond = 0, 0
		if l.Gains() != (now.Compare(was, p) < 0) {
			t.Errorf("seed %d: says that it gains: %v, of %+v and %+v\n%s", seed, l.Gains(), was, now, plans.YAML(p))
		}
		if l.Gains() {
			gains++
		}
	}
	if gains == 0 {
		t.Error("no longer search found better: none of the above asks anything")
	}
}

// The same steps give the same programme, at once or one by one, on one processor or more.
func TestALongerSearchIsRepeatable(t *testing.T) {
	o := hurriedly
	o.Steps = 3
	for seed := range uint64(few / 2) {
		p := plans.Small(plans.Seeded(seed))
		l := solver(t, p).Longer(hurriedly)
		for l.Step(t.Context()); !l.Proven() && l.Taken() < o.Steps; {
			l.Step(t.Context())
		}
		want := crews(t, solver(t, p), o)
		if diff := cmp.Diff(want, l.Case().Programme); diff != "" {
			t.Errorf("seed %d: one by one it is another: %s", seed, diff)
		}
		was := runtime.GOMAXPROCS(1)
		alone := crews(t, solver(t, p), o)
		runtime.GOMAXPROCS(was)
		if diff := cmp.Diff(want, alone); diff != "" {
			t.Errorf("seed %d: on one processor it is another: %s", seed, diff)
		}
	}
}

// What is proven best ends a longer search, and an interrupt ends it in the step that
// it is at, with the best so far.
func TestALongerSearchEnds(t *testing.T) {
	open, proven := 0, 0
	for seed := range uint64(few) {
		p := plans.Small(plans.Seeded(seed))
		s := solver(t, p)
		first := s.Longer(solve.Options{})
		first.Step(t.Context())
		best := first.Case().Programme
		ctx, stop := context.WithCancel(t.Context())
		last := 0
		g := s.Crews(ctx, solve.Options{Steps: 6, Progress: func(q solve.Progress) {
			if last = max(last, q.Step); q.Step == 2 {
				stop()
			}
		}}).Programme
		stop()
		switch {
		case first.Proven() && last > 0:
			t.Errorf("seed %d: it goes on though nothing better can be", seed)
		case last > 2:
			t.Errorf("seed %d: step %d after an interrupt in step 2", seed, last)
		case first.Proven():
			proven++
		case last == 2:
			open++
		}
		if best.Blocked == nil && oracle.CostOf(p, g).Compare(oracle.CostOf(p, best), p) > 0 {
			t.Errorf("seed %d: stopped, it is worse than the first", seed)
		}
	}
	if open < 1 || proven < 3 {
		t.Errorf("%d open and %d proven plans tell little", open, proven)
	}
}

// A first search that was stopped is made anew, as if it were the first: what was found in
// haste is nothing that others are better than.
func TestAStoppedFirstSearchIsMadeAnew(t *testing.T) {
	o, hasty := solve.Options{Schedules: 20}, 0
	for seed := range uint64(few) {
		p := plans.Small(plans.Seeded(seed))
		ctx, stop := context.WithCancel(t.Context())
		stop()
		l := solver(t, p).Longer(o)
		l.Step(ctx)
		if l.Case().Programme.Cut.Any() {
			hasty++
		}
		l.Step(t.Context())
		if diff := cmp.Diff(crews(t, solver(t, p), o), l.Case().Programme); diff != "" {
			t.Errorf("seed %d: made anew it is another: %s", seed, diff)
		}
		if l.Taken() > 0 || l.Gains() {
			t.Errorf("seed %d: %d steps taken, better %v", seed, l.Taken(), l.Gains())
		}
	}
	if hasty == 0 {
		t.Error("none was stopped")
	}
}

// What a step that was stopped leaves unproven, the next one proves.
func TestAStoppedStepIsMadeGood(t *testing.T) {
	ctx, stop := context.WithCancel(t.Context())
	stop()
	for seed := range uint64(2 * few) {
		l := solver(t, plans.Small(plans.Seeded(seed))).Longer(solve.Options{Schedules: 20})
		l.Step(t.Context())
		l.Step(ctx)
		if l.Step(t.Context()); l.Case().Programme.Cut.Any() {
			t.Errorf("seed %d: something is left out", seed)
		}
	}
}

// checked fails the test when the independent check refuses a programme.
func checked(t *testing.T, p *schedule.Plan, g *schedule.Programme) {
	t.Helper()
	if r := verify.Check(p, g, schedule.Crews); len(r.Rules) > 0 {
		t.Fatalf("%v\n%s", r.Rules, plans.YAML(p))
	}
}
