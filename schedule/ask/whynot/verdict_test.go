package whynot_test

import (
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/whynot"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/countdown"
	"build.example/turflast/schedule/internal/oracle"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/verify"
)

// shortOf is a programme that a search of one schedule finds, which is often not the best.
func shortOf(t *testing.T, p *schedule.Plan) (network.Case, bool) {
	t.Helper()
	s, err := solve.New(p)
	if err != nil {
		return network.Case{}, false
	}
	return s.Crews(t.Context(), solve.Options{Schedules: 1}), true
}

// TestVerdicts: what is said of a moment is so by brute force, whatever programme is asked
// about: had, found, to be had without optional work, or impossible.
func TestVerdicts(t *testing.T) {
	counts := make(map[whynot.Verdict]int)
	for seed := range *tried / 2 {
		p := plans.Tiny(plans.Seeded(seed))
		c, ok := shortOf(t, p)
		if !ok || c.Programme.Blocked != nil {
			continue
		}
		for _, sooner := range []calendars.Minutes{0, 1, 600} {
			by := c.Programme.Finish.Plus(-sooner)
			if by <= p.Site.Opens {
				continue
			}
			a := whynot.Ask(t.Context(), c, by)
			counts[a.Verdict]++
			if a.Cut {
				t.Errorf("seed %d: cut without an interrupt", seed)
			}
			isSo(t, seed, p, a)
		}
	}
	t.Logf("had %d, found %d, without %d, impossible %d, open %d", counts[whynot.Had], counts[whynot.Found],
		counts[whynot.Without], counts[whynot.Impossible], counts[whynot.Open])
	for _, v := range []whynot.Verdict{whynot.Had, whynot.Found, whynot.Impossible} {
		if counts[v] == 0 {
			t.Errorf("no question has the answer %d: the plans are too easy for this test", v)
		}
	}
}

// isSo checks an answer.
func isSo(t *testing.T, seed uint64, p *schedule.Plan, a *whynot.Answer) {
	t.Helper()
	switch a.Verdict {
	case whynot.Had, whynot.Without:
		if a.Finish > a.By {
			t.Errorf("seed %d: had by %v, and done by %v", seed, a.By, a.Finish)
		}
	case whynot.Found:
		g := a.Case.Programme
		if r := verify.Check(p, g, schedule.Crews); len(r.Rules) > 0 || g.Finish > a.By || g.Finish != a.Finish {
			t.Errorf("seed %d: found by %v, done by %v: %v", seed, a.By, g.Finish, r.Rules)
		}
	}
	if a.Verdict != whynot.Impossible && a.Verdict != whynot.Without {
		return
	}
	if can := doneBy(p, a.By); can != (a.Verdict == whynot.Without) {
		t.Errorf("seed %d: by %v verdict %d, it can be: %v\n%s", seed, a.By, a.Verdict, can, plans.YAML(p))
	}
}

// doneBy says whether all that is required can be done by a moment, as if the hand-over
// stood there: then lateness comes before all else.
func doneBy(p *schedule.Plan, by calendars.Instant) bool {
	q := *p
	q.Site.Handover = by
	best := oracle.Find(&q)
	return !best.None && best.Cost.Handover == 0
}

// TestAnInterruptLeavesItOpen: where the programme itself proves nothing, and it takes more
// than a look to find another, a context that is done leaves the question open; what is
// said of small plans all the same is so.
func TestAnInterruptLeavesItOpen(t *testing.T) {
	for seed := range uint64(12) {
		p := plans.Tiny(plans.Seeded(seed))
		c, ok := shortOf(t, p)
		if !ok || c.Programme.Blocked != nil || c.Programme.Finish.Plus(-1) <= p.Site.Opens {
			continue
		}
		a := whynot.Ask(countdown.From(0), c, c.Programme.Finish.Plus(-1))
		if !a.Cut || len(a.Facts) > 0 {
			t.Errorf("seed %d: cut %v, %d facts", seed, a.Cut, len(a.Facts))
		}
		isSo(t, seed, p, a)
	}
	s, err := solve.New(plans.HeavyPlans()[0].Make(600))
	if err != nil {
		t.Fatal(err)
	}
	c := s.Crews(countdown.From(0), solve.Options{})
	if c.Programme.Bound >= c.Programme.Finish {
		t.Fatal("the programme is proven best: the plan is too easy for this test")
	}
	a := whynot.Ask(countdown.From(0), c, c.Programme.Finish.Plus(-1))
	if a.Verdict != whynot.Open || !a.Cut {
		t.Errorf("cut %v, verdict %d, which nothing shows", a.Cut, a.Verdict)
	}
}

// TestNothingIsSaidOfAFinishWithoutAPlace: work without a place is no question of when.
func TestNothingIsSaidOfAFinishWithoutAPlace(t *testing.T) {
	p := plans.Tiny(plans.Seeded(1))
	c, ok := shortOf(t, p)
	if !ok {
		t.Fatal("the plan can't be solved")
	}
	g := *c.Programme
	g.Blocked = []schedule.Blocked{{Needs: schedule.Nothing}}
	if a := whynot.Ask(t.Context(), network.Case{Model: c.Model, Programme: &g}, g.Finish-1); a.Verdict != whynot.NoPlace {
		t.Errorf("the verdict is %d", a.Verdict)
	}
}
