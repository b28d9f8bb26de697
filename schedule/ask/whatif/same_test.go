package whatif_test

import (
	"testing"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/whatif"
	"build.example/turflast/schedule/internal/oracle"
	"build.example/turflast/schedule/internal/plans"
)

// A changed plan has one answer: solved for itself, as from its own file, and as a
// change that keeps near to what was, it breaks as little, leaves out the same and ends
// at the same moment.
func TestPlanAndWhatIfAgree(t *testing.T) {
	asked, late, moved := 0, 0, 0
	for seed := range uint64(80) {
		p := plans.Tiny(plans.Seeded(seed))
		before := programme(t, p, nil)
		q, err := whatif.Apply(p, changes(t, someChange(plans.Seeded(seed+2000), p)))
		if err != nil {
			continue // the change can't be
		}
		plan, answer := programme(t, q, nil).Programme, programme(t, q, whatif.Reference(before, q)).Programme
		if plan.Blocked != nil || answer.Blocked != nil {
			if len(plan.Blocked) != len(answer.Blocked) {
				t.Errorf("seed %d: one has a place for more than the other\n%s", seed, plans.YAML(q))
			}
			continue
		}
		asked++
		a, b := threeAims(q, plan), threeAims(q, answer)
		if a.Compare(b, q) != 0 {
			t.Errorf("seed %d: as a plan %+v, as a change %+v\n%s", seed, a, b, plans.YAML(q))
		}
		if a.Handover > 0 {
			late++
		}
		if len(answer.Moves) > 0 {
			moved++
		}
	}
	if asked < 50 || late < 20 || moved < 10 {
		t.Errorf("%d changes asked of, %d late, %d that move work", asked, late, moved)
	}
	t.Logf("%d changes asked of, %d late, %d that move work", asked, late, moved)
}

// threeAims is what a programme costs in the first three aims, without the work beyond
// the line.
func threeAims(p *schedule.Plan, g *schedule.Programme) oracle.Cost {
	c := oracle.CostOf(p, g)
	c.Beyond = 0
	return c
}
