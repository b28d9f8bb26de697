package solve_test

import (
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/oracle"
	"build.example/turflast/schedule/internal/plans"
)

// tally counts the floats that were compared.
type tally struct{ plans, below, total, late int }

// A task or unloading that slips by its crew float breaks no date or longest wait that
// holds, and makes none that is broken later; by a minute more it does, unless the
// links alone allow no more. An independent slide of the whole programme, slot by slot,
// says so.
func TestCrewFloatAgainstSlide(t *testing.T) {
	var n tally
	n.plans = max(*plansTried, 150)
	for seed := range uint64(n.plans) {
		p := plans.Tiny(plans.Seeded(seed))
		s, err := solve.New(p)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		g := s.Crews(t.Context(), solve.Options{Schedules: 200}).Programme
		if g.Blocked != nil {
			continue
		}
		slide := oracle.NewSlide(p, g)
		for i := range p.Tasks {
			if d := &g.Tasks[i]; !d.Dropped {
				slip := func(by calendars.Minutes) bool { return slide.Task(schedule.TaskID(i), by) }
				n.compare(t, seed, p.Tasks[i].ID, slip, d.CrewFloat, d.TotalFloat)
			}
		}
		for i := range p.Deliveries {
			slip := func(by calendars.Minutes) bool { return slide.Unload(schedule.DeliveryID(i), by) }
			n.compare(t, seed, p.Deliveries[i].ID, slip, g.Unloads[i].CrewFloat, g.Unloads[i].TotalFloat)
			if u := &g.Unloads[i]; u.LateArrival < u.Arrives {
				t.Errorf("seed %d: %s may come %d minutes sooner than it does", seed, p.Deliveries[i].ID, u.Arrives-u.LateArrival)
			}
		}
	}
	if all := n.below + n.total + n.late; n.below < all/10 || n.total < all/10 || n.late < all/50 || all < 4*n.plans {
		t.Errorf("of %d crew floats only %d are below total float, %d are as large, %d of late work",
			all, n.below, n.total, n.late)
	}
}

func (n *tally) compare(t *testing.T, seed uint64, id string,
	slip func(calendars.Minutes) bool, float, total calendars.Minutes) {
	switch {
	case float < 0 || total >= 0 && float > total:
		t.Errorf("seed %d: %s has a crew float of %d, its total float is %d", seed, id, float, total)
	case float == schedule.FreeRange:
		n.total++
		return
	case !slip(0):
		t.Errorf("seed %d: %s breaks something where it is", seed, id)
	case !slip(float):
		t.Errorf("seed %d: %s breaks something when it slips by its crew float of %d", seed, id, float)
	}
	switch {
	case float == total:
		n.total++
		return
	case total < 0:
		n.late++
	default:
		n.below++
	}
	if slip(float + 1) {
		t.Errorf("seed %d: %s has a crew float of %d, and can slip a minute more", seed, id, float)
	}
}
