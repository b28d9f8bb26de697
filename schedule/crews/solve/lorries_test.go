package solve_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/oracle"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/verify"
)

const skipped = `garden: Skip court
site: {timezone: Europe/London, opens: 2027-05-03 08:00, handover: 2027-05-05 17:00, hours: {mon-fri: 08:00-12:00 13:00-17:00}}
zones: {lawn: {name: Lawn}}
crews: {hands: {name: Hands, people: 2}}
deliveries:
  turf: {what: turf, arrives: 2027-05-03 08:00, unload: 30m}
  skip: {what: skip, %s, unload: 30m}
tasks:
  lay: {name: Lay, zone: lawn, stage: turf, crew: {hands: 2}, takes: 4h, uses: [turf]}
  pots: {name: Pots, zone: lawn, stage: mulch, crew: {hands: 2}, takes: 30m, optional: true%s}
`

// TestTheLastLorry: the hand-over waits for a lorry, but for one that serves optional
// tasks alone. The turf is laid from Monday 08:30 to 13:30, pots are set by Monday 14:00;
// Monday 13:30 to Wednesday 17:00 are 19 h 30 of site time.
func TestTheLastLorry(t *testing.T) {
	const monday, laid = 19*60 + 30, "2027-05-03 13:30"
	for _, c := range []struct {
		name, skip, pots string
		finish           string
		margin           schedule.Margin
		breaks           []schedule.BreakKind
		chain            string
	}{
		{"nothing uses it", "arrives: 2027-05-05 14:00", "", "2027-05-05 14:30",
			schedule.Margin{Time: 150}, nil, "skip"},
		{"a collection", "arrives: 2027-05-05 14:00, out: true, after: [lay]", "", "2027-05-05 14:30",
			schedule.Margin{Time: 150}, nil, "skip"},
		{"it waits for work", "arrives: 2027-05-03 13:00, out: true, after: [lay]", "", "2027-05-03 14:00",
			schedule.Margin{Time: monday - 30}, nil, "turf lay skip"},
		{"the line is the end of loading", "arrives: 2027-05-05 16:30, out: true, after: [lay]", "", "2027-05-05 17:00",
			schedule.Margin{}, nil, "skip"},
		{"sent away", "arrives: 2027-05-05 16:31, out: true, after: [lay]", "", "2027-05-06 08:30",
			schedule.Margin{Time: -30}, []schedule.BreakKind{schedule.BreakHandover, schedule.BreakSentAway}, "skip"},
		{"for optional work alone", "arrives: 2027-05-05 16:00", ", uses: [skip]", laid,
			schedule.Margin{Time: monday}, nil, "turf lay"},
		{"after optional work alone", "arrives: 2027-05-05 14:00, out: true, after: [pots]", "", laid,
			schedule.Margin{Time: monday}, nil, "turf lay"},
		{"after it and the line", "arrives: 2027-05-06 14:00, out: true, after: [pots]", "", laid,
			schedule.Margin{Time: monday}, nil, "turf lay"},
		{"after both, beyond the line", "arrives: 2027-05-06 14:00, out: true, after: [pots, lay]", "", "2027-05-06 14:30",
			schedule.Margin{Time: -330}, []schedule.BreakKind{schedule.BreakHandover}, "skip"},
		{"none uses it, after optional work", "arrives: 2027-05-06 14:00, after: [pots]", "", "2027-05-06 14:30",
			schedule.Margin{Time: -330}, []schedule.BreakKind{schedule.BreakHandover}, "skip"},
	} {
		p, problems := planfile.Read(strings.NewReader(fmt.Sprintf(skipped, c.skip, c.pots)))
		if problems.Fatal() {
			t.Fatal(c.name, problems)
		}
		finish, err := time.ParseInLocation("2006-01-02 15:04", c.finish, p.Site.Location)
		if err != nil {
			t.Fatal(err)
		}
		s, err := solve.New(p)
		if err != nil {
			t.Fatal(err)
		}
		crews := s.Crews(t.Context(), solve.Options{}).Programme
		for _, g := range []*schedule.Programme{s.Logic().Programme, crews} {
			if g.Finish != calendars.InstantOf(finish) || g.Handover != c.margin {
				t.Errorf("%s, scope %d: done %v with %+v", c.name, g.Scope, g.Finish.In(p.Site.Location), g.Handover)
			}
			var kinds []schedule.BreakKind
			for _, b := range g.Breaks {
				kinds = append(kinds, b.Kind)
			}
			if !slices.Equal(kinds, c.breaks) {
				t.Errorf("%s, scope %d: breaks %v, want %v", c.name, g.Scope, kinds, c.breaks)
			}
			if chain := ids(p, g); chain != c.chain {
				t.Errorf("%s, scope %d: the chain is %q, want %q", c.name, g.Scope, chain, c.chain)
			}
			if found := verify.Check(p, g, g.Scope); len(found.Rules) > 0 {
				t.Errorf("%s, scope %d: %v", c.name, g.Scope, found.Rules)
			}
		}
		if crews.Bound != crews.Finish || verify.Proof(p, crews) != schedule.ByChain {
			t.Errorf("%s: bound %v, proof %d", c.name, crews.Bound.In(p.Site.Location), verify.Proof(p, crews))
		}
	}
}

// ids are the ids on the hand-over chain.
func ids(p *schedule.Plan, g *schedule.Programme) string {
	var out []string
	for _, s := range g.Chain {
		out = append(out, p.ActivityID(s.Activity))
	}
	return strings.Join(out, " ")
}

// A lorry for optional work alone breaks no hand-over, however late it is: it may be held
// up until the end of the opening of the gate.
func TestLateForOptionalWork(t *testing.T) {
	p, problems := planfile.Read(strings.NewReader(
		fmt.Sprintf(skipped, "arrives: 2027-05-05 15:00, out: true, after: [pots]", "")))
	if problems.Fatal() {
		t.Fatal(problems)
	}
	p.Site.Handover = p.Site.Handover.Plus(-60)
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	for _, g := range []*schedule.Programme{s.Logic().Programme, s.Crews(t.Context(), solve.Options{}).Programme} {
		if u := g.Unloads[1]; u.LateArrival != u.Arrives.Plus(90) {
			t.Errorf("scope %d: it may come by %v", g.Scope, u.LateArrival.In(p.Site.Location))
		}
	}
}

// withLorries gives the lorries of a tiny plan other users: none, optional ones alone, or
// what they collect from optional tasks alone, or from others too.
func withLorries(p *schedule.Plan, seed uint64) {
	optional := func(t schedule.TaskID) {
		p.Tasks[t].Optional, p.Tasks[t].DropOrder = true, 1
	}
	for i := range p.Deliveries {
		id, d := schedule.DeliveryID(i), &p.Deliveries[i]
		kind, users := (seed+uint64(i))%4, p.Users(id)
		if kind == 1 {
			for _, u := range users {
				optional(u)
			}
			continue
		}
		for _, u := range users {
			t := &p.Tasks[u]
			t.Uses = slices.DeleteFunc(t.Uses, func(x schedule.DeliveryID) bool { return x == id })
		}
		d.Keep, d.Aged = 0, 0
		if kind == 0 {
			continue
		}
		first := schedule.TaskID(seed / 4 % uint64(len(p.Tasks)))
		optional(first)
		d.Out, d.After = true, []schedule.Link{{From: first}}
		if other := (first + 1) % schedule.TaskID(len(p.Tasks)); kind == 3 && other != first {
			d.After = append(d.After, schedule.Link{From: other})
		}
	}
}

// torn are seeds of plans with optional tasks of which each has a place only without
// another, so that which of them are left out is a choice.
var torn = []uint64{796, 2793}

// TestLorriesAgainstOracle: solver, verifier and brute force count the same lorries, so
// they agree on the finish and the margin, and the bound is none that the best beats.
func TestLorriesAgainstOracle(t *testing.T) {
	last, idle := 0, 0
	for seed := range seeds(*plansTried, torn) {
		p := plans.Tiny(plans.Seeded(seed))
		if len(p.Tasks) > 4 || len(p.Deliveries) == 0 {
			continue
		}
		withLorries(p, seed)
		s, err := solve.New(p)
		if err != nil {
			continue
		}
		g, best := s.Crews(t.Context(), solve.Options{}).Programme, oracle.Find(p)
		for _, f := range verify.Check(p, g, schedule.Crews).Rules {
			t.Errorf("seed %d: %v\n%s", seed, f, plans.YAML(p))
		}
		if best.None || g.Blocked != nil {
			continue
		}
		cost := oracle.CostOf(p, g)
		if g.Finish != cost.Finish {
			t.Errorf("seed %d: done %v, by brute force %v\n%s", seed, g.Finish, cost.Finish, plans.YAML(p))
		}
		same := cost.Compare(best.Cost, p) == 0
		if same && g.Handover != best.Programme.Handover || !same && !best.Coarse {
			t.Errorf("seed %d: %+v, %+v, the best %+v, %+v\n%s",
				seed, cost, g.Handover, best.Cost, best.Programme.Handover, plans.YAML(p))
		}
		if g.Bound > best.Cost.Finish {
			t.Errorf("seed %d: bound %v, the best is done %v\n%s", seed, g.Bound, best.Cost.Finish, plans.YAML(p))
		}
		for i, u := range g.Unloads {
			a := p.Unload(schedule.DeliveryID(i))
			if u.Finish == g.Finish && p.Required(a) {
				last++
			}
			if u.Finish > g.Finish && !p.Required(a) {
				idle++
			}
		}
	}
	if last == 0 || idle == 0 {
		t.Errorf("a lorry is last in %d plans, and after the finish in %d", last, idle)
	}
}
