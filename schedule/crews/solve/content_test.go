package solve_test

import (
	"context"
	"slices"
	"testing"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/verify"
)

// TestContent checks a programme that is content with the hand-over, beginning
// with one whose first task is put off: nothing moves, and nothing breaks.
func TestContent(t *testing.T) {
	ctx, kept := context.Background(), 0
	for seed := range uint64(120) {
		p := plans.Tiny(plans.Seeded(seed))
		s, err := solve.New(p)
		if err != nil {
			continue
		}
		g := s.Crews(ctx, solve.Options{}).Programme
		if g.Blocked != nil || len(g.Breaks) > 0 {
			continue
		}
		late := putOff(s, g)
		if late == nil {
			continue
		}
		h := s.Crews(ctx, solve.Options{Reference: late, Content: p.Site.Handover}).Programme
		if r := verify.Check(p, h, schedule.Crews); len(r.Rules) > 0 || len(r.Breaks) > 0 {
			t.Errorf("seed %d: %v %v", seed, r.Rules, r.Breaks)
		}
		if len(h.Moves) > 0 {
			t.Errorf("seed %d: %v", seed, h.Moves)
		}
		kept++
	}
	if kept < 6 {
		t.Errorf("only %d programmes were put off", kept)
	}
}

// putOff is a programme whose last required task starts a minute later, if it may.
func putOff(s *solve.Solver, g *schedule.Programme) *schedule.Programme {
	for i := range g.Tasks {
		t, d := &s.Plan().Tasks[i], &g.Tasks[i]
		if t.Optional || d.Done != g.Finish || d.CrewFloat < 1 || d.CrewFloat == schedule.FreeRange || len(d.Work) != 1 {
			continue
		}
		after := func(o schedule.TaskDates) bool { return o.Finish > d.Start && o.Start != d.Start }
		if !s.Hours().Task(t, d.Heads).IsOpen(d.Finish) || slices.ContainsFunc(g.Tasks, after) {
			continue // others would have to slide
		}
		h := *g
		h.Tasks = slices.Clone(g.Tasks)
		h.Tasks[i].Start++
		h.Tasks[i].Finish++
		return &h
	}
	return nil
}
