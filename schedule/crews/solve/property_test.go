package solve_test

import (
	"fmt"
	"slices"
	"testing"
	_ "time/tzdata"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/critical"
	"build.example/turflast/schedule/verify"
)

// few and many are how many random plans a property is tried on, by its cost.
const (
	few  = 60
	many = 1500
)

func TestEveryProgrammeVerifies(t *testing.T) {
	broken, blocked := 0, 0
	for seed := range uint64(many) {
		p := plans.Small(plans.Seeded(seed))
		s, err := solve.New(p)
		if err != nil {
			continue
		}
		g := s.Logic().Programme
		broken += min(len(g.Breaks), 1)
		if g.Blocked != nil {
			blocked++
		}
		if r := verify.Check(p, g, schedule.Logic); len(r.Rules) > 0 {
			t.Fatalf("seed %d: %v\n%s", seed, r.Rules, plans.YAML(p))
		} else if diff := cmp.Diff(g.Breaks, r.Breaks); diff != "" {
			t.Fatalf("seed %d: breaks (-programme +verifier):\n%s", seed, diff)
		}
	}
	if broken < many/20 || blocked < many/200 {
		t.Errorf("%d plans broke a date and %d had no programme: too few to mean much", broken, blocked)
	}
}

// TestTotalFloat slips each task by its total float, which leaves every date
// met, and by a minute of its own calendar more, which breaks one. Floats are of the
// heads that the programme has: more of a range may take in what slipped.
func TestTotalFloat(t *testing.T) {
	tried := 0
	for seed := range uint64(many) {
		p := plans.Small(plans.Seeded(seed))
		s, err := solve.New(p)
		if err != nil {
			continue
		}
		g := s.Logic().Programme
		if len(g.Breaks) > 0 || g.Blocked != nil {
			continue
		}
		if tried++; tried > few {
			return
		}
		for i := range p.Tasks {
			slip(t, fmt.Sprintf("seed %d, task %s", seed, p.Tasks[i].ID), s, g, schedule.TaskID(i))
		}
	}
	t.Errorf("only %d plans met all dates", tried)
}

func slip(t *testing.T, name string, s *solve.Solver, g *schedule.Programme, id schedule.TaskID) {
	t.Helper()
	p, d := s.Plan(), g.Tasks[id]
	if d.TotalFloat == schedule.FreeRange || d.TotalFloat < 0 {
		return
	}
	own := s.Hours().Task(&p.Tasks[id], d.Heads)
	for _, over := range []calendars.Minutes{0, 1} {
		q := manned(p, g)
		q.Tasks[id].NotBefore = own.Add(d.Start, d.TotalFloat+over)
		q.Tasks[id].Crew = slices.Clone(p.Tasks[id].Crew) // float is that of the size in the programme
		for k, heads := range d.Heads {
			q.Tasks[id].Crew[k].Least, q.Tasks[id].Crew[k].Most = heads, heads
		}
		if q.Tasks[id].NotBefore == calendars.Never {
			continue // the hours end first
		}
		slipped := logic(t, q)
		late := slipped.Tasks[id].Done > p.Site.Handover // an optional task's own limit
		breaks := len(slipped.Breaks) > 0 || slipped.Blocked != nil || late
		if breaks != (over == 1) {
			t.Errorf("%s: slipped by its float of %d and %d more: breaks %v", name, d.TotalFloat, over, breaks)
		}
	}
}

// manned is a copy of a plan in which each task has the heads of a programme.
func manned(p *schedule.Plan, g *schedule.Programme) *schedule.Plan {
	q := *p
	q.Tasks = slices.Clone(p.Tasks)
	for i := range q.Tasks {
		crew := slices.Clone(q.Tasks[i].Crew)
		for k := range crew {
			if n := g.Tasks[i].Heads[k]; n > 0 {
				crew[k].Least, crew[k].Most = n, n
			}
		}
		q.Tasks[i].Crew = crew
	}
	return &q
}

// TestFreeFloat slips each task by its free float, which moves no other start.
func TestFreeFloat(t *testing.T) {
	for seed := range uint64(few) {
		p := plans.Small(plans.Seeded(seed))
		s, err := solve.New(p)
		if err != nil || s.Logic().Programme.Blocked != nil {
			continue
		}
		g := s.Logic().Programme
		for i := range p.Tasks {
			d := g.Tasks[i]
			if d.FreeFloat <= 0 || d.FreeFloat == schedule.FreeRange {
				continue
			}
			q := manned(p, g)
			q.Tasks[i].NotBefore = s.Hours().Task(&p.Tasks[i], d.Heads).Add(d.Start, d.FreeFloat)
			slipped := logic(t, q)
			for k := range p.Tasks {
				if k != i && slipped.Tasks[k].Start != g.Tasks[k].Start {
					t.Errorf("seed %d: %s slipped by its free float of %d moves %s", seed, p.Tasks[i].ID, d.FreeFloat, p.Tasks[k].ID)
				}
			}
		}
	}
}

// TestReductionChangesNoDate solves each network with and without the arcs
// that others imply.
func TestReductionChangesNoDate(t *testing.T) {
	dropped := 0
	for seed := range uint64(many) {
		s, err := solve.New(plans.Small(plans.Seeded(seed)))
		if err != nil {
			continue
		}
		m := s.Logic().Model
		whole := network.Spec{Line: m.Line, Calendars: m.Calendars, Holds: m.Holds}
		for i := range m.Nodes {
			whole.Nodes = append(whole.Nodes, m.Nodes[m.Number[i]])
		}
		for _, a := range m.Arcs {
			if a.Dropped {
				dropped++
			}
			a.Dropped = false
			whole.Arcs = append(whole.Arcs, a)
		}
		n, err := network.Build(whole)
		if err != nil {
			t.Fatal(err)
		}
		if len(critical.Ring(n)) > 0 {
			continue // set aside by the solver
		}
		reduced, full := network.NewTimes(m.Network), network.NewTimes(n)
		critical.Forward(m.Network, reduced)
		critical.Backward(m.Network, reduced)
		critical.Forward(n, full)
		critical.Backward(n, full)
		for i := range whole.Nodes {
			a, b := m.Number[i], n.Number[i]
			if reduced.Start[a] != full.Start[b] || reduced.LateStart[a] != full.LateStart[b] {
				t.Fatalf("seed %d: node %d starts %d to %d reduced, %d to %d whole", seed, i,
					reduced.Start[a], reduced.LateStart[a], full.Start[b], full.LateStart[b])
			}
		}
	}
	if dropped == 0 {
		t.Error("nothing was dropped")
	}
}

// TestRebook moves a booking and compares with a solver made afresh.
func TestRebook(t *testing.T) {
	for seed := range uint64(few) {
		p := plans.Small(plans.Seeded(seed))
		s, err := solve.New(p)
		if err != nil || len(p.Deliveries) == 0 {
			continue
		}
		q := p.Rebooked(0, p.Deliveries[0].Arrives.Plus(75))
		if diff := cmp.Diff(logic(t, q), s.Rebook(q).Logic().Programme); diff != "" {
			t.Errorf("seed %d (-afresh +rebooked):\n%s", seed, diff)
		}
	}
}

// belongs says whether the network of a case gives the starts of its programme.
func belongs(c network.Case) string {
	times := network.NewTimes(c.Network)
	critical.Forward(c.Network, times)
	for i := range c.Plan.Tasks {
		a, d := schedule.Activity(i), &c.Programme.Tasks[i]
		if d.Dropped || c.HasNoPlace(a) || c.Plan.Started(schedule.TaskID(i)) {
			continue
		}
		if at := times.Start[c.Node(a)]; at != d.Start || !slices.Equal(c.Heads[i], d.Heads) {
			return fmt.Sprintf("task %d starts at %d with %v, by the network at %d with %v",
				i, d.Start, d.Heads, at, c.Heads[i])
		}
	}
	return ""
}

// TestAgain solves on from a Case, in both scopes, with another booking and where
// longest waits can't hold: it is as good as a solver made afresh.
func TestAgain(t *testing.T) {
	ring := plans.Open(plans.Start(), plans.Start().Plus(calendars.Week))
	ring.Tasks = []schedule.Task{plans.Task("pour", 60), plans.Task("trowel", 60)}
	ring.Tasks[1].After = []schedule.Link{
		{From: 0, Wait: schedule.Wait{Kind: schedule.Cure, Time: 120}, HasWithin: true, Within: 60},
	}
	list := []*schedule.Plan{ring}
	for seed := range uint64(few) {
		list = append(list, plans.Small(plans.Seeded(seed)))
	}
	o := solve.Options{Schedules: 5}
	for i, p := range list {
		s, err := solve.New(p)
		if err != nil {
			continue
		}
		c := s.Logic()
		if i == 0 && (c.Programme.Blocked == nil || len(c.Programme.Blocked[0].Ring) != 2) {
			t.Errorf("the waits don't run in a ring: %+v", c.Programme.Blocked)
		}
		if wrong := belongs(c); wrong != "" {
			t.Errorf("plan %d: %s", i, wrong)
		}
		if diff := cmp.Diff(c.Programme, solve.Again(c).Logic().Programme); diff != "" {
			t.Errorf("plan %d (-afresh +again):\n%s", i, diff)
		}
		if len(p.Deliveries) > 0 {
			p = p.Rebooked(0, p.Deliveries[0].Arrives.Plus(75))
			c = s.Rebook(p).Logic()
		}
		if s, err = solve.New(p); err != nil {
			t.Fatal(err)
		}
		want, got := s.Crews(t.Context(), o).Programme, solve.Again(c).Crews(t.Context(), o).Programme
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("plan %d rebooked (-afresh +again):\n%s", i, diff)
		}
	}
}

// TestChain follows every chain: each step waits for the one before, the first
// for a moment, or for a step of the chain when longest waits run in a ring, and
// the last is the last required finish.
func TestChain(t *testing.T) {
	for seed := range uint64(many) {
		p := plans.Small(plans.Seeded(seed))
		s, err := solve.New(p)
		if err != nil {
			continue
		}
		g := s.Logic().Programme
		if g.Blocked != nil {
			continue
		}
		for i, step := range g.Chain {
			moment := step.Reason.After() == schedule.Nothing
			ring := i == 0 && slices.ContainsFunc(g.Chain, func(s schedule.Step) bool {
				return s.Activity == step.Reason.Other
			})
			if moment != (i == 0) && !ring {
				t.Fatalf("seed %d: step %d waits for %+v", seed, i, step.Reason)
			}
			if i > 0 && step.Reason.Other != g.Chain[i-1].Activity {
				t.Fatalf("seed %d: step %d doesn't wait for the step before", seed, i)
			}
		}
		if n := len(g.Chain); n > 0 && doneOf(p, g, g.Chain[n-1].Activity) != g.Finish {
			t.Fatalf("seed %d: the chain ends before the last finish", seed)
		}
	}
}

// doneOf is when a task is done, or a lorry unloaded.
func doneOf(p *schedule.Plan, g *schedule.Programme, a schedule.Activity) calendars.Instant {
	if t, ok := p.Task(a); ok {
		return g.Tasks[t].Done
	}
	return g.Of(a).Finish
}

// sameWork says whether two programmes leave out the same tasks and have the same heads
// at the rest.
func sameWork(a, b *schedule.Programme) bool {
	return slices.EqualFunc(a.Tasks, b.Tasks, func(x, y schedule.TaskDates) bool {
		return x.Dropped == y.Dropped && slices.Equal(x.Heads, y.Heads)
	})
}

// breaksOfRequired lists the breaks that aren't of a lorry for optional work alone.
func breaksOfRequired(p *schedule.Plan, g *schedule.Programme) []schedule.Break {
	return slices.DeleteFunc(slices.Clone(g.Breaks), func(b schedule.Break) bool {
		_, lorry := p.Delivery(b.Activity)
		return lorry && !p.Required(b.Activity)
	})
}

// TestLateArrival holds each lorry up until its latest and until moments before it, where
// every date holds, and then a minute later, where one breaks unless other work is left
// out or done by others, or its stock is past its keep as it comes.
func TestLateArrival(t *testing.T) {
	tried, kept := 0, 0
	for seed := range uint64(many) {
		p := plans.Small(plans.Seeded(seed))
		s, err := solve.New(p)
		if err != nil {
			continue
		}
		c := s.Logic()
		g := c.Programme
		if len(g.Breaks) > 0 || c.NoPlace != nil { // what has a place may change with a booking
			continue
		}
		for i, u := range g.Unloads {
			if u.LateArrival == calendars.Never || u.LateArrival == calendars.Past {
				continue
			}
			tried++
			if p.Deliveries[i].Keep > 0 {
				kept++
			}
			id := schedule.DeliveryID(i)
			for _, sooner := range []calendars.Minutes{0, 1, 45, 240, 1000} {
				at := s.Rebook(p.HeldUp(id, u.Arrives, max(u.Arrives, u.LateArrival.Plus(-sooner)))).Logic().Programme
				if len(breaksOfRequired(p, at)) > 0 || at.Blocked != nil {
					t.Errorf("seed %d: %s %d minutes before its latest breaks %v", seed, p.Deliveries[i].ID, sooner, at.Breaks)
				}
			}
			after := s.Rebook(p.HeldUp(id, u.Arrives, u.LateArrival.Plus(1))).Logic().Programme
			d := &p.Deliveries[i]
			past := d.Keep > 0 && u.LateArrival >= d.KeepsUntil(u.Arrives) // it would come past its keep
			if len(after.Breaks) == 0 && after.Blocked == nil && sameWork(after, g) && !past {
				t.Errorf("seed %d: %s a minute after its latest breaks nothing", seed, p.Deliveries[i].ID)
			}
		}
	}
	if tried < few || kept == 0 {
		t.Errorf("only %d bookings were tried, %d of living stock", tried, kept)
	}
}
