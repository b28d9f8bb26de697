package odds_test

import (
	"context"
	"errors"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/network/worktime"
)

// What no calendar gives a place, and what needs it, takes no part in the builds: the
// rest has chances of its own.
func TestOddsOfTheRest(t *testing.T) {
	const noPlace = `
  frame: {name: Set the frame, zone: lawn, stage: structure, crew: {ground: 2}, takes: 9h, unbroken: true, spread: {best: 8h30m, worst: 20h}, by: 2027-05-03 12:00}
  climb: {name: Train the climbers, zone: lawn, stage: planting, crew: {ground: 2}, takes: 1h, after: [frame], weather: [dry]}`
	for _, c := range []struct {
		name, plan string
		want       []string
		onTime     float64
		broken     int
	}{
		{"hands that it would take are free", head + rest + `
tasks:
  bed: {name: Bed the stone, zone: rear, stage: paving, crew: {ground: 2}, takes: 6h}` + noPlace,
			[]string{"Mon 14:00"}, 1, 0},
		{"its dates aren't counted, those of the rest are", head + rest + `
tasks:
  bed: {name: Bed the stone, zone: rear, stage: paving, crew: {ground: 2}, takes: 6h, by: 2027-05-03 13:00}` + noPlace,
			[]string{"Mon 14:00"}, 1, 1},
		{"the rest may be late", head + rest + `
tasks:
  bed: {name: Bed the stone, zone: rear, stage: paving, crew: {ground: 2}, takes: 41h}` + noPlace,
			[]string{"Mon 09:00"}, 0, 0},
		{"its lorry comes", head + rest + `
deliveries: {timber: {what: timber, arrives: 2027-05-03 09:30, unload: {takes: 30m, crew: {ground: 2}}, late: {chance: 1, likely: 3h, worst: 4h}}}
tasks:
  bed: {name: Bed the stone, zone: rear, stage: paving, crew: {ground: 2}, takes: 8h}
  frame: {name: Set the frame, zone: lawn, stage: structure, crew: {planting: 2}, takes: 9h, unbroken: true, uses: [timber]}`,
			[]string{"Wed 08:30"}, 1, 0}, // hands go on in the order of the programme
	} {
		t.Run(c.name, func(t *testing.T) {
			of := read(t, c.plan)
			if of.Programme.Blocked == nil {
				t.Fatal("all has a place")
			}
			r := run(t, of, odds.Options{Builds: 200, Seed: 1})
			got := finishes(of.Plan, r)
			for when := range got {
				if !slices.Contains(c.want, when) {
					t.Errorf("some builds are done %s, not %v", when, c.want)
				}
			}
			if r.Chance() != c.onTime || len(got) != len(c.want) {
				t.Errorf("on time in %v of builds, want %v; done %v", r.Chance(), c.onTime, got)
			}
			if len(r.Broken) != c.broken {
				t.Errorf("these break: %v", r.Broken)
			}
			for _, cause := range r.Causes {
				if of.Programme.HasNoPlace(cause.Activity) {
					t.Errorf("%v moves the finish", cause)
				}
			}
		})
	}
}

// Without any required work that has a place there is nothing to have a chance.
func TestNothingHasAPlace(t *testing.T) {
	of := read(t, head+rest+`
tasks:
  frame: {name: Set the frame, zone: lawn, stage: structure, crew: {ground: 2}, takes: 9h, unbroken: true}
  pots: {name: Pots, zone: rear, stage: planting, crew: {planting: 1}, takes: 1h, optional: true}`)
	if _, err := odds.Run(context.Background(), of, odds.Options{Builds: 1}); !errors.Is(err, odds.ErrBlocked) {
		t.Errorf("odds of nothing: %v", err)
	}
}

// A build in which a longest wait can't hold is never done: it has no finish that means
// anything. A longest wait to what has no place in the build holds nothing.
func TestLongestWaitThatCantHold(t *testing.T) {
	const spread = ", spread: {best: 30m, worst: 6h}"
	const tasks = `
tasks:
  mix: {name: Lay the bed, zone: rear, stage: paving, crew: {ground: 2}, takes: 1h}
  dig: {name: Cut the edge, zone: rear, stage: paving, crew: {planting: 2}, takes: 1h, after: [mix]` + spread + `}
  set: {name: Set the slabs, zone: rear, stage: paving, crew: {planting: 2}, takes: 1h, after: [dig, {task: mix, within: 2h}]}`
	of := read(t, head+rest+tasks)
	r := run(t, of, odds.Options{Builds: 2000, Seed: 1})
	free := read(t, head+rest+strings.Replace(tasks, ", within: 2h", "", 1))
	all := run(t, free, odds.Options{Builds: 2000, Seed: 1})
	latest, held := of.Plan.Site.Opens.Plus(4*calendars.Hour), 0
	for _, b := range all.Finishes {
		if b.To <= latest {
			held += b.Builds
		}
	}
	if r.Unfinished == 0 || r.OnTime == 0 || r.OnTime != held || r.Unfinished != r.Builds-held {
		t.Errorf("%d builds on time and %d never done; in %d of %d the wait holds", r.OnTime, r.Unfinished, held, r.Builds)
	}
	for _, b := range r.Finishes {
		if b.To > latest {
			t.Errorf("%d builds are done after Mon 12:00", b.Builds)
		}
	}
	wet := strings.Replace(head, "  gate:", "  wet_days: {after_dry: 1, after_wet: 1, dries: 0m}\n  gate:", 1)
	const pots = `
  pots: {name: Pots, zone: lawn, stage: planting, crew: {planting: 1}, takes: 30m, optional: true, weather: [dry],
    after: [{task: mix, within: 2h}]}`
	dry := strings.Replace(tasks, spread, "", 1) + pots
	if r := run(t, read(t, wet+rest+dry), odds.Options{Builds: 20}); r.OnTime != 20 {
		t.Errorf("on time in %d of 20 builds, though only optional work has no place in them", r.OnTime)
	}
}

// What is optional and begun must be done by the hand-over.
func TestBegunOptionalWorkIsRequired(t *testing.T) {
	const tasks = `
tasks:
  bed: {name: Bed the stone, zone: rear, stage: paving, crew: {ground: 2}, takes: 6h}
  pots: {name: Pots, zone: lawn, stage: planting, crew: {planting: 2}, takes: 39h, optional: true}`
	for _, begun := range []bool{false, true} {
		of := read(t, head+rest+tasks)
		p := *of.Plan
		p.Progress = &schedule.Progress{At: p.Site.Opens, Tasks: make([]schedule.TaskProgress, 2)}
		want := "Mon 14:00"
		if begun {
			p.Progress.Tasks[1] = schedule.TaskProgress{Start: p.Site.Opens, Left: p.Tasks[1].Effort, Heads: []int{2}}
			want = "Fri 15:00"
		}
		c := programme(t, &p)
		if got := finishes(&p, run(t, c, odds.Options{Builds: 20})); !got[want] || len(got) != 1 {
			t.Errorf("begun %v: done %v, not %s", begun, got, want)
		}
	}
}

// The chances of the rest are those of the plan from which all that has no place is
// taken.
func TestRestIsThePlanWithoutWhatHasNoPlace(t *testing.T) {
	o := odds.Options{Builds: 60, Seed: 5, Pace: odds.UsualPace}
	compared, late := 0, 0
	for seed := range uint64(160) {
		p := stuck(uncertain(plans.Small(plans.Seeded(seed))), seed)
		s, err := solve.New(p)
		if err != nil {
			continue // links run in a ring
		}
		c := s.Crews(context.Background(), solve.Options{Schedules: 20})
		if c.Programme.Blocked == nil || nothingPlaced(c) {
			continue
		}
		gone := make([]bool, p.Activities())
		for i := range c.Programme.Blocked {
			gone[c.Programme.Blocked[i].Activity] = true
		}
		q, now := plans.Without(p, func(a schedule.Activity) bool { return gone[a] })
		h := placed(c.Programme, now)
		if !sameHours(p, c.Programme, q, h, gone) {
			continue // what is made up after the hand-over depends on what has no place
		}
		without, err := solve.New(q)
		if err != nil {
			t.Fatal(err)
		}
		got, want := run(t, c, o), run(t, without.Logic().With(h), o)
		kept := renumbered(got, p, q, now)
		if diff := cmp.Diff(want, kept); diff != "" {
			t.Fatalf("plan %d, without %d of %d\n%s", seed, len(c.Programme.Blocked), p.Activities(), diff)
		}
		compared++
		if got.OnTime < got.Builds {
			late++
		}
	}
	if compared < 25 || late < 10 {
		t.Errorf("only %d plans were compared, %d of them late in some build", compared, late)
	}
}

// stuck is a plan with a task that has no place and, in every second, another that needs
// it.
func stuck(p *schedule.Plan, seed uint64) *schedule.Plan {
	q := *p
	q.Tasks = slices.Clone(p.Tasks)
	never := plans.Task("never", 2*calendars.Week)
	never.Unbroken, never.Zones, never.Spread = true, p.Tasks[0].Zones, &schedule.Spread{Best: 20000, Worst: 40000}
	at := schedule.TaskID(len(q.Tasks))
	q.Tasks = append(q.Tasks, never)
	if seed%2 == 0 {
		needs := plans.Task("needs", 60)
		needs.Zones, needs.After = p.Tasks[0].Zones, []schedule.Link{{From: at}}
		q.Tasks = append(q.Tasks, needs)
	}
	return &q
}

// sameHours says whether what is left has the same hours with and without what is gone.
func sameHours(p *schedule.Plan, g *schedule.Programme, q *schedule.Plan, h *schedule.Programme, gone []bool) bool {
	with, without := worktime.New(needing(p, g)), worktime.New(needing(q, h))
	same := func(a, b *calendars.Calendar) bool {
		from, to := p.Site.Opens.Plus(-8*calendars.Week), p.Site.Handover.Plus(20*calendars.Week)
		return slices.Equal(slices.Collect(a.Openings(from, to)), slices.Collect(b.Openings(from, to)))
	}
	k := 0
	for i := range p.Tasks {
		if gone[i] {
			continue
		}
		if !same(with.Task(&p.Tasks[i], g.Tasks[i].Heads), without.Task(&q.Tasks[k], h.Tasks[k].Heads)) {
			return false
		}
		k++
	}
	k = 0
	for i := range p.Deliveries {
		if gone[p.Unload(schedule.DeliveryID(i))] {
			continue
		}
		if !same(with.Unload(&p.Deliveries[i]), without.Unload(&q.Deliveries[k])) {
			return false
		}
		k++
	}
	for i := range p.Crews {
		if with.Crews[i].Max() != without.Crews[i].Max() {
			return false
		}
	}
	return same(with.Site, without.Site)
}

// needing is a plan whose tasks need the heads that a programme has on them.
func needing(p *schedule.Plan, g *schedule.Programme) *schedule.Plan {
	q := *p
	q.Tasks = slices.Clone(p.Tasks)
	for i := range q.Tasks {
		q.Tasks[i].Crew = slices.Clone(q.Tasks[i].Crew)
		for k, n := range g.Tasks[i].Heads {
			q.Tasks[i].Crew[k].Least = max(n, q.Tasks[i].Crew[k].Least)
		}
	}
	return &q
}

// placed is a programme without the activities that aren't in another plan.
func placed(g *schedule.Programme, now []schedule.Activity) *schedule.Programme {
	h := *g
	h.Tasks, h.Unloads, h.Blocked, h.Chain, h.Breaks = nil, nil, nil, nil, nil
	for a, to := range now {
		switch {
		case to == schedule.Nothing:
		case a < len(g.Tasks):
			h.Tasks = append(h.Tasks, g.Tasks[a])
		default:
			h.Unloads = append(h.Unloads, g.Unloads[a-len(g.Tasks)])
		}
	}
	return &h
}

// renumbered is a result by the numbers of a plan without what is gone.
func renumbered(r *odds.Result, p, q *schedule.Plan, now []schedule.Activity) *odds.Result {
	out := *r
	out.OnChain, out.Causes, out.Broken = nil, slices.Clone(r.Causes), slices.Clone(r.Broken)
	for a, to := range now {
		if to != schedule.Nothing {
			out.OnChain = append(out.OnChain, r.OnChain[a])
		}
	}
	for i := range out.Causes {
		if c := &out.Causes[i]; c.Activity != schedule.Nothing {
			c.Activity = now[c.Activity]
		}
	}
	for i := range out.Broken {
		b := &out.Broken[i]
		b.Activity = now[b.Activity]
		if b.Stock != schedule.None {
			b.Stock, _ = q.Delivery(now[p.Unload(b.Stock)])
		}
	}
	return &out
}
