package odds_test

import (
	"context"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/network"
)

// lined is a programme with the line elsewhere, and nothing else.
func lined(t *testing.T, c network.Case, line calendars.Instant) network.Case {
	t.Helper()
	q := *c.Plan
	q.Site.Handover = line
	s, err := solve.New(&q)
	if err != nil {
		t.Fatal(err)
	}
	out := s.Logic()
	g := *c.Programme
	out.Programme = &g
	return out
}

// TestLaterLine: with the line alone moved, and all else drawn alike, a build that is on time as
// programmed is on time for every later line too, so that the chance is never smaller. People who
// re-plan do so by the line: a build now and then is lost for a later one, for which nobody hurried
// when it was still of use; the chance that is told hardly falls.
func TestLaterLine(t *testing.T) {
	later := [...]calendars.Minutes{0, 2 * calendars.Hour, calendars.Day, 3 * calendars.Day}
	onTime, lost, fell := 0, 0, 0 // of builds with people who re-plan; of chances told
	for seed := range uint64(*manyPlans * 2) {
		s, err := solve.New(uncertain(plans.Small(plans.Seeded(seed + 1))))
		if err != nil {
			continue // links run in a ring
		}
		c := s.Crews(context.Background(), solve.Options{Schedules: 20})
		if nothingPlaced(c) || len(c.Programme.Breaks) > 0 || c.Programme.Blocked != nil {
			continue
		}
		var was [2][]bool // by way and build: whether it was on time for a line before
		told := 0.0
		for _, by := range later {
			moved := lined(t, c, c.Programme.Finish.Plus(calendars.Hour+by))
			for way := range 2 {
				o := odds.Options{Builds: 60, Seed: seed, Pace: 0.2, Replan: way == 1}
				is := make([]bool, o.Builds)
				for k, x := range outcomes(t, moved, o) {
					is[k] = x.Finish <= moved.Plan.Site.Handover
					switch once := was[way] != nil && was[way][k]; {
					case way == 0 && once && !is[k]:
						t.Errorf("plan %d: build %d is lost for a line %d min later", seed+1, k, by)
					case way == 1 && once:
						onTime++
						if !is[k] {
							lost++
						}
					}
				}
				was[way] = is
			}
			r, err := odds.Better(context.Background(), moved, odds.Options{Builds: 600, Seed: seed, Pace: 0.2})
			if err != nil {
				t.Fatal(err)
			}
			if r.Chance() < told {
				fell++
				t.Logf("plan %d: for a line %d min later the chance told is %.3f, not %.3f", seed+1, by, r.Chance(), told)
			}
			if told = max(told, r.Chance()); r.Chance() < told-0.04 {
				t.Errorf("plan %d: for a line %d min later the chance told is %.3f, not %.3f", seed+1, by, r.Chance(), told)
			}
		}
	}
	t.Logf("of %d re-planned builds on time %d are lost for a later line; %d chances told are less", onTime, lost, fell)
	if onTime == 0 || 100*lost > onTime {
		t.Errorf("of %d re-planned builds on time %d are lost for a later line", onTime, lost)
	}
}
