package mend_test

import (
	"context"
	"fmt"
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/mend"
	"build.example/turflast/schedule/ask/whatif"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/verify"
)

// broken is a tiny plan whose hand-over comes so soon that a date breaks, and its
// programme; ok is false when none does.
func broken(t *testing.T, seed uint64) (c network.Case, ok bool) {
	t.Helper()
	p := plans.Tiny(plans.Seeded(seed))
	c = crews(t, p, nil)
	if c.Programme.Finish.IsReal() && len(c.Programme.Breaks) == 0 {
		q := *p
		q.Site.Handover = c.Programme.Finish.Plus(-calendars.Minutes(15 * (1 + seed%5)))
		if q.Site.Handover <= q.Site.Opens || q.Site.Aim > q.Site.Handover {
			return c, false
		}
		c = crews(t, &q, nil)
	}
	return c, len(c.Programme.Breaks) > 0 || c.Programme.Blocked != nil
}

// read is the plan that a text gives.
func read(t testing.TB, text string) *schedule.Plan {
	t.Helper()
	p, problems := planfile.Read(strings.NewReader(text))
	if p == nil {
		t.Fatal(problems)
	}
	return p
}

// crews is the crew programme of a plan, near a reference.
func crews(t *testing.T, p *schedule.Plan, reference *schedule.Programme) network.Case {
	t.Helper()
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	return s.Crews(context.Background(), solve.Options{Schedules: few, Reference: reference})
}

// few is how many schedules a search of these tests builds.
const few = 60

func find(t *testing.T, c network.Case) *mend.Result {
	t.Helper()
	r, err := mend.Find(context.Background(), c, mend.Options{Schedules: few})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// Followed, every mend does what it says: the plan with its changes has the very
// programme that was told, which passes its check, and meets what it is said to meet.
func TestFollowed(t *testing.T) {
	seen := make(map[mend.Brings]int)
	for seed := range uint64(70) {
		c, ok := broken(t, seed)
		if !ok {
			continue
		}
		for _, m := range find(t, c).Mends {
			seen[m.Brings]++
			q := followed(t, c.Plan, &m.Act)
			again := crews(t, q, whatif.Reference(c, q))
			if diff := cmp.Diff(m.Programme, again.Programme); diff != "" {
				t.Fatalf("plan %d, %v: told and followed differ\n%s", seed, m.Changes, diff)
			}
			if found := verify.Check(q, again.Programme, schedule.Crews); len(found.Rules) > 0 {
				t.Fatalf("plan %d, %v: %v", seed, m.Changes, found.Rules)
			}
			checkBrings(t, c, m)
			if moved := moves(whatif.Reference(c, q), again.Programme) + len(c.Plan.Tasks) - len(q.Tasks); moved != m.Moved {
				t.Errorf("plan %d, %v: %d tasks move, told are %d", seed, m.Changes, moved, m.Moved)
			}
			checkKept(t, c.Plan, q)
		}
	}
	for b := mend.EveryDate; b <= mend.Nearer; b++ {
		if seen[b] == 0 {
			t.Errorf("no mend brings %d", b)
		}
	}
}

// moves counts the tasks with another start or other heads in one of two programmes of a
// plan, or left out of one.
func moves(was, now *schedule.Programme) (n int) {
	for i := range now.Tasks {
		a, b := &was.Tasks[i], &now.Tasks[i]
		if a.Dropped != b.Dropped || !a.Dropped && (a.Start != b.Start || fmt.Sprint(a.Heads) != fmt.Sprint(b.Heads)) {
			n++
		}
	}
	return n
}

// followed is the plan with an act done, its changes read from their text.
func followed(t *testing.T, p *schedule.Plan, a *mend.Act) *schedule.Plan {
	t.Helper()
	if a.Measure != schedule.None {
		q, err := whatif.Take(p, []int{a.Measure})
		if err != nil {
			t.Fatal(err)
		}
		return q
	}
	var list []schedule.Change
	for _, c := range a.Changes {
		read, err := planfile.ParseChange(c.String())
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, read)
	}
	q, err := whatif.Apply(p, list)
	if err != nil {
		t.Fatal(err)
	}
	return q
}

// checkBrings checks that a mend brings what it says it brings.
func checkBrings(t *testing.T, c network.Case, m *mend.Mend) {
	t.Helper()
	before, after := c.Programme, m.Programme
	switch {
	case m.Brings == mend.EveryDate && (len(after.Breaks) > 0 || after.Blocked != nil):
		t.Errorf("%v: every date is met, it says, and %v", m.Changes, after.Breaks)
	case m.Brings == mend.Handover && (met(before) || !met(after)):
		t.Errorf("%v: it brings the hand-over back, it says, and %v", m.Changes, after.Breaks)
	case m.Brings == mend.Nearer && !met(before) && after.Finish > before.Finish:
		t.Errorf("%v: it comes nearer, it says, from %d to %d", m.Changes, before.Finish, after.Finish)
	}
}

// met says whether a programme meets the hand-over.
func met(g *schedule.Programme) bool {
	return g.Blocked == nil && (len(g.Breaks) == 0 || g.Breaks[0].Kind != schedule.BreakHandover)
}

// checkKept checks that nothing was loosened that must hold.
func checkKept(t *testing.T, p, q *schedule.Plan) {
	t.Helper()
	if !reflect.DeepEqual(p.Site.Loud, q.Site.Loud) || !reflect.DeepEqual(p.Rules, q.Rules) {
		t.Error("loud hours or rules were loosened")
	}
	for i := range q.Tasks {
		now := &q.Tasks[i]
		was := &p.Tasks[p.FindTask(now.ID)]
		if was.Cure != now.Cure || len(was.Clears) != len(now.Clears) || (was.Hold == nil) != (now.Hold == nil) ||
			was.Hold != nil && (was.Hold.Takes != now.Hold.Takes || len(was.Hold.Appointments) > len(now.Hold.Appointments)) {
			t.Errorf("%s: a cure, a hold point or what it clears was loosened", now.ID)
		}
	}
	for d := range q.Deliveries {
		if was, now := &p.Deliveries[d], &q.Deliveries[d]; was.Keep != now.Keep || was.Arrives != now.Arrives &&
			(now.Arrives < p.Site.Opens || now.Arrives.Plus(now.Unload.Takes) > p.Site.Handover) {
			t.Errorf("%s: booked for no time in the window, or kept longer", now.ID)
		}
	}
}

// On tiny plans every act is solved with, so that none that helps is missed, and those
// that are told bring the most.
func TestNoneIsMissed(t *testing.T) {
	tried, mended := 0, 0
	for seed := range uint64(45) {
		c, ok := broken(t, seed)
		if !ok {
			continue
		}
		tried++
		best, which := mend.Nearer+1, ""
		acts := mend.Acts(c)
		for k := range acts {
			q, err := acts[k].Apply(c.Plan)
			if err != nil {
				continue
			}
			g := crews(t, q, whatif.Reference(c, q)).Programme
			if b := brought(c.Programme, g); b < best {
				best, which = b, fmt.Sprint(acts[k].Changes, acts[k].Measure)
			}
		}
		r := find(t, c)
		got := mend.Nearer + 1
		if len(r.Mends) > 0 {
			got = r.Mends[0].Brings
		}
		if best < mend.Nearer {
			mended++
		}
		if got > best && best < mend.Nearer {
			t.Errorf("plan %d: %s brings %d, told is %d", seed, which, best, got)
		}
	}
	if tried < 20 || mended < 5 {
		t.Errorf("%d plans were tried, of which something mends %d", tried, mended)
	}
}

// brought is what one programme brings after another.
func brought(before, after *schedule.Programme) mend.Brings {
	switch {
	case after.Blocked == nil && len(after.Breaks) == 0:
		return mend.EveryDate
	case met(after) && !met(before):
		return mend.Handover
	}
	return mend.Nearer
}
