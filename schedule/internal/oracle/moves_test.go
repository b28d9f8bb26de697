package oracle_test

import (
	"context"
	"slices"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/oracle"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/verify"
)

// settled says whether two programmes of a plan and of one like it leave out the same tasks,
// and keep every booking.
func settled(p, q *schedule.Plan, was, now *schedule.Programme) bool {
	for i := range p.Tasks {
		if was.Tasks[i].Dropped != now.Tasks[i].Dropped {
			return false
		}
	}
	for i := range p.Deliveries {
		if was.Unloads[i].Arrives != p.Deliveries[i].Arrives || now.Unloads[i].Arrives != q.Deliveries[i].Arrives {
			return false
		}
	}
	return was.Blocked == nil && now.Blocked == nil
}

// disturbed is a plan in which one lorry comes later, or one task takes longer.
func disturbed(src plans.Source, p *schedule.Plan) *schedule.Plan {
	q, by := *p, calendars.Minutes(30*src.Int(1, 16))
	q.Tasks, q.Deliveries = slices.Clone(p.Tasks), slices.Clone(p.Deliveries)
	if n := len(p.Deliveries); n > 0 && src.Int(0, 1) == 0 {
		d := &q.Deliveries[src.Int(0, n-1)]
		d.HoldUp(d.Arrives, d.Arrives.Plus(by))
		return &q
	}
	t := &q.Tasks[src.Int(0, len(p.Tasks)-1)]
	if t.Effort.Shared() {
		t.Effort.Num += 6 * 60 * t.Effort.Den
	} else {
		t.Effort.Takes += by
	}
	return &q
}

func solved(t *testing.T, p *schedule.Plan, o solve.Options) *schedule.Programme {
	t.Helper()
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	return s.Crews(context.Background(), o).Programme
}

// A change to a tiny plan makes no more moves than it needs: no programme that costs no
// more keeps more of the starts and sizes that were programmed.
func TestFewestMoves(t *testing.T) {
	asked, some, many, choices := 0, 0, 0, 0
	for seed := range uint64(tried) {
		p := plans.Tiny(plans.Seeded(seed))
		q := disturbed(plans.Seeded(seed+1000), p)
		was := solved(t, p, solve.Options{})
		now := solved(t, q, solve.Options{Reference: was})
		if !settled(p, q, was, now) {
			continue
		}
		asked++
		choices += count(slices.ContainsFunc(p.Tasks, func(t schedule.Task) bool { return t.Optional }) ||
			slices.ContainsFunc(p.Deliveries, func(d schedule.Delivery) bool { return d.Movable != nil }))
		moves := oracle.Moves(q, now, was)
		some, many = some+count(moves > 0), many+count(moves > 2)
		g := oracle.Steadier(q, now, was)
		if g == nil {
			continue
		}
		if found := verify.Check(q, g, schedule.Crews).Rules; len(found) > 0 {
			t.Fatalf("seed %d: steadier, but %v\n%s", seed, found, plans.YAML(q))
		}
		t.Errorf("seed %d: %d moves, where %d do\n%s", seed, moves, oracle.Moves(q, g, was), plans.YAML(q))
	}
	if asked < tried*2/3 || some < tried/4 || many < tried/12 || choices < tried/4 {
		t.Errorf("of %d changes %d move something, %d more than two, %d with a choice", asked, some, many, choices)
	}
}
