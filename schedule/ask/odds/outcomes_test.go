package odds_test

import (
	"context"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/ask/odds"
)

// TestOutcomes checks the list of outcomes against the counts of the same
// builds.
func TestOutcomes(t *testing.T) {
	c := garden(t)
	o := odds.Options{Builds: 500, Seed: 7, Pace: odds.UsualPace}
	r, err := odds.Run(context.Background(), c, o)
	if err != nil {
		t.Fatal(err)
	}
	list, err := odds.Outcomes(context.Background(), c, o)
	if err != nil {
		t.Fatal(err)
	}
	onTime, unfinished, broken := 0, 0, 0
	for _, x := range list {
		switch {
		case x.Finish == calendars.Never:
			unfinished++
		case x.Finish <= c.Plan.Site.Handover:
			onTime++
		}
		if x.Broken {
			broken++
		}
	}
	if onTime != r.OnTime || unfinished != r.Unfinished {
		t.Errorf("%d on time, %d never done; counted %d and %d", onTime, unfinished, r.OnTime, r.Unfinished)
	}
	most := 0
	for _, b := range r.Broken {
		most = max(most, b.Builds)
	}
	if broken < most {
		t.Errorf("%d builds break another date, one of them breaks in %d", broken, most)
	}
}

// TestForeseen checks that what is drawn beforehand lies within what the plan says,
// and differs from build to build.
func TestForeseen(t *testing.T) {
	c := garden(t)
	p, g := c.Plan, c.Programme
	list, err := odds.Foreseen(context.Background(), c, odds.Options{Builds: 40, Seed: 7, Pace: odds.UsualPace})
	if err != nil {
		t.Fatal(err)
	}
	differ, late, wet := 0, 0, 0
	for _, q := range list {
		for i := range q.Tasks {
			was, s := p.Tasks[i].Effort, p.Tasks[i].Spread
			heads := 0
			for _, h := range g.Tasks[i].Heads {
				heads += h
			}
			now := q.Tasks[i].Effort.Time(heads)
			switch {
			case s == nil && q.Tasks[i].Effort != was:
				t.Fatalf("%s has no spread and takes %d", q.Tasks[i].ID, now)
			case s != nil && (float64(now) < 0.85*float64(s.Best) || float64(now) > 1.15*float64(s.Worst)) && !was.Shared():
				t.Fatalf("%s takes %d, best %d, worst %d", q.Tasks[i].ID, now, s.Best, s.Worst)
			case s != nil && now != was.Time(heads):
				differ++
			}
		}
		for d := range q.Deliveries {
			if q.Deliveries[d].Arrives > g.Unloads[d].Arrives {
				late++
			}
		}
		wet += len(q.Site.WetOn)
	}
	if differ == 0 || late == 0 || wet == 0 {
		t.Errorf("%d tasks differ, %d lorries are late, %d days are wet", differ, late, wet)
	}
	if len(p.Site.WetOn) > 0 || p.Tasks[0].Effort != list[0].Tasks[0].Effort && p.Tasks[0].Spread == nil {
		t.Error("the plan itself has changed")
	}
}
