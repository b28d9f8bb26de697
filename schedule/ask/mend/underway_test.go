package mend_test

import (
	"context"
	"reflect"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/mend"
	"build.example/turflast/schedule/ask/whatif"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/verify"
)

// underWay is a tiny plan half built, not all as agreed, in which a date breaks, with its
// programme near the agreed one; ok is false when none does.
func underWay(t *testing.T, seed uint64) (c network.Case, agreed *schedule.Programme, ok bool) {
	t.Helper()
	src := plans.Seeded(seed)
	p := plans.Tiny(src)
	agreed = crews(t, p, nil).Programme
	if agreed.Blocked != nil || !agreed.Finish.IsReal() {
		return c, nil, false
	}
	q := plans.Underway(src, p, agreed, p.Site.Opens+(agreed.Finish-p.Site.Opens)/2, true)
	if _, err := solve.New(q); err != nil {
		return c, nil, false
	}
	c = crews(t, q, agreed)
	return c, agreed, len(c.Programme.Breaks) > 0 || c.Programme.Blocked != nil
}

// Under way, every mend does what it says as well, near what was agreed, and touches
// nothing that has happened.
func TestFollowedUnderWay(t *testing.T) {
	followedOnes, begun := 0, 0
	for seed := range uint64(60) {
		c, agreed, ok := underWay(t, seed)
		if !ok {
			continue
		}
		r, err := mend.Find(context.Background(), c, mend.Options{Reference: agreed, Schedules: few})
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range r.Mends {
			followedOnes++
			q := followed(t, c.Plan, &m.Act)
			reference := whatif.Reference(c.With(agreed), q)
			again := crews(t, q, reference)
			if diff := cmp.Diff(m.Programme, again.Programme); diff != "" {
				t.Fatalf("plan %d, %v: told and followed differ\n%s", seed, m.Changes, diff)
			}
			if found := verify.Check(q, again.Programme, schedule.Crews); len(found.Rules) > 0 {
				t.Fatalf("plan %d, %v: %v", seed, m.Changes, found.Rules)
			}
			checkBrings(t, c, m)
			if moved := moves(reference, again.Programme) + len(c.Plan.Tasks) - len(q.Tasks); moved != m.Moved {
				t.Errorf("plan %d, %v: %d tasks move, told are %d", seed, m.Changes, moved, m.Moved)
			}
			begun += checkBegun(t, c.Plan, q, again.Programme)
		}
	}
	if followedOnes < 20 || begun < 10 {
		t.Errorf("%d mends were followed, past %d activities that had begun", followedOnes, begun)
	}
}

// checkBegun checks that what has begun is in a changed plan, and was logged, as before, and
// begins in its programme when it did; it returns how many have.
func checkBegun(t *testing.T, p, q *schedule.Plan, g *schedule.Programme) (n int) {
	t.Helper()
	for a := range p.Activities() {
		if !p.Begun(a) {
			continue
		}
		n++
		now := q.FindActivity(p.ActivityID(a))
		if now == schedule.Nothing || !q.Begun(now) {
			t.Errorf("%s, which has begun, is gone", p.ActivityID(a))
			continue
		}
		was := p.Progress.When(a)
		if !reflect.DeepEqual(was, q.Progress.When(now)) || g.Of(now).Start != was.Start {
			t.Errorf("%s began %v, and now %v", p.ActivityID(a), was, g.Of(now).Start)
		}
	}
	return n
}
