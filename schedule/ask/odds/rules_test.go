package odds_test

import (
	"context"
	"strings"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/verify"
	"build.example/turflast/testdata"
)

// uncertain is a plan with more that is uncertain than was in it.
func uncertain(p *schedule.Plan) *schedule.Plan {
	q := certain(p)
	q.Site.Wet = &schedule.WetDays{AfterDry: 0.3, AfterWet: 0.5, Dries: 90}
	q.Site.WetOn = nil
	q.Site.Windy = &schedule.WindyDays{AfterCalm: 0.2, AfterWindy: 0.5}
	own := calendars.Minutes(200)
	dries := [...]*calendars.Minutes{nil, &own}
	chance := 0.8
	for i := range q.Crews {
		if i%2 == 1 {
			q.Crews[i].TurnsOut = &chance
		}
	}
	for i := range q.Tasks {
		if takes := q.Tasks[i].Effort.Time(1); takes > 1 && i%3 > 0 {
			q.Tasks[i].Spread = &schedule.Spread{Best: takes / 2, Worst: 2 * takes}
		}
		if i%2 == 0 {
			q.Tasks[i].Weather |= schedule.Dry
			q.Tasks[i].Dries = dries[i/2%2]
		}
		if i%4 == 1 {
			q.Tasks[i].Weather |= schedule.Calm
		}
		if h := q.Tasks[i].Hold; h != nil {
			fails := *h
			fails.Fails = &schedule.Fails{Chance: 0.3, Right: 80}
			q.Tasks[i].Hold = &fails
		}
	}
	for i := range q.Deliveries {
		if i%2 == 0 {
			q.Deliveries[i].Late = &schedule.Lateness{Chance: 0.5, Likely: 60, Worst: 2000}
		}
	}
	return q
}

// Every build breaks no rule of the plan with what was drawn in it: the verifier,
// which shares nothing with what makes builds, has looked at it.
func TestBuildsKeepAllRules(t *testing.T) {
	o := odds.Options{Seed: 3, Builds: 1, Pace: 0.2}
	looked, ordered, called, few := 0, 0, 0, 0
	look := func(what uint64, c network.Case, builds uint64) {
		for k := range 2 * builds {
			o.Replan = k >= builds
			play, err := odds.Played(context.Background(), c, o, k%builds)
			if err != nil {
				t.Fatal(err)
			}
			if play == nil {
				continue // some work has no place
			}
			q, built := play.Plan, play.Programme
			looked++
			for _, x := range play.Happened {
				switch x.Kind {
				case odds.Ordered:
					ordered++
				case odds.Called:
					called++
				case odds.FewCome:
					few++
				}
			}
			found := verify.Check(q, built, schedule.Crews)
			for _, f := range play.Refused() {
				t.Errorf("plan %d, build %d: %s: %s", what, k, f.Rule, f.Text)
			}
			breaks := make(map[schedule.Break]bool)
			for _, b := range found.Breaks {
				if _, task := c.Plan.Task(b.Activity); b.Kind != schedule.BreakHandover || !task {
					breaks[schedule.Break{Kind: b.Kind, Activity: b.Activity, Stock: b.Stock}] = true
				}
			}
			for _, b := range built.Breaks {
				if !breaks[b] {
					t.Errorf("plan %d, build %d: %v is counted as broken", what, k, b)
				}
				delete(breaks, b)
			}
			for b := range breaks {
				t.Errorf("plan %d, build %d: %v isn't counted as broken", what, k, b)
			}
		}
	}
	p, problems := planfile.Read(strings.NewReader(testdata.Demo))
	if problems.Fatal() {
		t.Fatal(problems)
	}
	look(0, programme(t, p), 20)
	for seed := uint64(1); seed < 60; seed++ {
		p := uncertain(plans.Small(plans.Seeded(seed)))
		s, err := solve.New(p)
		if err != nil {
			continue // links run in a ring
		}
		if c := s.Crews(context.Background(), solve.Options{Schedules: 20}); !nothingPlaced(c) {
			look(seed, c, 10)
		}
	}
	t.Logf("%d builds, in which hands were ordered anew %d times, %d calls made, and too few came on %d days",
		looked, ordered, called, few)
	if looked < 400 || ordered < 200 || called < 10 || few < 100 {
		t.Error("these are too few")
	}
}
