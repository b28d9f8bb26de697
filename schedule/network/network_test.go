package network_test

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"
	_ "time/tzdata"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/worktime"
)

func expand(t *testing.T, p *schedule.Plan) *network.Model {
	t.Helper()
	m, err := network.Expand(p, worktime.New(p), network.Choice{})
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// garden is a plan with the given number of tasks, named by their number, in the first zone.
func garden(tasks int) *schedule.Plan {
	p := plans.Open(plans.Start(), plans.Start().Plus(calendars.Week))
	for i := range tasks {
		p.Tasks = append(p.Tasks, plans.Task(fmt.Sprint(i), calendars.Hour))
	}
	return p
}

func stage(p *schedule.Plan, name string) schedule.StageID {
	return schedule.StageID(slices.Index(p.Stages, name))
}

func TestOrderRunsAlongEveryArc(t *testing.T) {
	for seed := range uint64(200) {
		r := rand.New(rand.NewPCG(seed, 4))
		order := r.Perm(20)
		s := network.Spec{Nodes: make([]network.Node, 20)}
		for range 40 {
			a, b := r.IntN(20), r.IntN(20)
			if a != b {
				s.Arcs = append(s.Arcs, network.Arc{From: int32(order[min(a, b)]), To: int32(order[max(a, b)])})
			}
		}
		n, err := network.Build(s)
		if err != nil {
			t.Fatal(err)
		}
		for _, a := range s.Arcs {
			if n.Number[a.From] >= n.Number[a.To] {
				t.Fatalf("seed %d: the arc from %d to %d runs back", seed, a.From, a.To)
			}
		}
		for i := range s.Nodes {
			if n.Spec[n.Number[i]] != int32(i) {
				t.Fatalf("seed %d: node %d is lost", seed, i)
			}
		}
	}
}

// TestRings builds two rings, one inside a longer walk: the shortest through
// the first node of each is named, its arcs in order.
func TestRings(t *testing.T) {
	arcs := [][2]int32{{0, 1}, {1, 2}, {2, 3}, {3, 1}, {2, 1}, {3, 4}, {5, 6}, {6, 5}}
	s := network.Spec{Nodes: make([]network.Node, 7)}
	for _, a := range arcs {
		s.Arcs = append(s.Arcs, network.Arc{From: a[0], To: a[1]})
	}
	_, err := network.Build(s)
	var cycle *network.Cycle
	if !errors.As(err, &cycle) {
		t.Fatalf("the error is %v", err)
	}
	if diff := cmp.Diff([][]int32{{1, 4}, {6, 7}}, cycle.Rings); diff != "" {
		t.Errorf("rings (-want +got):\n%s", diff)
	}
}

func TestRingOfAPlanNamesWhatMakesIt(t *testing.T) {
	p := garden(3)
	p.Tasks[1].After = []schedule.Link{{From: 0}}
	p.Tasks[0].Stage, p.Tasks[2].Stage = stage(p, "paving"), stage(p, "planting")
	p.Tasks[2].After = []schedule.Link{{From: 1}}
	p.Rules = []schedule.Rule{{Kind: schedule.Before,
		First: []schedule.StageID{p.Tasks[2].Stage}, Then: []schedule.StageID{p.Tasks[0].Stage}}}
	_, err := network.Expand(p, worktime.New(p), network.Choice{})
	var ring *network.RingError
	if !errors.As(err, &ring) || len(ring.Rings) != 1 {
		t.Fatalf("the error is %v", err)
	}
	var got []string
	for _, s := range ring.Rings[0] {
		got = append(got, fmt.Sprint(s.Activity, " ", s.Origin.Kind))
	}
	want := []string{
		fmt.Sprint(0, " ", network.FromLink), fmt.Sprint(1, " ", network.FromLink), fmt.Sprint(2, " ", network.FromRule),
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("ring (-want +got):\n%s", diff)
	}
}

// TestRulesNeedNoPairs: 200 tasks before 200 others take an arc each, not one
// for each pair, and so does a way in.
func TestRulesNeedNoPairs(t *testing.T) {
	p := garden(400)
	for i := range p.Tasks {
		p.Tasks[i].Stage = stage(p, "paving")
		if i >= 200 {
			p.Tasks[i].Stage = stage(p, "planting")
		}
	}
	p.Rules = []schedule.Rule{{Kind: schedule.Before, First: []schedule.StageID{stage(p, "paving")},
		Then: []schedule.StageID{stage(p, "planting")}}}
	if m := expand(t, p); len(m.Arcs) != 400 || len(m.Nodes) != 401 {
		t.Errorf("%d arcs and %d nodes", len(m.Arcs), len(m.Nodes))
	}
	p.Rules = nil
	p.Zones = append(p.Zones, schedule.Zone{ID: "rear", WayIn: []schedule.ZoneID{0}})
	for i := range p.Tasks {
		if i >= 200 {
			p.Tasks[i].Closes.Orders = true
		} else {
			p.Tasks[i].Zones = []schedule.ZoneID{1}
		}
	}
	if m := expand(t, p); len(m.Arcs) != 400 || len(m.Nodes) != 401 {
		t.Errorf("way in: %d arcs and %d nodes", len(m.Arcs), len(m.Nodes))
	}
}

// follows lists what an activity must come after by the plan.
func follows(p *schedule.Plan, a schedule.Activity) []schedule.Activity {
	var out []schedule.Activity
	for tie := range network.Precedences(p).Before(a) {
		out = append(out, tie.Activity)
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// TestWayIn: turf at the front comes after all work behind it, by zones crossed
// in turn, but for cleaning, work on boards and what is excused.
func TestWayIn(t *testing.T) {
	p := garden(7)
	p.Zones = []schedule.Zone{{ID: "front"}, {ID: "lawn", WayIn: []schedule.ZoneID{0}},
		{ID: "rear", WayIn: []schedule.ZoneID{1}}}
	zone := func(t, z int) { p.Tasks[t].Zones = []schedule.ZoneID{schedule.ZoneID(z)} }
	p.Tasks[0].Closes.Orders = true // at the front
	zone(1, 1)
	zone(2, 2)
	zone(3, 2)
	p.Tasks[3].Stage = stage(p, "clean")
	zone(4, 1)
	p.Tasks[4].OnBoards = true
	zone(5, 2)
	p.Tasks[5].Excepts = []schedule.Except{{Rule: schedule.WayIn}}
	p.Tasks[6].Zones = []schedule.ZoneID{0, 1} // the front, and behind it too
	if diff := cmp.Diff([]schedule.Activity{1, 2, 6}, follows(p, 0)); diff != "" {
		t.Errorf("turf at the front follows (-want +got):\n%s", diff)
	}
	p.Tasks[6].Closes.Orders = true // never after itself, nor after what lies before it
	if diff := cmp.Diff([]schedule.Activity{1, 2}, follows(p, 6)); diff != "" {
		t.Errorf("turf on both follows (-want +got):\n%s", diff)
	}
}

// TestRuleByZone: tasks that share no zone aren't linked, unless everywhere;
// excused ones never.
func TestRuleByZone(t *testing.T) {
	p := garden(5)
	p.Zones = []schedule.Zone{{ID: "front"}, {ID: "rear"}}
	for i := range p.Tasks {
		p.Tasks[i].Stage = stage(p, "paving")
	}
	p.Tasks[1].Zones = []schedule.ZoneID{1}
	p.Tasks[2].Excepts = []schedule.Except{{Rule: 0}}
	p.Tasks[3].Stage, p.Tasks[4].Stage = stage(p, "planting"), stage(p, "planting")
	p.Tasks[4].Excepts = []schedule.Except{{Rule: 0}}
	p.Rules = []schedule.Rule{{Kind: schedule.Before, First: []schedule.StageID{stage(p, "paving")},
		Then: []schedule.StageID{stage(p, "planting")}}}
	if diff := cmp.Diff([]schedule.Activity{0}, follows(p, 3)); diff != "" {
		t.Errorf("in the zone (-want +got):\n%s", diff)
	}
	if got := follows(p, 4); len(got) > 0 {
		t.Errorf("an excused task follows %v", got)
	}
	p.Rules[0].Everywhere = true
	if diff := cmp.Diff([]schedule.Activity{0, 1}, follows(p, 3)); diff != "" {
		t.Errorf("everywhere (-want +got):\n%s", diff)
	}
}

// unseen says whether a node is a joint or an optional one.
func unseen(m *network.Model, number int32) bool {
	n := &m.Nodes[m.Number[number]]
	return n.Joint || n.Optional
}

// TestReduction compares with a search for another path of plain links: an arc is
// dropped exactly when there is one, but for those between nodes that late dates of
// required ones don't see.
func TestReduction(t *testing.T) {
	dropped := 0
	for seed := range uint64(400) {
		p := plans.Small(plans.Seeded(seed))
		m, err := network.Expand(p, worktime.New(p), network.Choice{})
		if err != nil {
			continue
		}
		seen := make(map[[2]int32]bool)
		for i := range m.Arcs {
			a := &m.Arcs[i]
			if !isPlain(a) || !bare(m, a.From) {
				if a.Dropped {
					t.Fatalf("seed %d: arc %d, which isn't plain, is dropped", seed, i)
				}
				continue
			}
			twice := seen[[2]int32{a.From, a.To}]
			seen[[2]int32{a.From, a.To}] = true
			want := (twice || detour(m, a.From, a.To)) && !(unseen(m, a.From) && unseen(m, a.To))
			if a.Dropped != want {
				t.Fatalf("seed %d: arc %d from %d to %d dropped is %v", seed, i, a.From, a.To, a.Dropped)
			}
			if want {
				dropped++
			}
		}
	}
	if dropped == 0 {
		t.Error("nothing was dropped")
	}
}

func isPlain(a *network.Arc) bool {
	return a.Kind == schedule.FinishStart && a.Wait.Kind == schedule.OwnCure && !a.HasWithin
}

func bare(m *network.Model, number int32) bool {
	n := &m.Nodes[m.Number[number]]
	t, task := m.Plan.Task(m.Activity(number))
	return n.Cure == 0 && n.Hold == network.None && (!task || !m.Plan.Tasks[t].Optional)
}

// detour says whether plain arcs lead from one node to another through a third.
func detour(m *network.Model, from, to int32) bool {
	for i := range m.Arcs {
		a := &m.Arcs[i]
		if a.From == from && a.To != to && isPlain(a) && bare(m, a.To) && (leads(m, a.To, to) || detour(m, a.To, to)) {
			return true
		}
	}
	return false
}

func leads(m *network.Model, from, to int32) bool {
	return slices.ContainsFunc(m.Arcs, func(a network.Arc) bool { return a.From == from && a.To == to && isPlain(&a) })
}

func BenchmarkExpand(b *testing.B) {
	p := plans.Big(1000, 1)
	hours := worktime.New(p)
	for b.Loop() {
		if _, err := network.Expand(p, hours, network.Choice{}); err != nil {
			b.Fatal(err)
		}
	}
}
