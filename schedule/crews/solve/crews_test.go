package solve_test

import (
	"context"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/verify"
)

func crews(t *testing.T, s *solve.Solver, o solve.Options) *schedule.Programme {
	t.Helper()
	return crewsUntil(t, context.Background(), s, o)
}

func crewsUntil(t *testing.T, ctx context.Context, s *solve.Solver, o solve.Options) *schedule.Programme {
	t.Helper()
	g := s.Crews(ctx, o).Programme
	if r := verify.Check(s.Plan(), g, schedule.Crews); len(r.Rules) > 0 {
		t.Fatalf("%v\n%s", r.Rules, plans.YAML(s.Plan()))
	} else if diff := cmp.Diff(g.Breaks, r.Breaks); diff != "" {
		t.Fatalf("breaks (-programme +verifier):\n%s\n%s", diff, plans.YAML(s.Plan()))
	}
	return g
}

// TestEveryCrewProgrammeVerifies also checks that the bound holds, and that the
// crew programme never finishes before the logic allows.
func TestEveryCrewProgrammeVerifies(t *testing.T) {
	later := 0
	for seed := range uint64(many / 5) {
		p := plans.Small(plans.Seeded(seed))
		s, err := solve.New(p)
		if err != nil {
			continue
		}
		g := crews(t, s, solve.Options{Schedules: 60})
		if g.Finish < g.Bound {
			t.Fatalf("seed %d: finish %d is before the bound %d", seed, g.Finish, g.Bound)
		}
		if g.Finish > s.Logic().Programme.Finish {
			later++
		}
	}
	if later < many/50 {
		t.Errorf("only %d programmes wait for hands", later)
	}
}
