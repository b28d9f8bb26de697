package odds_test

import (
	"context"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/ask/whatif"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/network"
)

// evenings sells an evening of each of the first days of a site, by the day before.
func evenings(c network.Case, days int) *odds.Shop {
	p := *c.Plan
	p.Measures = nil
	from := calendars.DateIn(p.Site.Opens, p.Site.Location)
	for k := range days {
		p.Measures = append(p.Measures, schedule.Measure{
			Longer: &schedule.LongerHours{On: from + calendars.Date(k), To: 23 * 60}, Drop: schedule.None, Cost: 100,
		})
	}
	c.Plan = &p
	return &odds.Shop{
		Costs: make([]schedule.Money, days),
		Had: func(k int, at calendars.Instant) bool {
			midnight, _ := calendars.At(p.Site.Location, from+calendars.Date(k), 0)
			return midnight >= at
		},
		With: func(set []int) (with network.Case, ok bool) {
			q, err := whatif.Take(&p, set)
			if err != nil {
				return with, false
			}
			s, err := solve.New(q)
			if err != nil {
				return with, false
			}
			return s.Ordered(whatif.Reference(c, q)), true
		},
	}
}

// tight is the programme of a random plan whose hand-over lies 5 hours after its finish.
func tight(seed uint64) (c network.Case, ok bool) {
	p := blind(uncertain(plans.Small(plans.Seeded(seed))))
	for range 2 {
		s, err := solve.New(p)
		if err != nil {
			return c, false // links run in a ring
		}
		if c = s.Crews(context.Background(), solve.Options{Schedules: 20}); nothingPlaced(c) {
			return c, false
		}
		q := *p
		q.Site.Handover = c.Programme.Finish.Plus(5 * calendars.Hour)
		p = &q
	}
	return c, true
}

// TestBoughtWhenKnown: over random plans nothing begins otherwise before something is bought for it,
// and what is bought loses no builds in all.
func TestBoughtWhenKnown(t *testing.T) {
	all, more := 0, 0
	for seed := range uint64(40) {
		c, ok := tight(seed + 1)
		if !ok {
			continue
		}
		c.Plan = c.Plan.BookedAs(c.Programme)
		o, shop := odds.Options{Builds: 40, Seed: seed, Pace: 0.2, Replan: true}, evenings(c, 6)
		bought, moved, err := odds.Buys(c, o, shop)
		if err != nil {
			t.Fatal(err)
		}
		if all += bought; moved > 0 {
			t.Errorf("plan %d: in %d of %d builds something begins otherwise before anything is bought", seed+1, moved, bought)
		}
		found, err := odds.Buying(context.Background(), c, o, shop)
		if err != nil {
			t.Fatal(err)
		}
		more += found.OnTime - found.Without
	}
	t.Logf("something is bought in %d builds, and %d more are on time", all, more)
	if all < 30 || more <= 0 {
		t.Errorf("something is bought in %d builds, and %d more are on time", all, more)
	}
}
