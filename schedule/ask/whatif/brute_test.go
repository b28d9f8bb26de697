package whatif_test

import (
	"strings"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/ask/whatif"
	"build.example/turflast/schedule/internal/oracle"
	"build.example/turflast/schedule/internal/plans"
)

// On tiny plans, longest waits, keeps and bookings that may move among them, whose least
// lateness is known from trying everything: undone, a change makes the hand-over no later,
// and the worse it is the later the hand-over.
func TestWorseByBruteForce(t *testing.T) {
	compared, later := 0, 0
	for seed := range uint64(100) {
		p := plans.Tiny(plans.Seeded(seed))
		mild, severe := worsening(plans.Seeded(seed+900), p)
		if strings.HasPrefix(mild[0], "wet") {
			continue // the brute force knows no weather
		}
		was := calendars.Minutes(0)
		for k, list := range [][]string{nil, mild, severe} {
			q, err := whatif.Apply(p, changes(t, list...))
			if err != nil {
				break // nobody is there to be short that day
			}
			g, best := crews(t, q, nil).Programme, oracle.Find(q)
			if best.None || g.Blocked != nil {
				break
			}
			late := oracle.CostOf(q, g).Handover
			if late != best.Cost.Handover {
				break // not proven
			}
			if late < was {
				t.Errorf("plan %d: with %v it is %d minutes late, with less of it %d\n%s", seed, list, late, was, plans.YAML(p))
			}
			if k > 0 {
				compared++
			}
			if late > was && k > 0 {
				later++
			}
			was = late
		}
	}
	if compared < 40 || later < 5 {
		t.Errorf("%d pairs compared, %d of them later: too few to show anything", compared, later)
	}
}
