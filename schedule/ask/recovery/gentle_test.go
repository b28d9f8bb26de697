package recovery_test

import (
	"context"
	"math/rand/v2"
	"testing"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/recovery"
	"build.example/turflast/schedule/ask/whatif"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/verify"
)

// TestGentle checks that what disturbs least meets every date, that each moves
// fewer than what is cheaper, and that none moves more than the way found by cost
// alone.
func TestGentle(t *testing.T) {
	ctx, fewer, looked := context.Background(), 0, 0
	for seed := range uint64(60) {
		p := plans.Tiny(plans.Seeded(seed))
		if len(p.Crews) == 0 {
			continue
		}
		p = measured(p, rand.New(rand.NewPCG(seed, 5)))
		s, err := solve.New(p)
		if err != nil {
			continue
		}
		c := s.Crews(ctx, solve.Options{})
		if len(c.Programme.Breaks) == 0 || c.Programme.Blocked != nil {
			continue
		}
		found, err := recovery.Find(ctx, c, solve.Options{})
		if err != nil || len(found.Ways) == 0 {
			continue
		}
		gentle, err := recovery.Gentle(ctx, c, solve.Options{})
		if err != nil || len(gentle) == 0 {
			t.Errorf("seed %d: there are ways, and none that disturbs least: %v", seed, err)
			continue
		}
		looked++
		for k, w := range gentle {
			if r := verify.Check(w.Plan, w.Programme, schedule.Crews); len(r.Rules) > 0 || len(r.Breaks) > 0 {
				t.Errorf("seed %d: %v %v", seed, r.Rules, r.Breaks)
			}
			if k > 0 && (w.Moved <= gentle[k-1].Moved || w.Cost >= gentle[k-1].Cost) {
				t.Errorf("seed %d: %d moves for %d after %d for %d", seed, w.Moved, w.Cost, gentle[k-1].Moved, gentle[k-1].Cost)
			}
		}
		for _, w := range found.Ways {
			if gentle[0].Moved > w.Moved {
				t.Errorf("seed %d: %d moves where %d are enough", seed, gentle[0].Moved, w.Moved)
			}
			if gentle[0].Moved < w.Moved {
				fewer++
			}
		}
	}
	if looked < 5 || fewer == 0 {
		t.Errorf("%d plans, %d ways with fewer moves", looked, fewer)
	}
}

// TestCheapestFinish compares with the programmes of all sets of measures.
func TestCheapestFinish(t *testing.T) {
	ctx, late, blocked, placed := context.Background(), 0, 0, 0
	for seed := range uint64(60) {
		p := plans.Tiny(plans.Seeded(seed % 40))
		if len(p.Crews) == 0 {
			continue
		}
		if seed >= 40 { // the measure that drops a task may drop this one
			never := plans.Task("never", 4000)
			never.Unbroken, never.Zones = true, p.Tasks[0].Zones
			p.Tasks = append(p.Tasks, never)
		}
		r := rand.New(rand.NewPCG(seed, 5))
		p = measured(p, r)
		prices := &schedule.Prices{Running: schedule.Money(r.IntN(200)), Late: schedule.Money(r.IntN(2000))}
		s, err := solve.New(p)
		if err != nil {
			continue
		}
		c := s.Crews(ctx, solve.Options{})
		best, all, err := recovery.Cheapest(ctx, c, prices, solve.Options{})
		if err != nil {
			continue // a measure that this plan refuses
		}
		if !all {
			t.Errorf("seed %d: not all of 8 sets were tried", seed)
		}
		for bits := range 8 {
			w, ok := bought(c, bits)
			more, fewer := len(best.Programme.Blocked), len(w.Programme.Blocked)
			if ok && (fewer < more || fewer == more && w.Total(prices) < best.Total(prices)) {
				t.Errorf("seed %d: measures %03b cost %d and leave %d without a place, those found %d and %d", seed, bits,
					w.Total(prices), fewer, best.Total(prices), more)
			}
			if bits > 0 && fewer < len(c.Programme.Blocked) {
				placed++
			}
		}
		if best.Programme.Blocked != nil {
			blocked++
		}
		if best.Programme.Handover.Time < 0 {
			late++
		}
	}
	if late == 0 {
		t.Error("the cheapest finish was never late")
	}
	if blocked < 3 || placed == 0 {
		t.Errorf("%d of the cheapest leave something without a place; measures give a place in %d", blocked, placed)
	}
}

// bought is the way with the measures of some bits.
func bought(c network.Case, bits int) (recovery.Way, bool) {
	p, w := c.Plan, recovery.Way{Case: c}
	for k := range p.Measures {
		if bits&(1<<k) != 0 {
			w.Measures, w.Cost = append(w.Measures, k), w.Cost+p.Measures[k].Cost
		}
	}
	q, err := whatif.Take(p, w.Measures)
	if err != nil {
		return w, false
	}
	s, err := solve.New(q)
	if err != nil {
		return w, false
	}
	if bits > 0 {
		w.Case = s.Crews(context.Background(), solve.Options{})
	}
	w.Open = s.Hours().Site.Between(q.Site.Opens, w.Programme.Finish)
	return w, true
}

// TestUnderWay finds ways for plans of which a part has happened: no measure that it
// is too late for is in the way of others.
func TestUnderWay(t *testing.T) {
	ctx, looked, over := context.Background(), 0, 0
	for seed := range uint64(60) {
		src := plans.Seeded(seed)
		p := plans.Tiny(src)
		s, err := solve.New(p)
		if err != nil || len(p.Crews) == 0 {
			continue
		}
		g := s.Crews(ctx, solve.Options{}).Programme
		if g.Blocked != nil || !g.Finish.IsReal() {
			continue
		}
		p = measured(plans.Underway(src, p, g, p.Site.Opens+(g.Finish-p.Site.Opens)/2, true), rand.New(rand.NewPCG(seed, 5)))
		if s, err = solve.New(p); err != nil {
			continue
		}
		c := s.Crews(ctx, solve.Options{})
		if g = c.Programme; g.Blocked != nil || len(g.Breaks) == 0 {
			continue
		}
		r, err := recovery.All(ctx, c, &schedule.Prices{Late: 100}, solve.Options{})
		if err != nil {
			continue // hours of a day on which the site has none
		}
		looked++
		for k := range p.Measures {
			if p.TooLate(&p.Measures[k]) {
				over++
			}
		}
		for _, w := range append(r.Ways, r.Gentle...) {
			if v := verify.Check(w.Plan, w.Programme, schedule.Crews); len(v.Rules) > 0 || len(v.Breaks) > 0 {
				t.Errorf("seed %d: %v %v", seed, v.Rules, v.Breaks)
			}
			for _, k := range w.Measures {
				if p.TooLate(&p.Measures[k]) {
					t.Errorf("seed %d: too late for measure %d", seed, k)
				}
			}
		}
	}
	if looked < 20 || over < 10 {
		t.Errorf("%d plans, too late for %d measures", looked, over)
	}
}
