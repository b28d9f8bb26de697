package verify

import (
	"testing"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/internal/plans"
)

// TestNeedingIsFoundAsPairByPair: what comes before an activity without dates is found
// kind by kind as it is when every pair is asked about.
func TestNeedingIsFoundAsPairByPair(t *testing.T) {
	ruled, linked := 0, 0
	for seed := range uint64(300) {
		p := plans.Small(plans.Seeded(seed))
		if seed%10 == 0 {
			p = plans.Big(120, seed)
		}
		c := &checker{p: p}
		lacking := make([]bool, p.Activities())
		draw := plans.Seeded(seed)
		for a := range lacking {
			lacking[a] = draw.Int(1, 8) == 1
		}
		n := c.needing(lacking)
		for b := range p.Activities() {
			if lacking[b] {
				continue
			}
			found, want := n.before(b), false
			for a := range p.Activities() {
				want = want || lacking[a] && c.comesBefore(a, b)
			}
			if got := found != schedule.Nothing; got != want || got && !(lacking[found] && c.comesBefore(found, b)) {
				t.Fatalf("seed %d: before %s: %v, want some: %v", seed, p.ActivityID(b), found, want)
			}
			switch first, task := p.Task(found); {
			case !want:
			case task && b < schedule.Activity(len(p.Tasks)) && c.ruledBefore(first, schedule.TaskID(b)):
				ruled++
			default:
				linked++
			}
		}
	}
	if ruled == 0 || linked == 0 {
		t.Errorf("%d by rules, %d by links: the plans are too easy for this test", ruled, linked)
	}
}
