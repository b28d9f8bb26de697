package plans_test

import (
	"testing"

	"pgregory.net/rapid"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/internal/plans"
)

func TestTinyPlansReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) { readBack(t, plans.Tiny(plans.Drawn(t))) })
}

// Every construct that dates depend on is in at least one tiny plan of twenty.
func TestTinyPlansUseEverything(t *testing.T) {
	const tried = 1000
	counts := make(map[string]int)
	for seed := range uint64(tried) {
		p := plans.Tiny(plans.Seeded(seed))
		found := constructs(p)
		found["small enough"] = len(p.Tasks) <= 6 && len(p.Deliveries) <= 2
		for name, is := range shares(p) {
			found[name] = is
		}
		for name, is := range found {
			if is {
				counts[name]++
			} else {
				counts[name] += 0
			}
		}
	}
	for _, name := range []string{"own stage", "wet_days", "measures",
		"late", "order_ahead", "spread", "weather", "dries", "hazards"} {
		delete(counts, name) // no date depends on them
	}
	for name, n := range counts {
		if n < tried/20 {
			t.Errorf("%s: in %d plans of %d", name, n, tried)
		}
	}
	if n := counts["small enough"]; n < tried {
		t.Errorf("%d plans of %d are too large", tried-n, tried)
	}
}

// shares are constructs that matter where hands are shared.
func shares(p *schedule.Plan) map[string]bool {
	c := map[string]bool{}
	note := func(name string, found bool) { c[name] = c[name] || found }
	for i := range p.Tasks {
		t := &p.Tasks[i]
		note("hold_point at any time", t.Hold != nil && len(t.Hold.Appointments) == 0)
		note("a hold point that takes time", t.Hold != nil && t.Hold.Takes > 0)
		note("a finish held", len(t.After) > 0 && t.After[0].Kind.ToFinish())
		for _, m := range t.Machines {
			note("room of machines", p.Machines[m.Machine].Places > 0 && p.Zones[t.Zones[0]].People > 0)
		}
		for _, d := range t.Uses {
			note("movable stock that keeps", p.Deliveries[d].Movable != nil && p.Deliveries[d].Keep > 0)
		}
	}
	for i := range p.Deliveries {
		note("waits", p.Deliveries[i].Waits != 30)
		note("aged", p.Deliveries[i].Aged > 0)
	}
	for i := range p.Crews {
		for _, a := range p.Crews[i].Away {
			note("all away", a.All)
		}
	}
	if g := p.Site.Gate; g != nil {
		note("gate for one", g.AtOnce == 1)
		note("gate for two", g.AtOnce == 2)
	}
	return c
}
