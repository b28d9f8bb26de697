package odds_test

import (
	"context"
	"flag"
	"maps"
	"slices"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
)

var manyPlans = flag.Int("plans", 12, "random plans that are built in both ways")

// TestTheBetterWay: over random plans the way that is told is on time at least as often as
// programmed, but for what the draws that choose it can't tell apart; and people who re-plan seldom
// make a build worse. -v tells how often, and by how much.
func TestTheBetterWay(t *testing.T) {
	const of = 200
	reasons := make(map[string][2]int) // builds, and minutes later
	var builds, told, programmed, worse, earlier, later, never int
	for seed := range uint64(*manyPlans) {
		s, err := solve.New(uncertain(plans.Small(plans.Seeded(seed + 1))))
		if err != nil {
			continue // links run in a ring
		}
		c := s.Crews(context.Background(), solve.Options{Schedules: 20})
		if nothingPlaced(c) {
			continue
		}
		o := odds.Options{Builds: of, Seed: seed, Pace: 0.2}
		first := outcomes(t, c, o)
		better, err := odds.Better(context.Background(), c, o)
		if err != nil {
			t.Fatal(err)
		}
		o.Replan = true
		again := outcomes(t, c, o)
		site, line := c.Hours.Site, c.Plan.Site.Handover
		for k := range first {
			was, is := min(first[k].Finish, c.Hours.Line.End), min(again[k].Finish, c.Hours.Line.End)
			builds++
			if was <= line {
				programmed++
			}
			if better.Replan && is <= line || !better.Replan && was <= line {
				told++
			}
			switch {
			case is > was && again[k].Finish == calendars.Never:
				never++
			case is > was:
				worse++
				later += int(site.Between(was, is))
				why, err := odds.Worse(c, o, uint64(k), was)
				if err != nil {
					t.Fatal(err)
				}
				sum := reasons[why]
				reasons[why] = [2]int{sum[0] + 1, sum[1] + int(site.Between(was, is))}
			case is < was:
				earlier++
			}
		}
	}
	t.Logf("%d builds: on time %d as programmed, %d in the better way; re-planning made %d later, "+
		"by %d min of site time on average, %d never done, and %d earlier",
		builds, programmed, told, worse, later/max(worse, 1), never, earlier)
	for _, why := range slices.Sorted(maps.Keys(reasons)) {
		t.Logf("%d later by %d min on average: %s", reasons[why][0], reasons[why][1]/reasons[why][0], why)
	}
	if told < programmed || builds == 0 {
		t.Errorf("of %d builds %d are on time as programmed, %d in the way that is told", builds, programmed, told)
	}
	if never*1000 > builds {
		t.Errorf("re-planning leaves %d of %d builds never done", never, builds)
	}
	if worse+never >= earlier {
		t.Errorf("re-planning makes %d builds later or never done, %d earlier", worse+never, earlier)
	}
}
