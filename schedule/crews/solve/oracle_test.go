package solve_test

import (
	"flag"
	"iter"
	"runtime"
	"sync"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/oracle"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/verify"
)

// The test of record takes thousands: go test ./schedule/crews/solve -run Oracle -plans 3000. It may be
// made in parts: with -from 1000 too it takes the two thousand from there on.
var (
	plansTried = flag.Int("plans", 100, "tiny plans that are solved with all their choices tried")
	plansFrom  = flag.Int("from", 0, "how many of the tiny plans are skipped where all choices of crews are tried")
)

// outcome is how the crew programme of one plan compares with the best.
type outcome struct {
	p    *schedule.Plan
	got  *schedule.Programme
	cost oracle.Cost
	best oracle.Best
}

// compared solves the plan of a seed both ways.
func compared(t *testing.T, seed uint64) outcome {
	p := plans.Tiny(plans.Seeded(seed))
	s, err := solve.New(p)
	if err != nil {
		t.Errorf("seed %d: %v", seed, err)
		return outcome{p: p, best: oracle.Best{None: true}}
	}
	o := outcome{p: p, got: s.Crews(t.Context(), solve.Options{}).Programme, best: oracle.Find(p)}
	if o.got.Blocked == nil {
		o.cost = oracle.CostOf(p, o.got)
	}
	return o
}

// seeds yields those below n, and then some more.
func seeds(n int, more []uint64) iter.Seq[uint64] {
	return func(yield func(uint64) bool) {
		for seed := range uint64(n) {
			if !yield(seed) {
				return
			}
		}
		for _, seed := range more {
			if !yield(seed) {
				return
			}
		}
	}
}

// each calls f with every seed below n, some at a time.
func each(n int, f func(seed uint64)) {
	seeds := make(chan uint64)
	var all sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		all.Go(func() {
			for seed := range seeds {
				f(seed)
			}
		})
	}
	for seed := range uint64(n) {
		seeds <- seed
	}
	close(seeds)
	all.Wait()
}

// On tiny plans, whose best programmes are known from trying all of them, the
// crew programme is the best in all that "optimum" speaks of, and in work beyond the
// line, but for one in a hundred; it always keeps the rules, never claims a bound that isn't one, and
// is never blocked where there is a programme.
func TestCrewsAgainstOracle(t *testing.T) {
	from, n := *plansFrom, *plansTried-*plansFrom
	outcomes := make([]outcome, n)
	each(n, func(k uint64) { outcomes[k] = compared(t, uint64(from)+k) })
	compared, missed := 0, 0
	for k, o := range outcomes {
		if o.got == nil {
			continue
		}
		seed := from + k
		for _, f := range verify.Check(o.p, o.got, schedule.Crews).Rules {
			t.Errorf("seed %d: %v\n%s", seed, f, plans.YAML(o.p))
		}
		if o.best.None {
			if o.got.Blocked == nil {
				t.Errorf("seed %d: a programme where there is none\n%s", seed, plans.YAML(o.p))
			}
			continue
		}
		if o.got.Blocked != nil {
			t.Errorf("seed %d: blocked, the best costs %+v\n%s", seed, o.best.Cost, plans.YAML(o.p))
			continue
		}
		if o.got.Bound > o.best.Cost.Finish {
			t.Errorf("seed %d: bound %v, the best finishes %v\n%s", seed, o.got.Bound, o.best.Cost.Finish, plans.YAML(o.p))
		}
		if o.got.Finish != o.cost.Finish {
			t.Errorf("seed %d: done %v, by brute force %v\n%s", seed, o.got.Finish, o.cost.Finish, plans.YAML(o.p))
		}
		if o.got.Finish == o.best.Cost.Finish && o.got.Handover != o.best.Programme.Handover {
			t.Errorf("seed %d: margin %+v, the best's %+v", seed, o.got.Handover, o.best.Programme.Handover)
		}
		compared++
		switch by := o.cost.Compare(o.best.Cost, o.p); {
		case by > 0:
			missed++
			t.Logf("seed %d: cost %+v, the best %+v\n%s", seed, o.cost, o.best.Cost, plans.YAML(o.p))
		case by < 0 && !o.best.Coarse:
			t.Errorf("seed %d: cost %+v is better than the best %+v\n%s", seed, o.cost, o.best.Cost, plans.YAML(o.p))
		}
	}
	t.Logf("the best found for %d plans of %d", compared-missed, compared)
	if compared < n*9/10 || missed > n/100 {
		t.Errorf("the best found for %d plans of %d; %d compared", compared-missed, compared, n)
	}
}

// What has a place in few orders has one: where most orders of work break a longest wait
// for good, or where one holds only once a booking is moved.
func TestPlacesInFewOrders(t *testing.T) {
	for _, seed := range []uint64{688, 1407, 1462, 2534} {
		p := plans.Tiny(plans.Seeded(seed))
		g := solver(t, p).Crews(t.Context(), solve.Options{}).Programme
		if g.Blocked != nil {
			t.Errorf("seed %d: %d activities without a place\n%s", seed, len(g.Blocked), plans.YAML(p))
		}
		for _, f := range verify.Check(p, g, schedule.Crews).Rules {
			t.Errorf("seed %d: %v", seed, f)
		}
	}
}

// A task that stands still for a time, as a what-if may have it, does so in the best
// programme too: none that is found is better, and every one keeps the rules.
func TestStopsAgainstOracle(t *testing.T) {
	best := 0
	for seed := range uint64(25) {
		p := plans.Tiny(plans.Seeded(seed))
		s, err := solve.New(p)
		if err != nil {
			t.Fatal(err)
		}
		g := s.Crews(t.Context(), solve.Options{}).Programme
		for i := range p.Tasks {
			if at := g.Tasks[i].Start; at.IsReal() {
				p.Tasks[i].Stops = []calendars.Span{{Start: at.Plus(15), End: at.Plus(45 + 30*calendars.Minutes(seed%4))}}
				break
			}
		}
		if s, err = solve.New(p); err != nil {
			t.Fatal(err)
		}
		got, want := s.Crews(t.Context(), solve.Options{}).Programme, oracle.Find(p)
		for _, f := range verify.Check(p, got, schedule.Crews).Rules {
			t.Errorf("seed %d: %v", seed, f)
		}
		if want.None != (got.Blocked != nil) {
			t.Errorf("seed %d: without a place %v, by brute force %v", seed, got.Blocked != nil, want.None)
		}
		if want.None || got.Blocked != nil || want.Coarse {
			continue
		}
		switch by := oracle.CostOf(p, got).Compare(want.Cost, p); {
		case by < 0:
			t.Errorf("seed %d: better than the best", seed)
		case by == 0:
			best++
		}
	}
	if best < 15 {
		t.Errorf("the best was found for %d plans", best)
	}
}
