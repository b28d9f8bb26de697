package odds_test

import (
	"context"
	"fmt"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/odds"
)

// volunteers is a garden of so many days with one job for two volunteers and one for one, a day
// each.
const volunteers = `garden: Volunteers
site:
  timezone: UTC
  opens: 2027-05-03 08:00
  handover: 2027-05-0%d 16:00
  hours: {mon-sun: 08:00-16:00}
zones:
  plot: {name: Plot}
crews:
  helpers: {name: Helpers, people: 2, turns_out: %v}
tasks:
  lift: {name: Lift, zone: plot, stage: structure, crew: {helpers: 2}, takes: 8h}
  rake: {name: Rake, zone: plot, stage: structure, crew: {helpers: 1}, takes: 8h%s}
`

// TestWhoTurnsOut: two volunteers come each day with a chance of their own. In a fixed order the
// job for two waits for both and the other for a day after that; the best of all is to do on each
// day what those who have come are enough for. (By enumeration of who comes on which day.)
func TestWhoTurnsOut(t *testing.T) {
	for _, x := range []struct {
		chance float64
		days   int
	}{{0.5, 2}, {0.5, 3}, {0.8, 2}, {0.8, 3}, {0.8, 4}} {
		c := read(t, fmt.Sprintf(volunteers, 2+x.days, x.chance, ", after: [lift]"))
		free := read(t, fmt.Sprintf(volunteers, 2+x.days, x.chance, ""))
		const builds = 4000
		o := odds.Options{Builds: builds, Seed: 1}
		by := func(p float64) float64 { return 4 * math.Sqrt(p*(1-p)/builds) }
		fixed, best := enough(x.chance, x.days, false, false, true), enough(x.chance, x.days, false, false, false)
		in := fmt.Sprintf("in %d days, each comes with %v", x.days, x.chance)
		near(t, "as programmed "+in, run(t, c, o).Chance(), fixed, by(fixed))
		o.Replan = true
		near(t, "in a fixed order "+in, run(t, c, o).Chance(), fixed, by(fixed))
		near(t, "re-planned "+in, run(t, free, o).Chance(), best, by(best))
	}
}

// enough is the chance that both jobs are done in so many days, in a fixed order or the best.
func enough(chance float64, days int, lifted, raked, inOrder bool) float64 {
	if lifted && raked {
		return 1
	}
	if days == 0 {
		return 0
	}
	both, one := chance*chance, 2*chance*(1-chance)
	of := func(come int) float64 {
		switch {
		case come == 2 && !lifted:
			return enough(chance, days-1, true, raked, inOrder)
		case come > 0 && !raked && (lifted || !inOrder):
			return enough(chance, days-1, lifted, true, inOrder)
		}
		return enough(chance, days-1, lifted, raked, inOrder)
	}
	return both*of(2) + one*of(1) + (1-both-one)*of(0)
}

// TestTurnOutIsTold: who comes is told in the morning, what it costs counted by building once more
// with all there, and all else is drawn as without it.
func TestTurnOutIsTold(t *testing.T) {
	c := read(t, fmt.Sprintf(volunteers, 4, 0.5, ", after: [lift]"))
	o := odds.Options{Builds: 200, Seed: 1}
	late, told := 0, 0
	for k, x := range outcomes(t, c, o) {
		if x.Finish > c.Plan.Site.Handover {
			late++
		}
		played, err := odds.Played(context.Background(), c, o, uint64(k))
		if err != nil {
			t.Fatal(err)
		}
		if played == nil || played.Finish != x.Finish {
			t.Fatalf("build %d is played otherwise than it goes", k)
		}
		if refused := played.Refused(); refused != nil {
			t.Errorf("build %d is refused: %v", k, refused)
		}
		for _, h := range played.Happened {
			if h.Kind == odds.FewCome {
				told++
				if h.Crew != 0 || h.Planned != 2 || h.Came > 1 || (h.At-c.Plan.Site.Opens)%(24*60) != 0 {
					t.Errorf("build %d: %+v", k, h)
				}
			}
		}
	}
	harms, err := odds.Harms(context.Background(), c, o)
	if err != nil {
		t.Fatal(err)
	}
	cost := harms.Harms
	if len(cost) != 1 || cost[0].Kind != odds.FewCame || cost[0].Crew != 0 || cost[0].Saved != harms.Late ||
		harms.Late == 0 || late < harms.Late || told == 0 {
		t.Errorf("%d of 200 builds are late, all for who stays away, which is told %d times; costs: %+v", late, told, harms)
	}
	r := run(t, c, o)
	if len(r.Causes) != 1 || r.Causes[0].Kind != odds.StayAway || r.Causes[0].Rank < 0.5 {
		t.Errorf("the causes are %+v, want who stays away alone", r.Causes)
	}
	all := func(p *schedule.Plan) *schedule.Plan {
		q := *p
		q.Crews = []schedule.Crew{p.Crews[0]}
		q.Crews[0].TurnsOut = nil
		return &q
	}
	wet := uncertain(c.Plan)
	wet.Crews = c.Plan.Crews
	with, without := foreseen(t, wet), foreseen(t, all(wet))
	for k := range with {
		with[k] = all(with[k])
		with[k].Crews[0].Away, without[k].Crews[0].Away = nil, nil
		if diff := cmp.Diff(with[k].Site.WetOn, without[k].Site.WetOn); diff != "" {
			t.Errorf("build %d has other weather where some stay away:\n%s", k, diff)
		}
	}
}

// foreseen are plans with what the first builds of them draw.
func foreseen(t *testing.T, p *schedule.Plan) []*schedule.Plan {
	t.Helper()
	out, err := odds.Foreseen(context.Background(), programme(t, p), odds.Options{Builds: 20, Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	return out
}
