package solve_test

import (
	"testing"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/oracle"
	"build.example/turflast/schedule/internal/plans"
)

// A booking that the programme moves is worth the call: booked so, the plan has a
// programme as good, and with any one of them as it was none is as good in the first
// three aims.
func TestBookingsAreWorthTheCall(t *testing.T) {
	moved := 0
	for seed := range uint64(5 * few) {
		p := plans.Tiny(plans.Seeded(seed))
		if !movable(p) {
			continue
		}
		g := crews(t, solver(t, p), solve.Options{})
		if g.Blocked != nil {
			continue
		}
		followed := p.BookedAs(g)
		for i := range followed.Deliveries {
			followed.Deliveries[i].Movable = nil
		}
		for i := range p.Deliveries {
			was := p.Deliveries[i].Arrives
			if g.Unloads[i].Arrives == was {
				continue
			}
			moved++
			again := crews(t, solver(t, followed), solve.Options{Reference: g})
			if again.Blocked != nil || oracle.CostOf(p, again).Compare(oracle.CostOf(p, g), p) > 0 {
				t.Errorf("seed %d: booked as told, it is worse\n%s", seed, plans.YAML(p))
			}
			best := oracle.Find(followed.Rebooked(schedule.DeliveryID(i), was))
			if !best.None && best.Cost.Compare(oracle.CostOf(p, g), p) <= 0 {
				t.Errorf("seed %d: %s moves from %v to %v for nothing\n%s",
					seed, p.Deliveries[i].ID, was, g.Unloads[i].Arrives, plans.YAML(p))
			}
		}
	}
	if moved < few/2 {
		t.Errorf("only %d bookings move", moved)
	}
}

// movable says whether a plan has a booking that may move.
func movable(p *schedule.Plan) bool {
	for i := range p.Deliveries {
		if p.Deliveries[i].Movable != nil {
			return true
		}
	}
	return false
}
