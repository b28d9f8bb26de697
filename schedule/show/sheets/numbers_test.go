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
		agreed []sheets.Agreed
		want   map[int]string
	}{
		{"the plan's order, lorries last", plan([]string{"b", "a"}, []string{"a"}), nil,
			map[int]string{1: "b", 2: "a", 3: "lorry a"}},
		{"what is new follows what was agreed", plan([]string{"new", "b", "a"}, []string{"l"}),
			[]sheets.Agreed{{Tasks: []string{"b", "a"}, Deliveries: []string{"l"}}},
			map[int]string{1: "b", 2: "a", 3: "lorry l", 4: "new"}},
		{"what has gone leaves a gap", plan([]string{"b"}, nil),
			[]sheets.Agreed{{Tasks: []string{"a", "b"}, Deliveries: []string{"l"}}, {Tasks: []string{"b"}}},
			map[int]string{2: "b"}},
		{"the first baseline that has it counts", plan([]string{"c", "b", "a"}, nil),
			[]sheets.Agreed{{Tasks: []string{"a"}}, {Tasks: []string{"c", "b", "a"}}},
			map[int]string{1: "a", 2: "c", 3: "b"}},
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
		agreed := sheets.Agreed{Tasks: ids.Draw(t, "tasks"), Deliveries: ids.Draw(t, "deliveries")}
		before := plan(agreed.Tasks, agreed.Deliveries)
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
