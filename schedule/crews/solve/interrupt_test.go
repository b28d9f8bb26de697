package solve_test

import (
	"context"
	"fmt"
	"testing"

	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/countdown"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/verify"
)

// mostAfter is the most questions that may follow the end, some hundred steps apart at most:
// each loop asks once more as it is left.
const mostAfter = 1500

// TestAnInterruptEndsSoon: wherever the context is done, little follows, what is found
// passes the check, and what is left out is said.
func TestAnInterruptEndsSoon(t *testing.T) {
	const tasks = 600 // more than reasons and floats are finished of
	for _, h := range plans.HeavyPlans() {
		p := h.Make(tasks)
		s, err := solve.New(p)
		if err != nil {
			t.Fatal(err)
		}
		for _, asked := range []int64{0, 1, 100, 1000, 3000} {
			t.Run(fmt.Sprintf("%s after %d", h.Name, asked), func(t *testing.T) {
				ctx := countdown.From(asked)
				g := s.Crews(ctx, solve.Options{}).Programme
				after := ctx.Since()
				if after == 0 {
					t.Fatal("it ended by itself: the plan is too easy for this test")
				}
				if after > mostAfter {
					t.Errorf("it asked %d times after the end, more than %d", after, mostAfter)
				}
				if !g.Cut.Any() {
					t.Error("nothing is said to be left out")
				}
				if g.Cut.Reasons != (g.Chain == nil) {
					t.Errorf("reasons left out: %v, a chain of %d steps", g.Cut.Reasons, len(g.Chain))
				}
				if r := verify.Check(p, g, g.Scope); len(r.Rules) > 0 {
					t.Errorf("the check refuses it: %v", r.Rules[0])
				}
			})
		}
	}
}

// TestAnInterruptOfASmallPlanLeavesLittleOut: what takes no time is still worked out.
func TestAnInterruptOfASmallPlanLeavesLittleOut(t *testing.T) {
	for _, h := range plans.HeavyPlans() {
		s, err := solve.New(h.Make(20))
		if err != nil {
			t.Fatal(err)
		}
		ctx, stop := context.WithCancel(context.Background())
		stop()
		g := s.Crews(ctx, solve.Options{}).Programme
		if !g.Cut.Search || g.Cut.Reasons || g.Cut.Floats || g.Chain == nil {
			t.Errorf("%s: left out: %+v, a chain of %d steps", h.Name, g.Cut, len(g.Chain))
		}
	}
}

// TestMoreWorkThanTime: where the time line ends before the work does, what has a place is
// shown, all of it done by its end, and passes the check.
func TestMoreWorkThanTime(t *testing.T) {
	p := plans.Big(10_000, 1)
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	g := s.Crews(countdown.From(0), solve.Options{}).Programme
	if len(g.Blocked) == 0 || len(g.Blocked) == int(p.Activities()) {
		t.Errorf("%d of %d activities have no place", len(g.Blocked), p.Activities())
	}
	if r := verify.Check(p, g, g.Scope); len(r.Rules) > 0 {
		t.Errorf("the check refuses it: %v", r.Rules)
	}
}
