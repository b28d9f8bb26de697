package progress_test

import (
	"context"
	"flag"
	"math/rand/v2"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/site/baseline"
	"build.example/turflast/schedule/site/progress"
	"build.example/turflast/schedule/site/sitelog"
	"build.example/turflast/schedule/verify"
)

var builds = flag.Int("builds", 150, "untidy builds of random plans")

// TestUntidyBuilds takes random plans as at moments of untidy builds: each has a
// logic programme and a crew programme that break no rule. In some, what is in hand
// has no finish because of what follows it.
func TestUntidyBuilds(t *testing.T) {
	for _, seed := range []uint64{2480, 3725} {
		untidyBuild(t, seed)
	}
	tried := 0
	for seed := uint64(0); tried < *builds; seed++ {
		if untidyBuild(t, seed) {
			tried++
		}
	}
}

// untidyBuild builds one plan; false for a plan that can't be built.
func untidyBuild(t *testing.T, seed uint64) bool {
	t.Helper()
	p := plans.Small(plans.Seeded(seed))
	s, err := solve.New(p)
	if err != nil {
		return false
	}
	first := s.Crews(context.Background(), solve.Options{Schedules: 50})
	g := first.Programme
	if g.Blocked != nil || g.Finish <= p.Site.Opens {
		return false
	}
	r := rand.New(rand.NewPCG(seed, 2))
	at := p.Site.Opens.Plus(calendars.Minutes(r.IntN(int(g.Finish-p.Site.Opens) + 600)))
	events := plans.Untidy(r, p, g, at)
	planned := sitelog.Planned(p, events, at)
	g = baseline.Freeze(first).Programme(planned)
	said := progress.At(planned, events, g, at)
	x, err := solve.New(said.Plan)
	if err != nil {
		t.Errorf("seed %d: %v", seed, err)
		return true
	}
	for _, f := range []*schedule.Programme{x.Logic().Programme,
		x.Crews(context.Background(), solve.Options{Schedules: 50, Reference: g}).Programme} {
		if found := verify.Check(said.Plan, f, f.Scope); len(found.Rules) > 0 {
			t.Errorf("seed %d, scope %d: %v", seed, f.Scope, found.Rules)
		}
	}
	return true
}
