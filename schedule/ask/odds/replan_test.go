package odds_test

import (
	"context"
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/network"
)

// blind is a plan in which nothing must end by something else, be straight on, fit in one
// stretch or keep others away: whether that can be is foreseen in builds.
func blind(p *schedule.Plan) *schedule.Plan {
	q := *p
	q.Tasks = slices.Clone(p.Tasks)
	for i := range q.Tasks {
		t := &q.Tasks[i]
		t.Unbroken, t.Stays, t.Apart, t.Clears = false, false, nil, nil
		t.Closes.Timed, t.Closes.For = false, 0
		t.After = slices.Clone(t.After)
		for k := range t.After {
			t.After[k].HasWithin = false
		}
		t.After = slices.DeleteFunc(t.After, func(l schedule.Link) bool { return l.Kind.ToFinish() || l.Wait.Time < 0 })
	}
	q.Rules = slices.DeleteFunc(slices.Clone(p.Rules), func(r schedule.Rule) bool { return r.Kind == schedule.Apart })
	for i := range q.Tasks {
		q.Tasks[i].Excepts = nil
	}
	q.Crews, q.Machines = slices.Clone(p.Crews), slices.Clone(p.Machines)
	for i := range q.Crews {
		q.Crews[i].PeopleOn, q.Crews[i].Away = nil, nil
		needed := 0
		for a := range q.Activities() {
			if slices.ContainsFunc(q.CrewOf(a), func(n schedule.CrewNeed) bool { return int(n.Crew) == i }) {
				needed++
			}
		}
		if needed > 1 {
			q.Crews[i].TurnsOut = nil // work begins only where those who come are enough beside that in hand
		}
	}
	for i := range q.Machines {
		q.Machines[i].Ours = nil
	}
	return &q
}

// TestNobodySeesTheFuture: what hasn't happened by a midnight, drawn otherwise, changes
// nothing before it, neither work nor what people change. Left out are builds in which work
// begins in a pause of other work whose hands it takes: neither can give way once
// both have begun, so whether it begins tells how long it takes.
func TestNobodySeesTheFuture(t *testing.T) {
	looked, left := 0, 0
	for seed := uint64(1); seed < 80; seed++ {
		s, err := solve.New(blind(uncertain(plans.Small(plans.Seeded(seed)))))
		if err != nil {
			continue // links run in a ring
		}
		c := s.Crews(context.Background(), solve.Options{Schedules: 20})
		if nothingPlaced(c) {
			continue
		}
		for k := range 6 {
			o := odds.Options{Builds: 1, Seed: seed, Pace: 0.2, Replan: true}
			at, told, lends, err := odds.Unforeseen(c, o, uint64(k), k)
			if err != nil {
				t.Fatal(err)
			}
			if at == 0 {
				continue
			}
			if lends {
				left++
				continue
			}
			looked++
			if diff := cmp.Diff(told[0], told[1]); diff != "" {
				t.Errorf("plan %d, build %d, at %d (-first, +with another future):\n%s", seed, k, at, diff)
			}
		}
	}
	t.Logf("%d builds looked at, %d left out", looked, left)
	if looked < 200 {
		t.Errorf("only %d builds were looked at", looked)
	}
}

// TestWhatHasBegunStays: whatever people change, what has begun by then stays as it began, even
// where by what is guessed of the rest it wouldn't fit beside other work.
func TestWhatHasBegunStays(t *testing.T) {
	for seed := uint64(1); seed < 80; seed++ {
		s, err := solve.New(blind(uncertain(plans.Small(plans.Seeded(seed)))))
		if err != nil {
			continue // links run in a ring
		}
		c := s.Crews(context.Background(), solve.Options{Schedules: 20})
		if nothingPlaced(c) {
			continue
		}
		moved, err := odds.MovesBegun(c, odds.Options{Builds: 50, Seed: seed, Pace: 0.2, Replan: true})
		if err != nil {
			t.Fatal(err)
		}
		if moved > 0 {
			t.Errorf("plan %d: in %d of 50 builds something that had begun is moved", seed, moved)
		}
	}
}

// TestWetMornings: one crew has two one-day jobs outdoors and two indoors; each day is wet
// with a chance of its own, which one sees in the morning. In a fixed order of hands outdoor
// jobs lose wet days: the chance to be done in n days is that of two dry ones among n-2. The
// best of all is to work outdoors when it is dry: that of two dry ones among n. (By formula,
// and by enumeration.)
func TestWetMornings(t *testing.T) {
	wetMornings(t, "wet_days: {after_dry: %[2]v, after_wet: %[2]v, dries: 0m}", "dry")
}

// TestWindyMornings is the same of wind and of work that must be calm.
func TestWindyMornings(t *testing.T) {
	wetMornings(t, "windy_days: {after_calm: %[2]v, after_windy: %[2]v}", "calm")
}

// outcomes are those of the builds of a programme.
func outcomes(t *testing.T, c network.Case, o odds.Options) []odds.Outcome {
	t.Helper()
	list, err := odds.Outcomes(context.Background(), c, o)
	if err != nil {
		t.Fatal(err)
	}
	return list
}

func wetMornings(t *testing.T, days, needs string) {
	for _, x := range []struct {
		wet         float64
		days        int
		fixed, best float64
	}{
		{0.25, 4, 9. / 16, 243. / 256}, {0.25, 5, 27. / 32, 63. / 64}, {0.25, 6, 243. / 256, 4077. / 4096},
		{0.5, 4, 1. / 4, 11. / 16}, {0.5, 5, 1. / 2, 13. / 16}, {0.5, 6, 11. / 16, 57. / 64},
	} {
		c := read(t, fmt.Sprintf(`garden: Wet mornings
site:
  timezone: UTC
  opens: 2027-05-03 08:00
  handover: 2027-05-0%[1]d 16:00
  hours: {mon-sun: 08:00-16:00}
  `+days+`
zones:
  plot: {name: Plot}
crews:
  hands: {name: Hands, people: 1}
tasks:
  out1: {name: Outdoors, zone: plot, stage: structure, crew: {hands: 1}, takes: 8h, weather: [%[3]s]}
  in1: {name: Indoors, zone: plot, stage: structure, crew: {hands: 1}, takes: 8h}
  out2: {name: Outdoors again, zone: plot, stage: structure, crew: {hands: 1}, takes: 8h, weather: [%[3]s]}
  in2: {name: Indoors again, zone: plot, stage: structure, crew: {hands: 1}, takes: 8h}
`, 2+x.days, x.wet, needs))
		const builds = 4000
		o := odds.Options{Builds: builds, Seed: 1}
		fixed := run(t, c, o)
		o.Replan = true
		again := run(t, c, o)
		by := func(p float64) float64 { return 4 * math.Sqrt(p*(1-p)/builds) }
		for _, way := range []bool{false, true} {
			o := odds.Options{Builds: 100, Seed: 1, Replan: way}
			late := 0
			for _, x := range outcomes(t, c, o) {
				if x.Finish > c.Plan.Site.Handover {
					late++
				}
			}
			harms, err := odds.Harms(context.Background(), c, o)
			if err != nil {
				t.Fatal(err)
			}
			if harms.Late != late || harms.Builds != 100 || (late > 0) != (len(harms.Harms) > 0) {
				t.Fatalf("%d of 100 builds are late; what costs most is of %+v", late, harms)
			}
			if late == 0 {
				continue
			}
			if h := harms.Harms[0]; h.Kind != odds.AllRain && h.Kind != odds.AllWind || h.Saved != late {
				t.Errorf("%d of 100 builds are late, all for the weather; the most costs %+v", late, h)
			}
		}
		near(t, fmt.Sprintf("as programmed in %d days, %v wet", x.days, x.wet), fixed.Chance(), x.fixed, by(x.fixed))
		least := x.fixed + 0.8*(x.best-x.fixed) // the rule doesn't work ahead of rain
		if got := again.Chance(); got > x.best+by(x.best) || got < least-by(least) {
			t.Errorf("re-planned in %d days, %v wet: %v, want %v to %v", x.days, x.wet, got, least, x.best)
		}
	}
}

// TestSignOffsThatFail: one that fails is put right and signed again; in how many builds that
// is so is the plan's chance.
func TestSignOffsThatFail(t *testing.T) {
	c := read(t, `garden: One check
site:
  timezone: UTC
  opens: 2027-05-03 08:00
  handover: 2027-05-03 14:59
  hours: {mon-sun: 08:00-16:00}
zones:
  plot: {name: Plot}
crews:
  hands: {name: Hands, people: 1}
tasks:
  build: {name: Build, zone: plot, stage: structure, crew: {hands: 1}, takes: 4h, hold_point: {what: engineer signs, takes: 30m, fails: {chance: 0.25, right: 2h}}}
`)
	const builds = 4000
	r := run(t, c, odds.Options{Builds: builds, Seed: 1})
	near(t, "builds on time", r.Chance(), 0.75, 4*math.Sqrt(0.75*0.25/builds))
	late := 0
	const some = 200
	for _, x := range outcomes(t, c, odds.Options{Builds: some, Seed: 1}) {
		if x.Finish > c.Plan.Site.Handover {
			late++
		}
	}
	harms, err := odds.Harms(context.Background(), c, odds.Options{Builds: some, Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	want := &odds.Harmed{Builds: some, Late: late, Harms: []odds.Harm{{
		Kind: odds.FailedSign, Activity: 0, Crew: schedule.None, Builds: late,
		Cost: calendars.Minutes(late) * 150, Saved: late,
	}}}
	if diff := cmp.Diff(want, harms); diff != "" {
		t.Errorf("what costs most (-want +got):\n%s", diff)
	}
	// From 08:00: 4 h, half an hour, and then 2 h and half an hour more.
	if want := [2]calendars.Instant{c.Plan.Site.Opens.Plus(270), c.Plan.Site.Opens.Plus(420)}; r.Dots[0] != want[0] ||
		r.Dots[odds.Dots-1] != want[1] {
		t.Errorf("builds are done from %d to %d, want %d and %d", r.Dots[0], r.Dots[odds.Dots-1], want[0], want[1])
	}
	if len(r.Causes) != 1 || r.Causes[0].Kind != odds.Fails || r.Causes[0].Rank < 0.99 {
		t.Errorf("the causes are %+v, want the sign-off alone", r.Causes)
	}
}
