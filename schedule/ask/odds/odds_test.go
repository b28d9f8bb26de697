package odds_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"runtime"
	"slices"
	"strings"
	"testing"
	_ "time/tzdata"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/testdata"
)

// read reads a plan and makes its crew programme.
func read(t testing.TB, text string) network.Case {
	t.Helper()
	p, problems := planfile.Read(strings.NewReader(text))
	if problems.Fatal() {
		t.Fatal(problems)
	}
	return programme(t, p)
}

func programme(t interface{ Fatal(...any) }, p *schedule.Plan) network.Case {
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	return s.Crews(context.Background(), solve.Options{Schedules: 100})
}

func run(t interface{ Fatal(...any) }, c network.Case, o odds.Options) *odds.Result {
	r, err := odds.Run(context.Background(), c, o)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// certain is a plan with nothing uncertain left in it.
func certain(p *schedule.Plan) *schedule.Plan {
	q := *p
	q.Site.Wet, q.Site.Windy = nil, nil
	q.Tasks, q.Deliveries, q.Crews = slices.Clone(p.Tasks), slices.Clone(p.Deliveries), slices.Clone(p.Crews)
	for i := range q.Crews {
		q.Crews[i].TurnsOut = nil
	}
	for i := range q.Tasks {
		q.Tasks[i].Spread = nil
		if h := q.Tasks[i].Hold; h != nil && h.Fails != nil {
			passes := *h
			passes.Fails = nil
			q.Tasks[i].Hold = &passes
		}
	}
	for i := range q.Deliveries {
		q.Deliveries[i].Late = nil
	}
	return &q
}

// checkCertain says what in the builds of a certain plan isn't exactly the
// programme.
func checkCertain(t interface{ Fatal(...any) }, c network.Case) string {
	p, g := c.Plan, c.Programme
	starts, err := odds.Starts(c)
	if err != nil {
		t.Fatal(err)
	}
	for i := range g.Tasks {
		if starts[i] != g.Tasks[i].Start {
			return fmt.Sprintf("%s starts at %d, in the programme at %d", p.Tasks[i].ID, starts[i], g.Tasks[i].Start)
		}
	}
	r := run(t, c, odds.Options{Builds: 50, Seed: 1, Pace: odds.UsualPace})
	want := 0
	if g.Finish <= p.Site.Handover {
		want = 50
	}
	switch {
	case !r.Certain():
		return "something is uncertain"
	case r.OnTime != want || r.Unfinished != 0:
		return fmt.Sprintf("%d of 50 builds are on time, %d never done", r.OnTime, r.Unfinished)
	case r.By != [3]calendars.Instant{g.Finish, g.Finish, g.Finish} ||
		r.Dots[0] != g.Finish || r.Dots[odds.Dots-1] != g.Finish:
		return fmt.Sprintf("done by %v, in the programme at %d", r.By, g.Finish)
	}
	for i, n := range r.OnChain {
		if n != 0 && n != 50 {
			return fmt.Sprintf("%s is on the chain of %d builds of 50", p.ActivityID(schedule.Activity(i)), n)
		}
	}
	for _, b := range r.Broken {
		broken := slices.ContainsFunc(g.Breaks, func(x schedule.Break) bool {
			return x.Kind == b.Kind && x.Activity == b.Activity && x.Stock == b.Stock
		})
		if !broken || b.Builds != 50 {
			return fmt.Sprintf("%v breaks in %d builds of 50", b, b.Builds)
		}
	}
	return ""
}

// Without anything uncertain every build is the programme, in time or late.
func TestCertainGarden(t *testing.T) {
	p, problems := planfile.Read(strings.NewReader(testdata.Demo))
	if problems.Fatal() {
		t.Fatal(problems)
	}
	for _, sooner := range []calendars.Minutes{0, 2 * calendars.Day} {
		q := certain(p)
		q.Site.Handover = q.Site.Handover.Plus(-sooner)
		c := programme(t, q)
		if fault := checkCertain(t, c); fault != "" {
			t.Errorf("handed over %d minutes sooner: %s", sooner, fault)
		}
		for i, n := range run(t, c, odds.Options{Builds: 1}).OnChain {
			if a := schedule.Activity(i); n == 1 != c.Programme.Of(a).OnChain {
				t.Errorf("handed over %d minutes sooner: %s is on one chain only", sooner, q.ActivityID(a))
			}
		}
	}
}

// nothingPlaced says whether something has no place in a programme, and nothing that is
// required has one.
func nothingPlaced(c network.Case) bool {
	for a := range c.Plan.Activities() {
		if c.Plan.Required(a) && !c.Programme.HasNoPlace(a) {
			return false
		}
	}
	return c.Programme.Blocked != nil
}

func TestCertainRandomPlans(t *testing.T) {
	built, blocked := 0, 0
	for seed := range uint64(60) {
		p := certain(plans.Small(plans.Seeded(seed)))
		s, err := solve.New(p)
		if err != nil {
			continue // links run in a ring
		}
		c := s.Crews(context.Background(), solve.Options{Schedules: 20})
		if c.Programme.Blocked != nil {
			blocked++
		}
		if nothingPlaced(c) {
			if _, err := odds.Run(context.Background(), c, odds.Options{Builds: 1}); !errors.Is(err, odds.ErrBlocked) {
				t.Errorf("plan %d, nothing required has a place: %v", seed, err)
			}
			continue
		}
		if fault := checkCertain(t, c); fault != "" {
			t.Errorf("plan %d: %s", seed, fault)
		}
		built++
	}
	if built < 20 || blocked < 3 {
		t.Errorf("only %d plans were built, and in %d something had no place", built, blocked)
	}
}

func TestSameOnAnyCores(t *testing.T) {
	c := garden(t)
	o := odds.Options{Builds: 1000, Seed: 11, Pace: odds.UsualPace}
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	one := run(t, c, o)
	runtime.GOMAXPROCS(2)
	if diff := cmp.Diff(one, run(t, c, o)); diff != "" {
		t.Errorf("on two cores\n%s", diff)
	}
	if o.Seed++; cmp.Equal(one.Dots, run(t, c, o).Dots) {
		t.Error("another seed draws the same")
	}
	all := one.Unfinished
	for _, b := range one.Finishes {
		all += b.Builds
	}
	if all != o.Builds || !slices.IsSorted(one.Dots[:]) || one.Low > one.Chance() || one.High < one.Chance() {
		t.Errorf("%d builds in all, dots %v, chance %v in %v to %v", all, one.Dots, one.Chance(), one.Low, one.High)
	}
}

const head = `garden: Tidewall Court
site:
  timezone: Europe/London
  opens: 2027-05-03 08:00
  handover: 2027-05-07 16:00
  hours: {mon-fri: 08:00-16:00}
  gate: {at_once: 1, hours: {mon-fri: 08:00-10:00}}
`

const rest = `zones: {rear: {name: Rear}, lawn: {name: Lawn}}
crews: {ground: {name: Ground crew, people: 2}, planting: {name: Planting crew, people: 2}}
`

// finishes are the moments when builds are done, and how many of them.
func finishes(p *schedule.Plan, r *odds.Result) map[string]bool {
	out := make(map[string]bool)
	for _, d := range r.Dots {
		out["never"] = out["never"] || d == calendars.Never
		if d != calendars.Never {
			out[d.In(p.Site.Location).Format("Mon 15:04")] = true
		}
	}
	if !out["never"] {
		delete(out, "never")
	}
	return out
}

// TestBuilds builds small plans whose builds can be told in advance.
func TestBuilds(t *testing.T) {
	wet := func(days string) string {
		return strings.Replace(head, "  gate:", "  wet_days: "+days+"\n  gate:", 1) + rest
	}
	for _, c := range []struct {
		name, plan string
		want       []string
		onTime     float64
	}{
		{"a late lorry comes in when the gate opens next", head + rest + `
deliveries: {stone: {what: stone, arrives: 2027-05-03 09:30, unload: 30m, late: {chance: 1, likely: 3h, worst: 4h}}}
tasks: {bed: {name: Bed the stone, zone: rear, stage: paving, crew: {ground: 2}, takes: 2h, uses: [stone]}}`,
			[]string{"Tue 10:30"}, 1},
		{"hands go on in the order of the programme", head + rest + `
deliveries: {stone: {what: stone, arrives: 2027-05-03 09:30, unload: 30m, late: {chance: 1, likely: 3h, worst: 4h}}}
tasks:
  bed: {name: Bed the stone, zone: rear, stage: paving, crew: {ground: 2}, takes: 2h, uses: [stone], by: 2027-05-03 12:00}
  dig: {name: Dig, zone: lawn, stage: groundworks, crew: {ground: 2}, takes: 7h}`,
			[]string{"Wed 09:30"}, 1},
		{"others don't wait for the lorry", head + rest + `
deliveries: {stone: {what: stone, arrives: 2027-05-03 09:30, unload: 30m, late: {chance: 1, likely: 3h, worst: 4h}}}
tasks:
  bed: {name: Bed the stone, zone: rear, stage: paving, crew: {ground: 2}, takes: 2h, uses: [stone]}
  dig: {name: Dig, zone: lawn, stage: groundworks, crew: {planting: 2}, takes: 7h}`,
			[]string{"Tue 10:30"}, 1},
		{"wet and dry days in turn, two hours to dry", wet("{after_dry: 1, after_wet: 0, dries: 2h}") + `
tasks: {bed: {name: Bed the stone, zone: rear, stage: paving, crew: {ground: 2}, takes: 10h, weather: [dry]}}`,
			[]string{"Wed 12:00", "Thu 14:00"}, 1},
		{"its own three hours to dry", wet("{after_dry: 1, after_wet: 0, dries: 2h}") + `
tasks: {bed: {name: Bed the stone, zone: rear, stage: paving, crew: {ground: 2}, takes: 10h, weather: [dry], dries: 3h}}`,
			[]string{"Wed 13:00", "Thu 16:00"}, 1},
		{"always wet", wet("{after_dry: 1, after_wet: 1, dries: 2h}") + `
tasks: {bed: {name: Bed the stone, zone: rear, stage: paving, crew: {ground: 2}, takes: 1h, weather: [dry]}}`,
			[]string{"never"}, 0},
		{"rain stops nothing else", wet("{after_dry: 1, after_wet: 1, dries: 2h}") + `
tasks: {bed: {name: Bed the stone, zone: rear, stage: paving, crew: {ground: 2}, takes: 1h, weather: [calm]}}`,
			[]string{"Mon 09:00"}, 1},
		{"a slot that is missed is made up after the hand-over", head + rest + `
machines: {crane: {name: Crane, count: 1, ours: [2027-05-03 08:00 to 2027-05-03 16:00]}}
deliveries: {stone: {what: stone, arrives: 2027-05-03 09:30, unload: 30m, late: {chance: 1, likely: 3h, worst: 4h}}}
tasks: {bed: {name: Bed the stone, zone: rear, stage: paving, machines: {crane: 1}, crew: {ground: 2}, takes: 2h, uses: [stone]}}`,
			[]string{"Mon 10:00"}, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			of := read(t, c.plan)
			r := run(t, of, odds.Options{Builds: 400, Seed: 1})
			got := finishes(of.Plan, r)
			for when := range got {
				if !slices.Contains(c.want, when) {
					t.Errorf("some builds are done %s, not %v", when, c.want)
				}
			}
			if r.Chance() != c.onTime || len(got) == 0 {
				t.Errorf("on time in %v of builds, want %v; done %v", r.Chance(), c.onTime, got)
			}
		})
	}
}

// plan is the published fourteen as a plan without calendars and hands.
func plan() *schedule.Plan {
	p := plans.Open(plans.Start(), plans.Start().Plus(55*day))
	for _, a := range activities(fourteen, "") {
		task := plans.Task(fourteen[len(p.Tasks)].name, a.Likely)
		if a.Spread.Worst > a.Spread.Best {
			task.Spread = a.Spread
		}
		for _, before := range a.After {
			task.After = append(task.After, schedule.Link{From: schedule.TaskID(before)})
		}
		p.Tasks = append(p.Tasks, task)
	}
	return p
}

// On a plan in which nothing but links counts, both kinds of build agree, as far as
// different draws may.
func TestBothKindsOfBuildAgree(t *testing.T) {
	const builds = 20_000
	p := plan()
	r := run(t, programme(t, p), odds.Options{Builds: builds, Seed: 4})
	l := logic(t, activities(fourteen, ""), odds.Options{Builds: builds, Seed: 5})
	near(t, "the chance", r.Chance(), float64(l.Within(55*day))/builds, 0.015)
	for k := range r.OnChain {
		near(t, "how often "+fourteen[k].name+" is on the chain",
			float64(r.OnChain[k])/builds, float64(l.OnChain[k])/builds, 0.02)
	}
	for k, at := range r.By {
		done := l.Within(calendars.Minutes(at - plans.Start()))
		near(t, "the share done by then", float64(done)/builds, odds.Shares[k], 0.015)
	}
}

// The pace of a crew moves all its work alike: two tasks of one crew vary more
// together than those of two crews.
func TestPaceIsShared(t *testing.T) {
	tasks := `
tasks:
  dig: {name: Dig, zone: rear, stage: groundworks, crew: {ground: 1}, takes: 6h, spread: {best: 359m, worst: 361m}}
  fill: {name: Fill, zone: lawn, stage: soil, crew: {CREW: 1}, takes: 6h, spread: {best: 359m, worst: 361m}, after: [dig]}`
	var deviations []float64
	for _, crew := range []string{"ground", "planting"} {
		always := strings.Replace(head, "mon-fri: 08:00-16:00}\n  gate", "mon-fri: 00:00-24:00}\n  gate", 1)
		c := read(t, always+rest+strings.Replace(tasks, "CREW", crew, 1))
		r := run(t, c, odds.Options{Builds: 20_000, Seed: 9, Pace: 0.3})
		var sum, squares float64
		for _, d := range r.Dots {
			x := float64(d - c.Programme.Finish)
			sum, squares = sum+x, squares+x*x
		}
		n := float64(len(r.Dots))
		deviations = append(deviations, math.Sqrt(squares/n-sum*sum/n/n))
		if r.Causes[0].Kind != odds.Pace || r.Causes[0].Rank < 0.6 {
			t.Errorf("with %s: what moves the finish most is %+v", crew, r.Causes[0])
		}
	}
	near(t, "one crew's deviation over two crews'", deviations[0]/deviations[1], math.Sqrt2, 0.04)
}
