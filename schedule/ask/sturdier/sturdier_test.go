package sturdier_test

import (
	"context"
	"runtime"
	"strings"
	"testing"
	_ "time/tzdata"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/ask/sturdier"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/verify"
)

var ctx = context.Background()

// orderPlan is a plan whose turf comes on the last day, which fixes the date.
// The joiners may do the trellis or the bench first. The plan's own programme
// has the trellis first, since what follows it may then start sooner; but the
// trellis may take far longer, and then holds up the bench and its long
// painting. The bench, done first, holds up nothing.
const orderPlan = `garden: Two orders
site: {timezone: Europe/London, opens: 2027-05-10 07:00, handover: 2027-05-12 12:00, hours: {mon-fri: 07:00-17:00}}
zones: {rear: {name: Rear}, lawn: {name: Lawn}}
crews:
  joiners: {name: Joiners, people: 1}
  painters: {name: Painters, people: 1}
  planting: {name: Planting crew, people: 2}
deliveries:
  turf: {what: turf, arrives: 2027-05-12 07:00, unload: 30m%s}
tasks:
  trellis: {name: Trellis, zone: rear, stage: structure, crew: {joiners: 1}, takes: 3h, spread: {best: 2h, worst: 14h}}
  bench: {name: Bench, zone: lawn, stage: structure, crew: {joiners: 1}, takes: 4h}
  train: {name: Train the roses, zone: rear, stage: planting, crew: {planting: 1}, takes: 1h, after: [trellis]}
  paint: {name: Paint the bench, zone: lawn, stage: finishes, crew: {painters: 1}, takes: 12h, after: [bench]}
  lay-turf: {name: Lay turf, zone: lawn, stage: turf, crew: {planting: 2}, takes: 2h, uses: [turf], after: [paint, train]}
`

// solved is the crew programme of a plan as it is without a word on sturdiness.
func solved(t testing.TB, text string) network.Case {
	t.Helper()
	p, problems := planfile.Read(strings.NewReader(text))
	if problems.Fatal() {
		t.Fatal(problems)
	}
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	return s.Crews(ctx, solve.Options{Unjudged: true})
}

func options(builds int) odds.Options {
	return odds.Options{Builds: builds, Seed: 1, Pace: odds.UsualPace}
}

func find(t testing.TB, of network.Case, o odds.Options) *sturdier.Result {
	t.Helper()
	r, err := sturdier.Find(ctx, of, o, nil)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// TestOrder finds the order that is known to be sturdier.
func TestOrder(t *testing.T) {
	of := solved(t, strings.Replace(orderPlan, "%s", "", 1))
	p, g := of.Plan, of.Programme
	trellis, bench := p.FindTask("trellis"), p.FindTask("bench")
	if g.Tasks[trellis].Start > g.Tasks[bench].Start {
		t.Fatal("the plan's own programme has the sturdier order already")
	}
	r := find(t, of, options(2000))
	if len(r.Choices) < 2 || r.Choices[1].Kind != sturdier.SameMargin {
		t.Fatalf("no choice with the same margin: %+v", r.Choices)
	}
	c := &r.Choices[1]
	if c.Programme.Tasks[bench].Start > c.Programme.Tasks[trellis].Start {
		t.Error("the trellis is still first")
	}
	if want := []sturdier.HandOn{{Crew: 0, First: bench, Then: trellis}}; !cmp.Equal(want, c.Handed) {
		t.Errorf("handed %+v", c.Handed)
	}
	if c.Programme.Finish > g.Finish || !c.Gain.Sure() || c.Gain.Lost > 0 || c.OnTime != r.Choices[0].OnTime+c.Gain.Won {
		t.Errorf("%+v of %d and %d", c.Gain, c.OnTime, r.Choices[0].OnTime)
	}
	if len(c.Spare) == 0 || c.Spare[0].Now <= c.Spare[0].Was {
		t.Errorf("spare time: %+v", c.Spare)
	}
}

// latePlan is a plan whose lorry is often late, and may come a day earlier,
// which gains nothing as long as it is punctual.
const latePlan = `garden: A late lorry
site: {timezone: Europe/London, opens: 2027-05-10 07:00, handover: 2027-05-12 15:00, hours: {mon-fri: 07:00-17:00}}
zones: {lawn: {name: Lawn}}
crews: {pavers: {name: Pavers, people: 2}}
deliveries:
  stone: {what: stone, arrives: 2027-05-11 07:00, unload: 30m, %slate: {chance: 0.5, likely: 4h, worst: 1d}}
tasks:
  dig: {name: Dig, zone: lawn, stage: groundworks, crew: {pavers: 2}, takes: 10h30m}
  pave: {name: Pave, zone: lawn, stage: paving, crew: {pavers: 2}, takes: 14h, uses: [stone], after: [dig]}
`

// TestBooking finds the booking that is known to be sturdier, and asks for it where
// the plan doesn't let it move.
func TestBooking(t *testing.T) {
	of := solved(t, strings.Replace(latePlan, "%s",
		"movable: {earliest: 2027-05-10 07:00, latest: 2027-05-11 12:00}, ", 1))
	r := find(t, of, options(2000))
	if len(r.Choices) < 2 || r.Choices[1].Kind != sturdier.SameMargin {
		t.Fatalf("no choice with the same margin: %+v", r.Choices)
	}
	c := &r.Choices[1]
	at := c.Plan.Deliveries[0].Arrives
	if at != of.Plan.Site.Opens || len(c.Booked) != 1 || c.Programme.Unloads[0].Arrives != at {
		t.Errorf("booked for %v", at)
	}
	if !c.Gain.Sure() || c.OnTime < 1990 {
		t.Errorf("%d on time, %+v", c.OnTime, c.Gain)
	}

	of = solved(t, strings.Replace(latePlan, "%s", "", 1))
	r = find(t, of, options(2000))
	if len(r.Choices) != 1 {
		t.Errorf("choices where nothing can be moved: %+v", r.Choices)
	}
	if len(r.Advice) != 1 || r.Advice[0].To != of.Plan.Site.Opens || !r.Advice[0].Gain.Sure() {
		t.Errorf("advice: %+v", r.Advice)
	}
}

// TestTellsHowFarItIs: the first choices come after few programmes, chances never fall while
// more are tried, and the last is said as the choice begins.
func TestTellsHowFarItIs(t *testing.T) {
	of := solved(t, strings.Replace(orderPlan, "%s", "", 1))
	var told []sturdier.SoFar
	r, err := sturdier.Find(ctx, of, options(400), func(s sturdier.SoFar) { told = append(told, s) })
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(find(t, of, options(400)), r, cmpopts.IgnoreFields(network.Case{}, "Model")); diff != "" {
		t.Errorf("watched it finds something else: %s", diff)
	}
	if len(told) < 2 || told[0].Tried > 8 || told[0].Step != 1 {
		t.Fatalf("told %+v", told)
	}
	for k, s := range told {
		if s.SameMargin < s.Planned || s.Sturdiest < s.SameMargin {
			t.Errorf("%d: %+v", k, s)
		}
		if k > 0 && (s.Tried < told[k-1].Tried || s.Step < told[k-1].Step || s.Sturdiest < told[k-1].Sturdiest) {
			t.Errorf("%d: %+v after %+v", k, s, told[k-1])
		}
	}
	if last := told[len(told)-1]; last.Step != last.Steps || last.Tried != r.Tried || last.Sturdiest <= last.Planned {
		t.Errorf("at last %+v of %d tried", last, r.Tried)
	}
}

// checkChoices checks what must be true of any result.
func checkChoices(t *testing.T, name string, of network.Case, r *sturdier.Result) {
	t.Helper()
	g := of.Programme
	for k := range r.Choices {
		c := &r.Choices[k]
		if found := verify.Check(c.Plan, c.Programme, schedule.Crews); len(found.Rules) > 0 {
			t.Errorf("%s: %v", name, found.Rules)
		}
		list, err := odds.Outcomes(ctx, c.Case, r.Options)
		if err != nil {
			t.Fatal(err)
		}
		onTime := 0
		for _, x := range list {
			if x.Finish <= of.Plan.Site.Handover {
				onTime++
			}
		}
		if onTime != c.OnTime || k > 0 && c.OnTime <= r.Choices[k-1].OnTime {
			t.Errorf("%s: choice %d is on time %d times, said to be %d", name, k, onTime, c.OnTime)
		}
		if c.Kind == sturdier.SameMargin && c.Programme.Finish > g.Finish {
			t.Errorf("%s: the margin is less", name)
		}
		if len(g.Breaks) == 0 && len(c.Programme.Breaks) > 0 {
			t.Errorf("%s: choice %d breaks %v", name, k, c.Programme.Breaks)
		}
		for d := range c.Plan.Deliveries {
			m := of.Plan.Deliveries[d].Movable
			if at := c.Plan.Deliveries[d].Arrives; at != g.Unloads[d].Arrives && (m == nil || at < m.Earliest || at > m.Latest) {
				t.Errorf("%s: delivery %d is moved to %v", name, d, at)
			}
		}
	}
}

// uncertain is a random plan whose tasks may take three times as long.
func uncertain(seed uint64) *schedule.Plan {
	p := plans.Tiny(plans.Seeded(seed))
	for i := range p.Tasks {
		if takes := p.Tasks[i].Effort.Takes; takes > 1 {
			p.Tasks[i].Spread = &schedule.Spread{Best: max(takes/2, 1), Worst: 3 * takes}
		}
	}
	return p
}

// TestRandomPlans checks what is found for random plans: each choice passes its
// check and is on time at least as often as the plan's own programme under the
// same draws, and the choice that keeps the margin does.
func TestRandomPlans(t *testing.T) {
	better := 0
	for seed := range uint64(30) {
		p := uncertain(seed)
		for d := range p.Deliveries {
			p.Deliveries[d].Late = &schedule.Lateness{Chance: 0.4, Likely: 20, Worst: 200}
		}
		s, err := solve.New(p)
		if err != nil {
			continue
		}
		of := s.Crews(ctx, solve.Options{Unjudged: true})
		if of.Programme.Blocked != nil {
			continue
		}
		r := find(t, of, options(300))
		checkChoices(t, plans.YAML(p), of, r)
		if len(r.Choices) > 1 {
			better++
		}
	}
	if better < 3 {
		t.Errorf("only %d plans have a sturdier programme", better)
	}
}

// TestSameOnAnyCores finds the same on one core as on many.
func TestSameOnAnyCores(t *testing.T) {
	of := solved(t, strings.Replace(orderPlan, "%s",
		", movable: {earliest: 2027-05-11 07:00, latest: 2027-05-12 09:00}, late: {chance: 0.3, likely: 1h, worst: 5h}", 1))
	before := runtime.GOMAXPROCS(1)
	one := find(t, of, options(500))
	runtime.GOMAXPROCS(4)
	four := find(t, of, options(500))
	runtime.GOMAXPROCS(before)
	for _, r := range []*sturdier.Result{one, four} {
		for k := range r.Choices {
			r.Choices[k].Model = nil // the same but for the bookings, which the programme has
		}
	}
	if diff := cmp.Diff(one, four); diff != "" {
		t.Error(diff)
	}
}

// TestUnderWay checks the same of plans of which a part has happened.
func TestUnderWay(t *testing.T) {
	looked := 0
	for seed := range uint64(30) {
		src := plans.Seeded(seed)
		p := plans.Tiny(src)
		s, err := solve.New(p)
		if err != nil {
			continue
		}
		g := s.Crews(ctx, solve.Options{Unjudged: true}).Programme
		if g.Blocked != nil || !g.Finish.IsReal() {
			continue
		}
		p = plans.Underway(src, p, g, p.Site.Opens+(g.Finish-p.Site.Opens)/2, true)
		for i := range p.Tasks {
			if takes := p.Tasks[i].Effort.Takes; takes > 1 {
				p.Tasks[i].Spread = &schedule.Spread{Best: max(takes/2, 1), Worst: 3 * takes}
			}
		}
		if s, err = solve.New(p); err != nil {
			continue
		}
		of := s.Crews(ctx, solve.Options{Unjudged: true})
		if of.Programme.Blocked != nil {
			continue
		}
		looked++
		checkChoices(t, plans.YAML(p), of, find(t, of, options(200)))
	}
	if looked < 10 {
		t.Errorf("only %d plans", looked)
	}
}
