package recovery_test

import (
	"context"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	_ "time/tzdata"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/recovery"
	"build.example/turflast/schedule/ask/whatif"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/oracle"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/testdata"
)

func met(p *schedule.Plan) bool {
	best := oracle.Find(p)
	return !best.None && best.Cost.Handover == 0 && best.Cost.By == 0 && best.Cost.Waiting == 0
}

// measured adds measures to a plan that breaks a date.
func measured(p *schedule.Plan, r *rand.Rand) *schedule.Plan {
	q := *p
	day := calendars.DateIn(p.Site.Opens, p.Site.Location)
	q.Measures = []schedule.Measure{
		{Longer: &schedule.LongerHours{On: day, To: 21 * calendars.Hour}, Drop: schedule.None},
		{People: &schedule.MorePeople{Crew: []schedule.CrewNeed{{Crew: 0, Least: 1, Most: 1}},
			On: []calendars.Date{day, day + 1}}, Drop: schedule.None},
		{Drop: schedule.TaskID(r.IntN(len(p.Tasks)))},
	}
	for k := range q.Measures {
		q.Measures[k].Cost = schedule.Money(100 * (1 + r.IntN(9)))
	}
	return &q
}

// TestCheapest compares with trying every programme of every set of measures.
func TestCheapest(t *testing.T) {
	found, none := 0, 0
	for seed := range uint64(60) {
		p := plans.Tiny(plans.Seeded(seed))
		if len(p.Crews) == 0 || met(p) {
			continue
		}
		p = measured(p, rand.New(rand.NewPCG(seed, 5)))
		s, err := solve.New(p)
		if err != nil {
			continue
		}
		r, err := recovery.Find(context.Background(), s.Crews(context.Background(), solve.Options{}), solve.Options{})
		if err != nil {
			continue // a measure that this plan refuses
		}
		least := schedule.Money(-1)
		for bits := 1; bits < 8; bits++ {
			var set []int
			sum := schedule.Money(0)
			for k := range 3 {
				if bits&(1<<k) != 0 {
					set, sum = append(set, k), sum+p.Measures[k].Cost
				}
			}
			if q, err := whatif.Take(p, set); err == nil && (least < 0 || sum < least) && met(q) {
				least = sum
			}
		}
		switch {
		case least < 0 && len(r.Ways) > 0:
			t.Errorf("seed %d: a way where there is none: %+v", seed, r.Ways[0].Measures)
		case least >= 0 && (len(r.Ways) == 0 || r.Ways[0].Cost != least):
			t.Errorf("seed %d: the cheapest costs %d, found %+v", seed, least, r.Ways)
		case least < 0:
			none++
		default:
			found++
		}
	}
	if found < 5 || none < 5 {
		t.Errorf("%d plans were mended, %d can't be", found, none)
	}
}

// TestGarden takes a mason from the built-in garden for two days and buys it
// back: no way is part of another, and each meets every date.
func TestGarden(t *testing.T) {
	p, problems := planfile.Read(strings.NewReader(testdata.Demo))
	if problems.Fatal() {
		t.Fatal(problems)
	}
	c, err := planfile.ParseChange("masons 1 fewer on 2027-05-03 and 2027-05-04")
	if err != nil {
		t.Fatal(err)
	}
	q, err := whatif.Apply(p, []schedule.Change{c})
	if err != nil {
		t.Fatal(err)
	}
	s, err := solve.New(q)
	if err != nil {
		t.Fatal(err)
	}
	broken := s.Crews(context.Background(), solve.Options{})
	if len(broken.Programme.Breaks) == 0 {
		t.Fatal("a mason less breaks nothing")
	}
	r, err := recovery.Find(context.Background(), broken, solve.Options{})
	if err != nil || len(r.Ways) == 0 {
		t.Fatalf("no way back: %+v, error %v", r, err)
	}
	for i, w := range r.Ways {
		if len(w.Programme.Breaks) > 0 {
			t.Errorf("%v leaves %v", w.Measures, w.Programme.Breaks)
		}
		for j, o := range r.Ways {
			if i != j && !slices.ContainsFunc(w.Measures, func(k int) bool { return !slices.Contains(o.Measures, k) }) {
				t.Errorf("%v is part of %v", w.Measures, o.Measures)
			}
		}
	}
	t.Logf("%d ways, the cheapest %v for %d", len(r.Ways), r.Ways[0].Measures, r.Ways[0].Cost)
}
