package solve_test

import (
	"context"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/verify"
)

// underway calls f with random plans, programmes of theirs, and moments within them.
func underway(t *testing.T, n int, f func(seed uint64, p *schedule.Plan, g *schedule.Programme, at calendars.Instant)) {
	t.Helper()
	tried := 0
	for seed := uint64(0); tried < n; seed++ {
		p := plans.Small(plans.Seeded(seed))
		s, err := solve.New(p)
		if err != nil {
			continue
		}
		g := s.Crews(context.Background(), solve.Options{Schedules: 100}).Programme
		if g.Blocked != nil || g.Finish <= p.Site.Opens {
			continue
		}
		tried++
		src := plans.Seeded(seed + 1<<32)
		f(seed, p, g, p.Site.Opens.Plus(calendars.Minutes(src.Int(1, int(g.Finish-p.Site.Opens)+60))))
	}
}

func resolved(t *testing.T, seed uint64, p *schedule.Plan, o solve.Options) (logic, crews *schedule.Programme) {
	t.Helper()
	s, err := solve.New(p)
	if err != nil {
		t.Fatalf("seed %d: %v", seed, err)
	}
	logic, crews = s.Logic().Programme, s.Crews(context.Background(), o).Programme
	for _, g := range []*schedule.Programme{logic, crews} {
		r := verify.Check(p, g, g.Scope)
		if len(r.Rules) > 0 {
			t.Fatalf("seed %d, scope %d: %v\n%s", seed, g.Scope, r.Rules, plans.YAML(p))
		} else if diff := cmp.Diff(g.Breaks, r.Breaks); diff != "" {
			t.Fatalf("seed %d: breaks (-programme +verifier):\n%s", seed, diff)
		}
	}
	return logic, crews
}

// TestForecastsVerify checks that whatever has happened, in whatever order, the
// programmes of what is left are sound.
func TestForecastsVerify(t *testing.T) {
	hand, done, blocked, within := 0, 0, 0, 0
	underway(t, many/5, func(seed uint64, p *schedule.Plan, g *schedule.Programme, at calendars.Instant) {
		q := plans.Underway(plans.Seeded(seed), p, g, at, true)
		_, crews := resolved(t, seed, q, solve.Options{Schedules: 60, Reference: g})
		for i := range q.Tasks {
			hand += count(q.InHand(schedule.TaskID(i)))
			done += count(q.Finished(schedule.TaskID(i)))
		}
		blocked += count(crews.Blocked != nil)
		for _, b := range crews.Breaks {
			within += count(b.Kind == schedule.BreakWithin)
		}
		if crews.Blocked == nil && crews.Finish < crews.Bound {
			t.Fatalf("seed %d: finish %d is before the bound %d", seed, crews.Finish, crews.Bound)
		}
	})
	t.Logf("%d tasks in hand, %d finished, %d longest waits over, %d blocked", hand, done, within, blocked)
	if hand < many/10 || done < many/5 || within == 0 {
		t.Errorf("%d tasks in hand, %d finished, %d longest waits over: too few to mean much", hand, done, within)
	}
}

// leftOut is how many tasks a programme leaves out.
func leftOut(g *schedule.Programme) (n int) {
	for i := range g.Tasks {
		n += count(g.Tasks[i].Dropped)
	}
	return n
}

func count(b bool) int {
	if b {
		return 1
	}
	return 0
}

// TestBuildAsProgrammed checks that a build which goes as programmed is forecast
// to go on so, with nothing moved, unless there is something to gain.
func TestBuildAsProgrammed(t *testing.T) {
	same := 0
	underway(t, many/5, func(seed uint64, p *schedule.Plan, g *schedule.Programme, at calendars.Instant) {
		q := plans.Underway(plans.Seeded(seed), p, g, at, false)
		_, crews := resolved(t, seed, q, solve.Options{Schedules: 60, Reference: g})
		if leftOut(crews) < leftOut(g) {
			return // what was programmed to be left out has a place after all
		}
		finish, breaks := g.Finish, len(g.Breaks)
		for i := range q.Tasks {
			if id := schedule.TaskID(i); q.Required(id.Activity()) && !p.Required(id.Activity()) { // it has begun
				finish = max(finish, g.Tasks[i].Done)
				breaks += count(g.Tasks[i].Done > q.Site.Handover)
			}
		}
		if crews.Finish > finish || crews.Finish == finish && len(crews.Breaks) > breaks {
			t.Fatalf("seed %d: worse than programmed: %d after %d", seed, crews.Finish, g.Finish)
		}
		if crews.Finish < finish || len(g.Breaks) > 0 {
			return
		}
		same++
		for i := range g.Tasks {
			if g.Tasks[i].Dropped {
				continue
			}
			if a, b := &g.Tasks[i], &crews.Tasks[i]; a.Dropped != b.Dropped ||
				a.Start != b.Start || a.Finish != b.Finish || a.Done != b.Done {
				t.Fatalf("seed %d: %s at %d was %d to %d, now %d to %d", seed,
					p.Tasks[i].ID, at, a.Start, a.Finish, b.Start, b.Finish)
			}
		}
	})
	if same < many/20 {
		t.Errorf("only %d builds had nothing to gain", same)
	}
}
