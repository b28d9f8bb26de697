package verify_test

import (
	"context"
	"fmt"
	"slices"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/oracle"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/verify"
)

// tampered are windows other than the one that a proof carries: wider, narrower, later,
// with work left away or added, of something else, and with other figures.
func tampered(p *schedule.Plan, o *schedule.Overfull) map[string]schedule.Overfull {
	out := make(map[string]schedule.Overfull)
	with := func(name string, change func(o *schedule.Overfull)) {
		x := *o
		x.Work = slices.Clone(o.Work)
		change(&x)
		out[name] = x
	}
	for _, m := range []calendars.Minutes{-600, -1, 1, 600} {
		at := fmt.Sprintf("%+d", m)
		with("begins "+at, func(o *schedule.Overfull) { o.Span.Start = o.Span.Start.Plus(m) })
		with("ends "+at, func(o *schedule.Overfull) { o.Span.End = o.Span.End.Plus(m) })
		with("until "+at, func(o *schedule.Overfull) { o.Until = o.Until.Plus(m) })
	}
	for k, a := range o.Work {
		with("without "+p.ActivityID(a), func(o *schedule.Overfull) { o.Work = slices.Delete(o.Work, k, k+1) })
	}
	for a := range p.Activities() {
		if !slices.Contains(o.Work, a) {
			with("and "+p.ActivityID(a), func(o *schedule.Overfull) { o.Work = append(o.Work, a) })
		}
	}
	for c := range p.Crews {
		with("of crew "+p.Crews[c].ID, func(o *schedule.Overfull) {
			o.Crew, o.Machine, o.Zone, o.Gate = schedule.CrewID(c), schedule.None, schedule.None, false
		})
	}
	for z := range p.Zones {
		with("of zone "+p.Zones[z].ID, func(o *schedule.Overfull) {
			o.Crew, o.Machine, o.Zone, o.Gate = schedule.None, schedule.None, schedule.ZoneID(z), false
		})
	}
	return out
}

// TestTamperedProofsAreRefused: a window is taken only if it is true, and never with other
// figures; and whatever window comes with it, a bound a minute above the best is never
// confirmed. The judge is brute force.
func TestTamperedProofsAreRefused(t *testing.T) {
	taken, refused := 0, 0
	for seed := range uint64(60) {
		p := plans.Tiny(plans.Seeded(seed))
		s, err := solve.New(p)
		if err != nil {
			continue
		}
		g := s.Crews(context.Background(), solve.Options{Schedules: 60}).Programme
		if g.Overfull == nil || !verify.Overfull(p, g) {
			continue
		}
		best := oracle.Find(p)
		if best.None {
			continue
		}
		above := *g
		above.Bound = min(best.Programme.Finish, g.Finish) + 1
		for name, o := range tampered(p, g.Overfull) {
			x := *g
			x.Overfull, above.Overfull = &o, &o
			if k := verify.Proof(p, &above); k != schedule.BySearch {
				t.Errorf("seed %d, %s: a bound above the best is proven by %d\n%s", seed, name, k, plans.YAML(p))
			}
			if !verify.Overfull(p, &x) {
				refused++
				continue
			}
			if taken++; best.Programme.Finish <= o.Until {
				t.Errorf("seed %d, %s: taken, and all can be done by %d\n%s", seed, name, o.Until, plans.YAML(p))
			}
		}
		for _, change := range []func(o *schedule.Overfull){
			func(o *schedule.Overfull) { o.Needed++ }, func(o *schedule.Overfull) { o.There-- },
		} {
			o, x := *g.Overfull, *g
			x.Overfull = &o
			for range 100_000 {
				if change(&o); !verify.Overfull(p, &x) {
					break
				}
			}
			if verify.Overfull(p, &x) {
				t.Errorf("seed %d: figures are taken whatever they are: %+v", seed, o)
			}
		}
	}
	t.Logf("%d tampered windows are taken, being true, and %d refused", taken, refused)
	if taken < 20 || refused < 100 {
		t.Errorf("only %d tampered windows are taken and %d refused", taken, refused)
	}
}
