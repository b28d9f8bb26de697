package solve_test

import (
	"testing"

	"build.example/turflast/calendars"
	problem "build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/crews/bound"
	"build.example/turflast/schedule/crews/resources"
	"build.example/turflast/schedule/internal/oracle"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/worktime"
)

// No programme is less late than is proven, at the hand-over, at dates of its own or at
// keeps and the gate, whichever optional tasks it leaves out and wherever lorries are
// booked; and often the best one is just as late.
func TestLeastLateness(t *testing.T) {
	late, reached := 0, 0
	for seed := range uint64(70) {
		p := plans.Tiny(plans.Seeded(seed))
		best := oracle.Find(p)
		dropped, free := make([]bool, len(p.Tasks)), make([]bool, len(p.Deliveries))
		for i := range dropped {
			dropped[i] = p.Tasks[i].Optional
		}
		for i := range free {
			free[i] = p.Deliveries[i].Movable != nil
		}
		m, err := network.Expand(p, worktime.New(p), network.Choice{Dropped: dropped})
		if err != nil || best.None {
			continue
		}
		least := bound.Finish(&resources.New(p, m.Hours).Problem(m, dropped, free).Problem, bound.Options{}).Late
		for w, have := range map[problem.Weight]calendars.Minutes{
			problem.Handover: best.Cost.Handover, problem.ByDates: best.Cost.By, problem.KeepsAndGate: best.Cost.Waiting,
		} {
			if least[w] > int64(have) {
				t.Errorf("seed %d: lateness %d of weight %d is proven, the best is %d late\n%s",
					seed, least[w], w, have, plans.YAML(p))
			}
			if have > 0 {
				late++
				if least[w] == int64(have) {
					reached++
				}
			}
		}
	}
	if late < 20 || reached < late/3 {
		t.Errorf("of %d latenesses %d are proven", late, reached)
	}
	t.Logf("of %d latenesses %d are proven", late, reached)
}
