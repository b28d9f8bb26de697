package hostile_test

import (
	"strconv"
	"strings"
	"testing"

	"build.example/turflast/schedule/internal/hostile"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/testdata"
)

// A plan file may hold every name, so that whoever writes plans out must take it.
func TestPlanFilesMayHoldThem(t *testing.T) {
	for _, name := range hostile.Names {
		text := strings.Replace(testdata.Demo, "garden: Tidewall Court", "garden: "+strconv.Quote(name), 1)
		p, problems := planfile.Read(strings.NewReader(text))
		if problems.Fatal() || p.Garden != name {
			t.Errorf("%q is no name of a garden: %v", name, problems)
		}
	}
}

func TestPlanChangesACopy(t *testing.T) {
	of, _ := planfile.Read(strings.NewReader(testdata.Demo))
	p, written := hostile.Plan(of)
	if of.Garden != "Tidewall Court" || of.Tasks[0].Name == p.Tasks[0].Name || of.Zones[0].Name == p.Zones[0].Name {
		t.Error("the plan itself is changed")
	}
	seen := map[string]bool{}
	for _, w := range written {
		if seen[w] {
			t.Errorf("%q is written twice", w)
		}
		seen[w] = true
	}
	for i := range of.Tasks {
		hold := of.Tasks[i].Hold
		if !seen[p.Tasks[i].Name] || hold != nil && (!seen[p.Tasks[i].Hold.What] || seen[hold.What]) {
			t.Errorf("task %q keeps a text", of.Tasks[i].ID)
		}
	}
}
