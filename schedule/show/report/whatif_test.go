package report_test

import (
	"bytes"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/whatif"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/report"
	"build.example/turflast/testdata"
)

// tried is what changes do to the logic programme of a plan.
func tried(t interface{ Fatal(...any) }, s *solve.Solver, set schedule.WhatIf, texts ...string) *report.WhatIf {
	for _, text := range texts {
		c, err := planfile.ParseChange(text)
		if err != nil {
			t.Fatal(err)
		}
		set.Changes = append(set.Changes, c)
	}
	q, err := whatif.Apply(s.Plan(), set.Changes)
	if err != nil {
		t.Fatal(err)
	}
	changed, err := solve.New(q)
	if err != nil {
		t.Fatal(err)
	}
	return report.NewWhatIf(&set, whatif.Compare(s.Logic(), changed.Logic()))
}

func TestWhatIfsFit80Columns(t *testing.T) {
	long := strings.Repeat("Überlänge", 12)
	for name, plan := range map[string]string{
		"demo": testdata.Demo,
		"long names": strings.NewReplacer("Lay the turf", long,
			"15 m2 slate and copings", strings.Repeat("庭", 60)).Replace(testdata.Demo),
	} {
		s := solved(t, plan)
		var list []*report.WhatIf
		for _, texts := range [][]string{
			{"slate 2d later"}, {"slate 12d later"},
			{"drop pots", "wet on 2027-05-04", "site open 2027-05-06 to 20:00"}, {"lights-test 1h longer"},
		} {
			x := tried(t, s, schedule.WhatIf{Name: strings.Repeat("a name of some length ", 4), Note: long}, texts...)
			var b bytes.Buffer
			if err := x.Page().Write(&b, page.Wide); err != nil {
				t.Fatal(err)
			}
			if wrong := checkPage(b.String()); wrong != "" {
				t.Errorf("%s, %v: %s", name, texts, wrong)
			}
			list = append(list, x)
		}
		var b bytes.Buffer
		if err := report.Compare(list).Write(&b, page.Wide); err != nil {
			t.Fatal(err)
		}
		if wrong := checkPage(b.String()); wrong != "" {
			t.Errorf("%s, compared: %s", name, wrong)
		}
	}
}

// Every task that moves and every delivery has its line. Optional work may be left out.
func TestWhatIfsOfRandomPlans(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := plans.Small(plans.Drawn(t))
		s, err := solve.New(p)
		if err != nil {
			t.Fatal(err)
		}
		x := tried(t, s, schedule.WhatIf{}, p.Tasks[0].ID+" 7h longer")
		var b bytes.Buffer
		if err := x.Page().Write(&b, page.Wide); err != nil {
			t.Fatal(err)
		}
		page := b.String()
		if wrong := checkPage(page); wrong != "" {
			t.Fatal(wrong)
		}
		if s.Logic().Programme.Blocked == nil && !p.Tasks[0].Optional && !strings.Contains(page, "\n"+p.Tasks[0].Name) {
			t.Fatalf("no line for %s in\n%s", p.Tasks[0].Name, page)
		}
		for i := range p.Deliveries {
			if !strings.Contains(page, "\n▼ "+p.Deliveries[i].What) && !strings.Contains(page, "\n▲ "+p.Deliveries[i].What) {
				t.Fatalf("no line for %s in\n%s", p.Deliveries[i].What, page)
			}
		}
	})
}

// A what-if can have every key that is documented, and what it has conforms.
func TestWhatIfJSONIsAsDocumented(t *testing.T) {
	x := tried(t, solved(t, testdata.Demo), schedule.WhatIf{Name: "a", Note: "b"}, "snag-walk 20h longer")
	seen := make(map[string]bool)
	o := conforms(t, seen, x.JSON).(map[string]any)
	if o["after"].(map[string]any)["met"] != false || len(o["broken"].([]any)) == 0 || len(o["moved"].([]any)) == 0 {
		t.Errorf("a snag walk of two days breaks nothing: %v", o)
	}
	for _, key := range []string{"name", "note", "changes", "before", "broken", "still_broken", "mended", "deliveries"} {
		if !seen["whatIf."+key] {
			t.Errorf("%s isn't written", key)
		}
	}
}
