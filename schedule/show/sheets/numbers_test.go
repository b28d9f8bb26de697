package sheets_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/sheets"
)

// plan is a plan with nothing but ids.
func plan(tasks, deliveries []string) *schedule.Plan {
	p := &schedule.Plan{}
	for _, id := range tasks {
		p.Tasks = append(p.Tasks, schedule.Task{ID: id})
	}
	for _, id := range deliveries {
		p.Deliveries = append(p.Deliveries, schedule.Delivery{ID: id})
	}
	return p
}

// numbered maps numbers to ids, as Find gives them.
func numbered(p *schedule.Plan, n *sheets.Numbers) map[int]string {
	out := make(map[int]string)
	for i := -1; i <= n.Most()+1; i++ {
		a := n.Find(i)
		if t, ok := p.Task(a); ok {
			out[i] = p.Tasks[t].ID
		} else if d, ok := p.Delivery(a); ok {
			out[i] = "lorry " + p.Deliveries[d].ID
		}
	}
	return out
}

func TestNumber(t *testing.T) {
	for _, c := range []struct {
		name   string
		plan   *schedule.Plan
		agreed []sheets.Record
		want   map[int]string
	}{
		{"the plan's order, lorries last", plan([]string{"b", "a"}, []string{"a"}), nil,
			map[int]string{1: "b", 2: "a", 3: "lorry a"}},
		{"what is new follows what was agreed", plan([]string{"new", "b", "a"}, []string{"l"}),
			[]sheets.Record{sheets.InOrder([]string{"b", "a"}, []string{"l"})},
			map[int]string{1: "b", 2: "a", 3: "lorry l", 4: "new"}},
		{"what has gone leaves a gap", plan([]string{"b"}, nil),
			[]sheets.Record{sheets.InOrder([]string{"a", "b"}, []string{"l"}), sheets.InOrder([]string{"b"}, nil)},
			map[int]string{2: "b"}},
		{"the first baseline that has it counts", plan([]string{"c", "b", "a"}, nil),
			[]sheets.Record{sheets.InOrder([]string{"a"}, nil), sheets.InOrder([]string{"c", "b", "a"}, nil)},
			map[int]string{1: "a", 2: "c", 3: "b"}},
		{"what is written down holds, and what is agreed fits in", plan([]string{"c", "b", "a"}, []string{"l"}),
			[]sheets.Record{sheets.InOrder([]string{"c"}, nil), {{"a", false, 1}, {"gone", false, 2}, {"l", true, 3}}},
			map[int]string{1: "a", 3: "lorry l", 4: "c", 5: "b"}},
		{"of two that wrote the same number down the older holds", plan([]string{"a", "b"}, nil),
			[]sheets.Record{{{"a", false, 1}}, {{"b", false, 1}, {"a", false, 2}}},
			map[int]string{1: "a", 2: "a", 3: "b"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			if diff := cmp.Diff(c.want, numbered(c.plan, sheets.Number(c.plan, c.agreed...))); diff != "" {
				t.Error(diff)
			}
		})
	}
}

// A plan that changes after it was agreed renumbers nothing that was agreed.
func TestNumbersStay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ids := rapid.SliceOfDistinct(rapid.SampledFrom([]string{"a", "b", "c", "d", "e", "f"}), rapid.ID[string])
		before := plan(ids.Draw(t, "tasks"), ids.Draw(t, "deliveries"))
		agreed := sheets.RecordOf(before)
		after := plan(ids.Draw(t, "tasks after"), ids.Draw(t, "deliveries after"))
		was, now := sheets.Number(before), sheets.Number(after, agreed)
		names, then := numbered(before, was), numbered(after, now)
		for number, id := range then {
			if number <= was.Most() && names[number] != id {
				t.Fatalf("%d was %q, now %q", number, names[number], id)
			}
		}
		if len(then) != len(after.Tasks)+len(after.Deliveries) {
			t.Fatalf("%d of %d things have numbers", len(then), len(after.Tasks)+len(after.Deliveries))
		}
		for a := range after.Activities() {
			if got := now.Find(now.Of(a)); got != a {
				t.Fatalf("the number of activity %d finds %d", a, got)
			}
		}
	})
}

// However a plan is changed, with issues and baselines in between, a number that was ever
// printed with an issue finds the same thing for good, and none is given twice.
func TestNumbersAreForGood(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		names := []string{"a", "b", "c", "d", "e", "f", "g"}
		pick := rapid.SliceOfDistinct(rapid.SampledFrom(names), rapid.ID[string])
		var records []sheets.Record
		issued := make(map[int]string) // by number
		for range rapid.IntRange(1, 12).Draw(t, "edits") {
			p := plan(pick.Draw(t, "tasks"), pick.Draw(t, "deliveries")) // any order, any gone, any back
			n := sheets.Number(p, records...)
			seen := make(map[int]bool)
			for a := range p.Activities() {
				if seen[n.Of(a)] || n.Of(a) < 1 || n.Find(n.Of(a)) != a {
					t.Fatalf("the number of activity %d is %d", a, n.Of(a))
				}
				seen[n.Of(a)] = true
			}
			now := numbered(p, n)
			for number, id := range issued {
				if there, ok := now[number]; ok && there != id {
					t.Fatalf("%d was issued for %s, and is %s", number, id, there)
				}
				if !n.Sure(number) {
					t.Fatalf("%d was issued, and isn't sure", number)
				}
			}
			for number, id := range now {
				if was, ok := issued[number]; (!ok || was != id) && len(records) > 0 &&
					n.Sure(number) && !held(records, p, n, number) {
					t.Fatalf("%d of %s is sure, and was in no record", number, id)
				}
			}
			switch rapid.IntRange(0, 2).Draw(t, "then") {
			case 1:
				records = append(records, n.Given())
				for number, id := range now {
					issued[number] = id
				}
			case 2: // what is agreed has its numbers too
				records = append(records, sheets.RecordOf(p))
				for number, id := range now {
					issued[number] = id
				}
			}
		}
	})
}

// held says whether what has a number is in a record.
func held(records []sheets.Record, p *schedule.Plan, n *sheets.Numbers, number int) bool {
	a := n.Find(number)
	_, lorry := p.Delivery(a)
	for _, r := range records {
		for _, x := range r {
			if x.ID == p.ActivityID(a) && x.Delivery == lorry {
				return true
			}
		}
	}
	return false
}

// A number that is written down for two things, on two machines, is never sure.
func TestContestedNumbers(t *testing.T) {
	p := plan([]string{"a", "b"}, nil)
	n := sheets.Number(p, sheets.Record{{"a", false, 1}}, sheets.Record{{"b", false, 1}})
	if n.Sure(1) || !n.Sure(2) || n.Sure(3) {
		t.Errorf("sure of 1: %v, of 2: %v, of 3: %v", n.Sure(1), n.Sure(2), n.Sure(3))
	}
	if !sheets.Number(p).Sure(1) {
		t.Error("without any record nobody can tell, and it isn't taken")
	}
}
