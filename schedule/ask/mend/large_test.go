package mend_test

import (
	"context"
	"testing"

	"build.example/turflast/schedule/ask/mend"
	"build.example/turflast/schedule/ask/whatif"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
)

// Of a large plan no act is searched with: one that brings nothing as programmed is idle,
// and what a mend brings is what the order of hands brings.
func TestLargePlansAreTriedAsProgrammed(t *testing.T) {
	s, err := solve.New(plans.Big(1000, 1))
	if err != nil {
		t.Fatal(err)
	}
	c := s.Ordered(s.Crews(context.Background(), solve.Options{Schedules: 1, Unjudged: true}).Programme)
	r, err := mend.Find(context.Background(), c, mend.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if r.Tried+r.Idle == 0 || r.Tried > len(r.Mends)+r.More {
		t.Errorf("%d acts tried, %d idle, %d mends", r.Tried, r.Idle, len(r.Mends)+r.More)
	}
	for _, m := range r.Mends {
		q, err := solve.New(m.Plan)
		if err != nil {
			t.Fatal(err)
		}
		if got := q.Ordered(whatif.Reference(c, m.Plan)).Programme.Finish; got != m.Programme.Finish {
			t.Errorf("%s is done at %d, as programmed at %d", acted(&m.Act), m.Programme.Finish, got)
		}
	}
}
