package solve_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
)

// TestPublished runs worked examples from outside the project; the source
// stands beside each in package plans.
func TestPublished(t *testing.T) {
	for _, c := range plans.Published() {
		t.Run(c.Name, func(t *testing.T) {
			p := c.Plan()
			g := logic(t, p)
			for i, a := range c.Acts {
				d := g.Tasks[i]
				units := func(at calendars.Instant) int { return inUnits(t, calendars.Minutes(at-plans.Start()), c.Unit) }
				got := [6]int{
					units(d.Start), units(d.Finish), units(d.LateStart), units(d.LateFinish),
					inUnits(t, d.TotalFloat, c.Unit), inUnits(t, d.FreeFloat, c.Unit),
				}
				want := a.Want
				want[5] = min(want[5], max(want[4], 0)) // the sources don't keep free float within the total
				if got != want {
					t.Errorf("%s: ES EF LS LF TF FF are %v, want %v", a.ID, got, want)
				}
			}
			var chain []string
			for _, s := range g.Chain {
				chain = append(chain, p.ActivityID(s.Activity))
			}
			if diff := cmp.Diff(c.Critical, strings.Join(chain, " ")); diff != "" {
				t.Errorf("chain (-want +got):\n%s", diff)
			}
		})
	}
}

func inUnits(t *testing.T, m, unit calendars.Minutes) int {
	t.Helper()
	if m%unit != 0 {
		t.Errorf("%d minutes are no whole units of %d", m, unit)
	}
	return int(m / unit)
}

func logic(t *testing.T, p *schedule.Plan) *schedule.Programme {
	t.Helper()
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	return s.Logic().Programme
}
