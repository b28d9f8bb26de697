package solve_test

import (
	"context"
	"fmt"
	"runtime"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/verify"
)

// checkPlan is a plan in which masons glue, which may take far longer, and check levels
// for the inspector, whose report takes until the next morning. The gluing first, which
// the sum of starts prefers, mustn't last a minute longer, or else the report is late;
// after the check it has the rest of the day.
const checkPlan = `garden: Glue or check
site: {timezone: Europe/London, opens: 2027-05-10 07:00, handover: 2027-05-11 15:00, hours: {mon-fri: 07:00-17:00}}
zones: {wall: {name: Wall}, yard: {name: Yard}}
crews: {masons: {name: Masons, people: 2}, setters: {name: Setters, people: 2}}
tasks:
  glue: {name: Glue, zone: wall, stage: cladding, crew: {masons: 2}, takes: 2h, spread: {best: 90m, worst: 6h}}
  check: {name: Check, zone: yard, stage: paving, crew: {masons: 2}, takes: 4h30m, cure: 17h30m}
  cope: {name: Cope, zone: wall, stage: cladding, crew: {setters: 2}, takes: 8h, after: [glue, check]}
`

func readPlan(t testing.TB, text string) *schedule.Plan {
	t.Helper()
	p, problems := planfile.Read(strings.NewReader(text))
	if problems.Fatal() {
		t.Fatal(problems)
	}
	return p
}

// bothWays is the programme of a plan without and with the aim of sturdiness.
func bothWays(t testing.TB, p *schedule.Plan, o solve.Options) (plain, sturdy network.Case) {
	t.Helper()
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	o.Unjudged = true
	plain = s.Crews(context.Background(), o)
	o.Unjudged = false
	return plain, s.Crews(context.Background(), o)
}

// A tight task that may take longer is given the slack that another order has for it, with
// the same finish.
func TestSlackWhereItProtects(t *testing.T) {
	p := readPlan(t, checkPlan)
	plain, sturdy := bothWays(t, p, solve.Options{})
	glue := p.FindTask("glue")
	if was := plain.Programme.Tasks[glue].CrewFloat; was != 0 {
		t.Errorf("the glue may slip %d minutes without a word on sturdiness, not none", was)
	}
	if now := sturdy.Programme.Tasks[glue].CrewFloat; now != 3*60+30 {
		t.Errorf("the glue may slip %d minutes, not 3 h 30", now)
	}
	if plain.Programme.Finish != sturdy.Programme.Finish || sturdy.Programme.Bound != sturdy.Programme.Finish {
		t.Errorf("finish %d, %d, bound %d", plain.Programme.Finish, sturdy.Programme.Finish, sturdy.Programme.Bound)
	}
	// Agreed, the tight order stays: moves come before sturdiness.
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	kept := s.Crews(context.Background(), solve.Options{Reference: plain.Programme})
	if len(kept.Programme.Moves) > 0 {
		t.Errorf("moves from what was agreed: %v", kept.Programme.Moves)
	}
}

// Where nothing is uncertain there is nothing to judge, and where a build is as good as
// another the later aims decide: the gluing takes as long as ever, or has always time.
func TestNothingToJudge(t *testing.T) {
	for _, c := range [][2]string{{", spread: {best: 90m, worst: 6h}", ""}, {"2027-05-11 15:00", "2027-05-14 15:00"}} {
		plain, sturdy := bothWays(t, readPlan(t, strings.Replace(checkPlan, c[0], c[1], 1)), solve.Options{})
		if diff := cmp.Diff(plain.Programme, sturdy.Programme); diff != "" {
			t.Errorf("with %q: %s", c[1], diff)
		}
	}
}

// shaky is a random plan whose tasks may take far longer and whose lorries may be late.
func shaky(p *schedule.Plan) *schedule.Plan {
	for i := range p.Tasks {
		if takes := p.Tasks[i].Effort.Takes; takes > 1 && i%2 == 0 {
			p.Tasks[i].Spread = &schedule.Spread{Best: max(takes*2/3, 1), Worst: 3 * takes}
		}
	}
	for d := range p.Deliveries {
		p.Deliveries[d].Late = &schedule.Lateness{Chance: 0.3, Likely: 30, Worst: 300}
	}
	return p
}

// firstAims are a programme's figures in the aims before sturdiness, but for the work
// beyond the line: lateness, what is left out, the finish, and moves.
type firstAims struct {
	Late, By, Kept calendars.Instant
	Dropped        []bool
	Finish         calendars.Instant
	Moves          int
	Moved          calendars.Instant
}

func aimsOf(g *schedule.Programme) (a firstAims) {
	for _, b := range g.Breaks {
		late := b.Actual - b.Limit
		switch b.Kind {
		case schedule.BreakHandover:
			a.Late = max(a.Late, late)
		case schedule.BreakBy:
			a.By += late
		default:
			a.Kept += late
		}
	}
	for i := range g.Tasks {
		a.Dropped = append(a.Dropped, g.Tasks[i].Dropped)
	}
	a.Finish, a.Moves = g.Finish, len(g.Moves)
	for _, m := range g.Moves {
		a.Moved += max(m.Now-m.Was, m.Was-m.Now)
	}
	return a
}

// No programme is worse in the aims before it for being sturdier, with a reference or
// without, and each passes its check.
func TestSturdinessCostsNothing(t *testing.T) {
	for seed := range uint64(*plansTried / 2) {
		p := shaky(plans.Small(plans.Seeded(seed)))
		if _, err := solve.New(p); err != nil {
			continue
		}
		o := solve.Options{Schedules: 400}
		if seed%3 == 0 {
			q := *p
			q.Tasks = slices.Clone(p.Tasks)
			q.Tasks[0].Effort.Takes += 30
			o.Reference = unjudged(t, &q)
		}
		plain, sturdy := bothWays(t, p, o)
		if diff := cmp.Diff(aimsOf(plain.Programme), aimsOf(sturdy.Programme)); diff != "" {
			t.Errorf("seed %d: %s\n%s", seed, diff, plans.YAML(p))
		}
		if r := verify.Check(sturdy.Plan, sturdy.Programme, schedule.Crews); len(r.Rules) > 0 {
			t.Errorf("seed %d: %v", seed, r.Rules)
		}
	}
}

// unjudged is the programme of a plan without a word on sturdiness, quickly found.
func unjudged(t testing.TB, p *schedule.Plan) *schedule.Programme {
	t.Helper()
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	return s.Crews(context.Background(), solve.Options{Schedules: 100, Unjudged: true}).Programme
}

// pressed is a crowded plan, some of whose tasks may take twice as long, with a hand-over
// some hours after the best finish found.
func pressed(t testing.TB, seed uint64) *schedule.Plan {
	src := plans.Seeded(seed)
	p := crowded(src)
	for i := range p.Tasks {
		if takes := p.Tasks[i].Effort.Takes; src.Int(0, 2) == 0 {
			p.Tasks[i].Spread = &schedule.Spread{Best: takes * 2 / 3, Worst: 2 * takes}
		}
	}
	p.Site.Handover = unjudged(t, p).Finish.Plus(calendars.Minutes(src.Int(2, 10)) * calendars.Hour)
	return p
}

// Programmes chosen by builds have a better chance than those that the other aims choose,
// by builds that chose nothing. With -v it prints the chances of each plan; -plans 720 for
// 60 of them.
func TestChancesBeforeAndAfter(t *testing.T) {
	const builds, sure = 1000, 0.05
	better, worse, was, now := 0, 0, 0.0, 0.0
	count := uint64(min(*plansTried/12, 60))
	for seed := range count {
		plain, sturdy := bothWays(t, pressed(t, seed), solve.Options{Schedules: 200})
		if diff := cmp.Diff(aimsOf(plain.Programme), aimsOf(sturdy.Programme)); diff != "" {
			t.Errorf("plan %d: %s", seed, diff)
		}
		before, after := chanceOf(t, plain, builds), chanceOf(t, sturdy, builds)
		t.Logf("plan %2d: in time in %5.1f %% of builds, and %5.1f %% chosen by builds", seed, before*100, after*100)
		was, now = was+before, now+after
		switch {
		case after > before+sure:
			better++
		case after < before-sure:
			worse++
		}
	}
	t.Logf("mean %.1f %%, and %.1f %%; of %d plans %d surely better, %d surely worse",
		was/float64(count)*100, now/float64(count)*100, count, better, worse)
	if worse > 0 || better < int(count)/4 {
		t.Errorf("of %d plans %d have a better chance and %d a worse one", count, better, worse)
	}
}

func chanceOf(t testing.TB, c network.Case, builds int) float64 {
	r, err := odds.Run(context.Background(), c, odds.Options{Builds: builds, Seed: 99, Pace: odds.UsualPace})
	if err != nil {
		t.Fatal(err)
	}
	return r.Chance()
}

// The same is chosen on one core as on many.
func TestSturdyOnAnyCores(t *testing.T) {
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(0))
	for seed := range uint64(3) {
		p := pressed(t, seed)
		var found []*schedule.Programme
		for _, cores := range []int{1, 4} {
			runtime.GOMAXPROCS(cores)
			_, c := bothWays(t, p, solve.Options{Schedules: 200})
			found = append(found, c.Programme)
		}
		if diff := cmp.Diff(found[0], found[1]); diff != "" {
			t.Error(fmt.Sprintf("seed %d:", seed), diff)
		}
	}
}
