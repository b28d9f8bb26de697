package schedule_test

import (
	"slices"
	"testing"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/internal/plans"
)

// apartByWords says by what the plan's words keep two tasks apart: None where one of
// them names the other, else rules.
func apartByWords(p *schedule.Plan, a, b schedule.TaskID) (by []schedule.RuleID) {
	x, y := &p.Tasks[a], &p.Tasks[b]
	for _, names := range [][]schedule.TaskID{x.Apart, y.Apart} {
		if slices.Contains(names, a) || slices.Contains(names, b) {
			by = append(by, schedule.None)
		}
	}
	for i := range p.Rules {
		r := &p.Rules[i]
		meet := r.Everywhere
		for _, z := range x.Zones {
			meet = meet || slices.Contains(y.Zones, z)
		}
		for _, e := range slices.Concat(x.Excepts, y.Excepts) {
			meet = meet && e.Rule != schedule.RuleID(i)
		}
		if r.Kind != schedule.Apart || !meet {
			continue
		}
		for range times(slices.Contains(r.First, x.Stage) && slices.Contains(r.Then, y.Stage)) +
			times(slices.Contains(r.First, y.Stage) && slices.Contains(r.Then, x.Stage)) {
			by = append(by, schedule.RuleID(i))
		}
	}
	return by
}

func times(yes bool) int {
	if yes {
		return 1
	}
	return 0
}

// TestKeptApart compares the pairs of random plans that are kept apart with the plans'
// words, and asks of every pair by what it is.
func TestKeptApart(t *testing.T) {
	named, ruled := 0, 0
	for seed := range uint64(400) {
		p := plans.Small(plans.Seeded(seed))
		told := make(map[[2]schedule.TaskID][]schedule.RuleID)
		for pair, rule := range p.KeptApart() {
			of := [2]schedule.TaskID{min(pair[0], pair[1]), max(pair[0], pair[1])}
			told[of] = append(told[of], rule)
		}
		for a := range schedule.TaskID(len(p.Tasks)) {
			for b := range a {
				want := apartByWords(p, a, b)
				if got := told[[2]schedule.TaskID{b, a}]; !slices.Equal(want, got) {
					t.Fatalf("seed %d: %d and %d are kept apart by %v, not %v", seed, b, a, got, want)
				}
				first := schedule.RuleID(schedule.None)
				if len(want) > 0 {
					first = want[0]
				}
				for _, pair := range [][2]schedule.TaskID{{a, b}, {b, a}} {
					if rule, apart := p.ApartBy(pair[0], pair[1]); apart != (len(want) > 0) || rule != first {
						t.Fatalf("seed %d: %v are kept apart (%v) by %d, not %v", seed, pair, apart, rule, want)
					}
				}
				if len(want) > 0 && first == schedule.None {
					named++
				} else if len(want) > 0 {
					ruled++
				}
			}
		}
	}
	if named < 20 || ruled < 20 {
		t.Errorf("%d pairs by name and %d by rule", named, ruled)
	}
}

// TestApartFromTheSame: a stage kept apart from itself parts each two of its tasks, and
// none from itself.
func TestApartFromTheSame(t *testing.T) {
	p := &schedule.Plan{Tasks: make([]schedule.Task, 3), Rules: []schedule.Rule{
		{Kind: schedule.Apart, First: []schedule.StageID{0}, Then: []schedule.StageID{0}, Everywhere: true},
	}}
	var got [][2]schedule.TaskID
	for pair := range p.KeptApart() {
		got = append(got, pair)
	}
	if want := [][2]schedule.TaskID{{0, 1}, {0, 2}, {1, 0}, {1, 2}, {2, 0}, {2, 1}}; !slices.Equal(got, want) {
		t.Errorf("%v are kept apart, not %v", got, want)
	}
}

// TestKeptApartStops takes the first pair of those named and of a rule's, and no more.
func TestKeptApartStops(t *testing.T) {
	for _, p := range []*schedule.Plan{
		{Tasks: []schedule.Task{{}, {Apart: []schedule.TaskID{0}}, {Apart: []schedule.TaskID{0}}}},
		{Tasks: []schedule.Task{{}, {Stage: 1}, {Stage: 1}}, Rules: []schedule.Rule{
			{Kind: schedule.Apart, First: []schedule.StageID{0}, Then: []schedule.StageID{1}, Everywhere: true},
			{Kind: schedule.Apart, First: []schedule.StageID{1}, Then: []schedule.StageID{0}, Everywhere: true},
		}},
	} {
		n := 0
		for range p.KeptApart() {
			n++
			break
		}
		if n != 1 {
			t.Errorf("%d pairs were taken", n)
		}
	}
}

// TestCutsOff: turf at the front cuts off work behind it, by zones crossed in turn, but
// for cleaning, work on boards and what is excused; never itself.
func TestCutsOff(t *testing.T) {
	zones := func(z ...schedule.ZoneID) []schedule.ZoneID { return z }
	p := &schedule.Plan{
		Stages: []string{"turf", "clean", "strike"},
		Zones:  []schedule.Zone{{}, {WayIn: zones(0)}, {WayIn: zones(1)}},
		Tasks: []schedule.Task{
			{Zones: zones(0)}, {Zones: zones(1)}, {Zones: zones(2)}, {Zones: zones(2), Stage: 1}, {Zones: zones(2), Stage: 2},
			{Zones: zones(1), OnBoards: true}, {Zones: zones(2), Excepts: []schedule.Except{{Rule: schedule.WayIn}}},
			{Zones: zones(0, 1)},
		},
	}
	for closer, want := range map[schedule.TaskID][]schedule.TaskID{0: {1, 2, 7}, 1: {2}, 7: {1, 2}, 2: nil} {
		if got := p.CutsOff(closer, p.Behind()); !slices.Equal(want, got) {
			t.Errorf("task %d cuts off %v, not %v", closer, got, want)
		}
	}
}

// TestShare: two activities share a crew, a machine or a zone, whatever else they need.
func TestShare(t *testing.T) {
	crews := func(c ...schedule.CrewID) (out []schedule.CrewNeed) {
		for _, id := range c {
			out = append(out, schedule.CrewNeed{Crew: id, Least: 1 + int(id)})
		}
		return out
	}
	machines := func(m schedule.MachineID) []schedule.MachineNeed { return []schedule.MachineNeed{{Machine: m}} }
	p := &schedule.Plan{Tasks: []schedule.Task{
		{Crew: crews(0, 1), Machines: machines(0), Zones: []schedule.ZoneID{0}},
		{Crew: crews(2, 1), Machines: machines(1), Zones: []schedule.ZoneID{1}},
		{Crew: crews(3), Machines: machines(0), Zones: []schedule.ZoneID{2}},
		{Crew: crews(4), Machines: machines(2), Zones: []schedule.ZoneID{3, 0}},
		{Crew: crews(0)},
	}, Deliveries: []schedule.Delivery{
		{Unload: schedule.Unload{
			Crew: crews(2), Machines: []schedule.MachineNeed{{Machine: 3, Stands: []schedule.ZoneID{2}}},
		}},
	}}
	shares := [][]schedule.Activity{{1, 2, 3, 4}, {0, 5}, {0, 5}, {0}, {0}, {1, 2}}
	for a := range p.Activities() {
		for b := range p.Activities() {
			if want := slices.Contains(shares[a], b); a != b && p.Share(a, b) != want {
				t.Errorf("activities %d and %d share something: %v", a, b, !want)
			}
		}
	}
}
