package network_test

import (
	"fmt"
	"iter"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/worktime"
)

// pair is a tie with both its ends.
type pair struct {
	First, Then schedule.Activity
	Tie         network.Tie // without its Activity
}

// asked lists the ties of a plan pair by pair, from its words alone.
func asked(p *schedule.Plan) (out []pair) {
	none := network.Origin{Rule: schedule.None, Zone: schedule.None}
	link := func(l schedule.Link, then schedule.Activity) {
		from := none
		from.Pos = l.Pos
		out = append(out, pair{schedule.Activity(l.From), then,
			network.Tie{Kind: l.Kind, Wait: l.Wait, Within: l.Within, HasWithin: l.HasWithin, Origin: from}})
	}
	for i := range p.Tasks {
		for _, l := range p.Tasks[i].After {
			link(l, schedule.Activity(i))
		}
		for _, d := range p.Tasks[i].Uses {
			from := none
			from.Kind = network.FromDelivery
			out = append(out, pair{p.Unload(d), schedule.Activity(i), network.Tie{Origin: from}})
		}
	}
	for i := range p.Deliveries {
		for _, l := range p.Deliveries[i].After {
			link(l, p.Unload(schedule.DeliveryID(i)))
		}
	}
	for a := range p.Tasks {
		for b := range p.Tasks {
			if a != b {
				out = append(out, ruledPair(p, schedule.TaskID(a), schedule.TaskID(b))...)
				out = append(out, wayInPair(p, schedule.TaskID(a), schedule.TaskID(b))...)
			}
		}
	}
	return out
}

// ruledPair are the ties by stage rules of one task before another: one for each zone
// that both are in, or one for everywhere.
func ruledPair(p *schedule.Plan, first, then schedule.TaskID) (out []pair) {
	a, b := &p.Tasks[first], &p.Tasks[then]
	for i := range p.Rules {
		r, id := &p.Rules[i], schedule.RuleID(i)
		if r.Kind != schedule.Before || !slices.Contains(r.First, a.Stage) || !slices.Contains(r.Then, b.Stage) ||
			excused(a, id) || excused(b, id) {
			continue
		}
		var tie network.Tie
		if r.HasAfter {
			tie.Wait = schedule.Wait{Kind: schedule.Cure, Time: r.After}
		}
		tie.Origin = network.Origin{Kind: network.FromRule, Rule: id, Zone: schedule.None}
		if r.Everywhere {
			out = append(out, pair{first.Activity(), then.Activity(), tie})
			continue
		}
		for _, z := range b.Zones {
			if slices.Contains(a.Zones, z) {
				tie.Origin.Zone = z
				out = append(out, pair{first.Activity(), then.Activity(), tie})
			}
		}
	}
	return out
}

// wayInPair are the ties of one task before another that closes the way in to it: one
// for each zone behind that it works in.
func wayInPair(p *schedule.Plan, first, then schedule.TaskID) (out []pair) {
	a, b := &p.Tasks[first], &p.Tasks[then]
	stage := p.Stages[a.Stage]
	if !b.Closes.Orders || a.OnBoards || stage == "clean" || stage == "strike" ||
		excused(a, schedule.WayIn) || excused(b, schedule.WayIn) {
		return nil
	}
	for _, z := range a.Zones {
		if slices.ContainsFunc(b.Zones, func(w schedule.ZoneID) bool { return w != z && crosses(p, z, w) }) {
			out = append(out, pair{first.Activity(), then.Activity(),
				network.Tie{Origin: network.Origin{Kind: network.FromWayIn, Rule: schedule.WayIn, Zone: z}}})
		}
	}
	return out
}

func excused(t *schedule.Task, r schedule.RuleID) bool {
	for _, e := range t.Excepts {
		if e.Rule == r {
			return true
		}
	}
	return false
}

// crosses says whether people cross one zone to reach another.
func crosses(p *schedule.Plan, to, over schedule.ZoneID) bool {
	return slices.ContainsFunc(p.Zones[to].WayIn, func(w schedule.ZoneID) bool { return w == over || crosses(p, w, over) })
}

// told lists the ties that a query yields, in an order of its own.
func told(p *schedule.Plan, query func(schedule.Activity) iter.Seq[network.Tie],
	make func(of, other schedule.Activity) pair) []pair {
	var out []pair
	for a := range p.Activities() {
		for tie := range query(a) {
			x := make(a, tie.Activity)
			x.Tie, x.Tie.Activity = tie, 0
			out = append(out, x)
		}
	}
	return sorted(out)
}

func sorted(all []pair) []pair {
	slices.SortFunc(all, func(a, b pair) int { return strings.Compare(fmt.Sprint(a), fmt.Sprint(b)) })
	return all
}

// TestPrecedencesAreThoseOfThePlansWords checks in random plans what comes before and what
// after each activity: both are every pair that the plan's words put in order, each
// time that they do.
func TestPrecedencesAreThoseOfThePlansWords(t *testing.T) {
	kinds := make(map[network.OriginKind]int)
	for seed := range uint64(600) {
		p := plans.Small(plans.Seeded(seed))
		x, want := network.Precedences(p), sorted(asked(p))
		before := told(p, x.Before, func(of, other schedule.Activity) pair { return pair{First: other, Then: of} })
		after := told(p, x.After, func(of, other schedule.Activity) pair { return pair{First: of, Then: other} })
		if diff := cmp.Diff(want, before); diff != "" {
			t.Fatalf("seed %d: before (-want +got):\n%s", seed, diff)
		}
		if diff := cmp.Diff(want, after); diff != "" {
			t.Fatalf("seed %d: after (-want +got):\n%s", seed, diff)
		}
		for _, x := range want {
			kinds[x.Tie.Origin.Kind]++
		}
	}
	for k := network.FromLink; k <= network.FromWayIn; k++ {
		if kinds[k] < 20 {
			t.Errorf("only %d ties of kind %d", kinds[k], k)
		}
	}
}

// TestModelHasThePlansPrecedence compares a model with its plan's precedence: the
// same arcs of the same origins, and ties except those that others imply; with tasks
// left out, none of those of theirs.
func TestModelHasThePlansPrecedence(t *testing.T) {
	compared := 0
	for seed := range uint64(200) {
		p := plans.Small(plans.Seeded(seed))
		x := network.Precedences(p)
		m, err := network.Expand(p, worktime.New(p), network.Choice{})
		if err != nil {
			continue
		}
		compared++
		arcs := slices.Clone(m.Arcs)
		for i := range arcs {
			arcs[i].Dropped = false
		}
		if diff := cmp.Diff(x.Arcs, arcs); diff != "" {
			t.Fatalf("seed %d: arcs (-want +got):\n%s", seed, diff)
		}
		if diff := cmp.Diff(x.Origins, m.Origins); diff != "" {
			t.Fatalf("seed %d: origins (-want +got):\n%s", seed, diff)
		}
		out := make([]bool, len(p.Tasks))
		for i := range out {
			out[i] = p.Tasks[i].Optional
		}
		m, err = network.Expand(p, worktime.New(p), network.Choice{Dropped: out})
		if err != nil {
			t.Fatal(err)
		}
		for i := range m.Arcs {
			m.Arcs[i].Dropped = false
		}
		leftOut := func(a schedule.Activity) bool { i, task := p.Task(a); return task && out[i] }
		want := slices.DeleteFunc(sorted(asked(p)), func(x pair) bool { return leftOut(x.First) || leftOut(x.Then) })
		got := told(p, m.Before, func(of, other schedule.Activity) pair { return pair{First: other, Then: of} })
		if diff := cmp.Diff(want, got, cmpopts.EquateEmpty()); diff != "" {
			t.Fatalf("seed %d: with tasks left out (-want +got):\n%s", seed, diff)
		}
	}
	if compared < 100 {
		t.Errorf("only %d plans were compared", compared)
	}
}

// TestImpliedTiesAreLeftOut: a before b before c says that a comes before c, so a
// link, or a rule, that says it too is no tie of the model; the plan's precedence has it.
func TestImpliedTiesAreLeftOut(t *testing.T) {
	linked := garden(3)
	linked.Tasks[1].After = []schedule.Link{{From: 0}}
	linked.Tasks[2].After = []schedule.Link{{From: 0}, {From: 1}}
	ruled := garden(3)
	ruled.Tasks[1].After = []schedule.Link{{From: 0}}
	before(ruled, 0, 1, 2)
	others := func(ties iter.Seq[network.Tie]) (out []schedule.Activity) {
		for tie := range ties {
			out = append(out, tie.Activity)
		}
		return out
	}
	for name, p := range map[string]*schedule.Plan{"linked": linked, "ruled": ruled} {
		m, x := expand(t, p), network.Precedences(p)
		for _, c := range []struct {
			name      string
			got, want []schedule.Activity
		}{
			{"before c in the model", others(m.Before(2)), []schedule.Activity{1}},
			{"after a in the model", others(m.After(0)), []schedule.Activity{1}},
			{"before c in the plan", others(x.Before(2)), []schedule.Activity{0, 1}},
			{"after a in the plan", others(x.After(0)), []schedule.Activity{1, 2}},
		} {
			if !slices.Equal(c.got, c.want) {
				t.Errorf("%s, %s: %v, not %v", name, c.name, c.got, c.want)
			}
		}
	}
}

// before adds a rule that puts the first tasks of a plan before the last, by a stage of
// its own for each side.
func before(p *schedule.Plan, tasks ...int) {
	first, then := schedule.StageID(len(p.Stages)), schedule.StageID(len(p.Stages)+1)
	p.Stages = append(p.Stages, "first", "then")
	for _, i := range tasks {
		p.Tasks[i].Stage = first
	}
	p.Tasks[tasks[len(tasks)-1]].Stage = then
	p.Rules = append(p.Rules, schedule.Rule{First: []schedule.StageID{first}, Then: []schedule.StageID{then}})
}

// TestExcusedFromOneRule: two rules of one first stage have a joint each where a task is
// excused from one of them.
func TestExcusedFromOneRule(t *testing.T) {
	p := garden(4)
	before(p, 0, 1, 2)
	before(p, 3)
	p.Rules[1].First = p.Rules[0].First
	p.Tasks[0].Excepts = []schedule.Except{{Rule: 0}}
	for of, want := range map[schedule.Activity][]schedule.Activity{2: {1}, 3: {0, 1}} {
		if got := follows(p, of); !slices.Equal(got, want) {
			t.Errorf("task %d follows %v, not %v", of, got, want)
		}
	}
}

// TestNoJointOfNothing: where all that comes first is left out, nothing stands for it.
func TestNoJointOfNothing(t *testing.T) {
	p := garden(3)
	before(p, 0, 1, 2)
	for _, c := range []struct {
		out   []bool
		nodes int
	}{{[]bool{true, true, false}, 3}, {[]bool{true, false, false}, 4}} {
		m, err := network.Expand(p, worktime.New(p), network.Choice{Dropped: c.out})
		if err != nil {
			t.Fatal(err)
		}
		if len(m.Nodes) != c.nodes {
			t.Errorf("without %v: %d nodes, not %d", c.out, len(m.Nodes), c.nodes)
		}
	}
}

// TestQueryStops takes the first tie of several and asks for no more, on either side
// of a joint.
func TestQueryStops(t *testing.T) {
	p := garden(4)
	before(p, 0, 1, 3)
	before(p, 2)
	p.Rules[1].First = p.Rules[0].First
	p.Tasks[3].After = []schedule.Link{{From: 0}}
	x := network.Precedences(p)
	for name, ties := range map[string]iter.Seq[network.Tie]{"before": x.Before(3), "after": x.After(0)} {
		n := 0
		for range ties {
			n++
			break
		}
		if n != 1 {
			t.Errorf("%s: %d ties were taken", name, n)
		}
	}
}
