package whynot_test

import (
	"flag"
	"slices"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/whynot"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/oracle"
	"build.example/turflast/schedule/internal/plans"
)

var tried = flag.Uint64("plans", 60, "how many tiny plans reasons are checked on")

// A reason is enough by itself, and dropping any one fact that is needed makes it
// possible: by brute force over the plan in which only those facts hold.
func TestReasonsAreSmallest(t *testing.T) {
	checked, needed, perhaps := 0, 0, 0
	for seed := range *tried {
		p := plans.Tiny(plans.Seeded(seed))
		for i := range p.Tasks {
			p.Tasks[i].Optional = false
		}
		s, err := solve.New(p)
		if err != nil {
			continue
		}
		c := s.Crews(t.Context(), solve.Options{})
		if c.Programme.Blocked != nil {
			continue
		}
		by := c.Programme.Finish.Plus(-15 * calendars.Minutes(1+seed%4*seed%5))
		a := whynot.Ask(t.Context(), c, by)
		if !a.Shown || by <= p.Site.Opens {
			continue
		}
		if q, ok := only(p, a.Facts, by); ok {
			checked++
			if canBe(q, by) {
				t.Errorf("seed %d: the facts don't make it impossible by %v: %v\n%s", seed, by, kinds(p, a.Facts), plans.YAML(q))
			}
		}
		for k, f := range a.Facts {
			q, ok := only(p, slices.Delete(slices.Clone(a.Facts), k, k+1), by)
			switch {
			case !f.Needed:
				perhaps++
			case ok:
				needed++
				if !canBe(q, by) {
					t.Errorf("seed %d: impossible by %v without %v too: %v\n%s", seed, by,
						kinds(p, a.Facts[k:k+1]), kinds(p, a.Facts), plans.YAML(q))
				}
			}
		}
	}
	if checked < int(*tried)/5 || needed < int(*tried)/2 {
		t.Errorf("%d reasons and %d needed facts were checked of %d plans, which is too few", checked, needed, *tried)
	}
	t.Logf("%d reasons and %d needed facts checked; %d may be needed", checked, needed, perhaps)
}

func canBe(p *schedule.Plan, by calendars.Instant) bool {
	best := oracle.Find(p)
	return !best.None && p.Site.Handover.Plus(best.Cost.Handover) <= by
}

func kinds(p *schedule.Plan, facts []whynot.Fact) (out []string) {
	names := [...]string{"within", "alone", "room", "gate places", "machines", "people", "crew hours", "dry", "loud",
		"gate hours", "zone hours", "work", "wait", "cure", "sign-off", "start", "slots", "site hours"}
	for _, f := range facts {
		name := names[f.Kind]
		if f.Activity != schedule.Nothing {
			name += " of " + p.ActivityID(f.Activity)
		}
		out = append(out, name)
	}
	return out
}
