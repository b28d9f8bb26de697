package solve_test

import (
	"context"
	"slices"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/verify"
)

// TestOrdered takes the work of crew programmes in their own order again: nothing
// gets later, and the programme is whole.
func TestOrdered(t *testing.T) {
	ctx, taken := context.Background(), 0
	for seed := range uint64(80) {
		p := plans.Tiny(plans.Seeded(seed))
		s, err := solve.New(p)
		if err != nil {
			continue
		}
		g := s.Crews(ctx, solve.Options{}).Programme
		moved := func(u schedule.UnloadDates) bool { return u.Arrives == calendars.Never }
		for d := range p.Deliveries {
			if g.Unloads[d].Arrives != p.Deliveries[d].Arrives {
				moved = func(schedule.UnloadDates) bool { return true }
			}
		}
		if g.Blocked != nil || slices.ContainsFunc(g.Unloads, moved) {
			continue
		}
		h, whole := s.Ordered(g).Programme, s.OrderedWhole(ctx, g).Programme
		if h.Blocked != nil {
			continue // an order in which longest waits push each other on
		}
		taken++
		if r := verify.Check(p, whole, schedule.Crews); len(r.Rules) > 0 {
			t.Errorf("seed %d: %v", seed, r.Rules)
		}
		if h.Finish > g.Finish || h.Finish != whole.Finish || len(h.Breaks) > len(g.Breaks) {
			t.Errorf("seed %d: done %v and %v, breaks %v; in the same order before %v, %v",
				seed, h.Finish, whole.Finish, h.Breaks, g.Finish, g.Breaks)
		}
		for i := range h.Tasks {
			if h.Tasks[i].Start != whole.Tasks[i].Start || !slices.Equal(h.Tasks[i].Heads, g.Tasks[i].Heads) {
				t.Errorf("seed %d: task %d", seed, i)
			}
		}
	}
	if taken < 40 {
		t.Errorf("only %d programmes", taken)
	}
}
