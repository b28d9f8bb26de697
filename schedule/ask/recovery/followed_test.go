package recovery_test

import (
	"context"
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/recovery"
	"build.example/turflast/schedule/ask/whatif"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/worktime"
	"build.example/turflast/schedule/verify"
)

// quick keeps the searches of these tests short.
var quick = solve.Options{Schedules: 100}

// followed plans anew with the measures of a way taken, near the programme that broke and
// near none, as the plan file would say it.
func followed(t *testing.T, c network.Case, w recovery.Way) (near, anew *schedule.Programme) {
	t.Helper()
	q, err := whatif.Take(c.Plan, w.Measures)
	if err != nil {
		t.Fatal(err)
	}
	s, err := solve.New(q)
	if err != nil {
		t.Fatal(err)
	}
	ctx := context.Background()
	anew = s.Crews(ctx, solve.Options{}).Programme
	o := quick
	o.Reference = whatif.Reference(c, q)
	near = s.Crews(ctx, o).Programme
	for _, g := range []*schedule.Programme{near, anew} {
		if r := verify.Check(q, g, schedule.Crews); len(r.Rules) > 0 {
			t.Errorf("%v: %v", w.Measures, r.Rules)
		}
	}
	return near, anew
}

// What a way tells comes of following it: the plan with its measures has the very programme
// and the sum that were told, and whoever plans it anew meets every date too; and all
// measures together leave the very dates broken that are told.
func TestFollowed(t *testing.T) {
	ctx, ways, nearest := context.Background(), 0, 0
	for seed := range uint64(80) {
		p := plans.Tiny(plans.Seeded(seed))
		if len(p.Crews) == 0 {
			continue
		}
		p = measured(p, rand.New(rand.NewPCG(seed, 5)))
		s, err := solve.New(p)
		if err != nil {
			continue
		}
		c := s.Crews(ctx, quick)
		if finish := c.Programme.Finish; finish.IsReal() && len(c.Programme.Breaks) == 0 {
			q := *p
			q.Site.Handover, q.Site.Aim = finish.Plus(-calendars.Minutes(15*(1+seed%5))), 0
			if s, err = solve.New(&q); err != nil {
				continue
			}
			c, p = s.Crews(ctx, quick), &q
		}
		if len(c.Programme.Breaks) == 0 || c.Programme.Blocked != nil {
			continue
		}
		r, err := recovery.Find(ctx, c, quick)
		if err != nil {
			continue // a measure that this plan refuses
		}
		for _, w := range r.Ways {
			ways++
			near, anew := followed(t, c, w)
			if diff := cmp.Diff(w.Programme, near); diff != "" {
				t.Errorf("seed %d, %v: told and followed differ\n%s", seed, w.Measures, diff)
			}
			if len(near.Breaks) > 0 || len(anew.Breaks) > 0 || near.Blocked != nil || anew.Blocked != nil {
				t.Errorf("seed %d, %v: near %v, anew %v\n%s", seed, w.Measures, near.Breaks, anew.Breaks, plans.YAML(p))
			}
			sum := schedule.Money(0)
			for _, k := range w.Measures {
				sum += p.Measures[k].Cost
			}
			if sum != w.Cost || moved(c, w.Plan, near) != w.Moved || w.Open != open(w) {
				t.Errorf("seed %d, %v: told %d, %d moves, %d open; it is %d, %d, %d", seed, w.Measures, w.Cost, w.Moved,
					w.Open, sum, moved(c, w.Plan, near), open(w))
			}
		}
		if w := r.Nearest; w != nil {
			nearest++
			near, anew := followed(t, c, *w)
			if diff := cmp.Diff(w.Programme.Breaks, near.Breaks); diff != "" {
				t.Errorf("seed %d: told and followed differ\n%s", seed, diff)
			}
			if lateness(anew) < lateness(near) {
				t.Errorf("seed %d: anew it is late by %d, told is %d", seed, lateness(anew), lateness(near))
			}
			if len(anew.Breaks) == 0 && anew.Blocked == nil {
				t.Errorf("seed %d: no set is said to bring every date back, and all together do", seed)
			}
		}
	}
	if ways < 20 || nearest < 10 {
		t.Errorf("%d ways, %d plans that can't be mended", ways, nearest)
	}
}

// moved counts the tasks of a case that start at another time in a programme of the plan
// with measures taken, with other heads, or are left out.
func moved(c network.Case, q *schedule.Plan, g *schedule.Programme) int {
	was, n := whatif.Reference(c, q), len(c.Plan.Tasks)-len(q.Tasks)
	for i := range g.Tasks {
		a, b := &was.Tasks[i], &g.Tasks[i]
		if a.Dropped != b.Dropped || !a.Dropped && a.Start != b.Start {
			n++
		}
	}
	return n
}

// open is the site time from the opening to the last required finish, in the hours that the
// measures make.
func open(w recovery.Way) calendars.Minutes {
	return worktime.New(w.Plan).Site.Between(w.Plan.Site.Opens, w.Programme.Finish)
}

// lateness is how late the hand-over is on the clock.
func lateness(g *schedule.Programme) calendars.Minutes {
	most := calendars.Minutes(0)
	for _, b := range g.Breaks {
		if b.Kind == schedule.BreakHandover {
			most = max(most, calendars.Minutes(b.Actual-b.Limit))
		}
	}
	return most
}
