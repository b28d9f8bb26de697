package planfile_test

import (
	"strings"
	"testing"
	"unicode/utf8"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/planfile"
)

// FuzzRead reads any bytes without a panic; places lie in the text, in order,
// and there is a plan exactly when no problem is fatal.
func FuzzRead(f *testing.F) {
	f.Add(garden(f))
	f.Add(baseText)
	for _, c := range badCases(f) {
		f.Add(c.text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		p, problems := planfile.Read(strings.NewReader(text))
		if (p == nil) != problems.Fatal() {
			t.Fatalf("plan %v with problems %v", p != nil, problems)
		}
		checkProblems(t, text, problems)
		if p != nil {
			checkPlan(t, p)
		}
	})
}

func checkProblems(t *testing.T, text string, problems schedule.Problems) {
	lines := strings.Split(text, "\n")
	last := schedule.Pos{}
	for _, p := range problems {
		if p.Pos.Line < 1 || p.Pos.Line > len(lines) {
			t.Fatalf("%v lies outside the text", p)
		}
		line := strings.TrimPrefix(lines[p.Pos.Line-1], "\uFEFF")
		if p.Pos.Column < 1 || p.Pos.Column > utf8.RuneCountInString(line)+1 {
			t.Fatalf("%v lies outside its line", p)
		}
		if p.Pos.Line < last.Line || p.Pos.Line == last.Line && p.Pos.Column < last.Column {
			t.Fatalf("%v stands behind a later place", p)
		}
		last = p.Pos
		if !utf8.ValidString(p.Text) || strings.ContainsAny(p.Text+p.Hint, "\n\x1b\u202e") || p.Text == "" {
			t.Fatalf("%q can't be shown", p.Text)
		}
	}
}

// checkPlan checks what holds of every plan that is read.
func checkPlan(t *testing.T, p *schedule.Plan) {
	if p.Site.Location == nil || p.Site.Opens >= p.Site.Handover || len(p.Tasks) == 0 {
		t.Fatalf("no window, or no task: %+v", p.Site)
	}
	for i := range p.Tasks {
		task := &p.Tasks[i]
		if len(task.Zones) == 0 || task.Effort.Takes < 0 ||
			task.Effort.Shared() && (task.Effort.Den < 1 || len(task.Crew) == 0) {
			t.Fatalf("task %+v", task)
		}
		for _, n := range task.Crew {
			if n.Least < 1 || n.Most < n.Least || int(n.Crew) >= len(p.Crews) {
				t.Fatalf("task %s needs %+v", task.ID, n)
			}
		}
		for _, l := range task.After {
			if int(l.From) >= len(p.Tasks) || int(l.From) == i {
				t.Fatalf("task %s follows %+v", task.ID, l)
			}
		}
		if p.FindTask(task.ID) != schedule.TaskID(i) || p.FindDelivery(task.ID) != schedule.None {
			t.Fatalf("the id %q is not the task's alone", task.ID)
		}
	}
	for i := range p.Deliveries {
		if p.Deliveries[i].Unload.Takes < 1 || !p.Deliveries[i].Arrives.IsReal() {
			t.Fatalf("delivery %+v", p.Deliveries[i])
		}
	}
	p.Behind() // ends: the ways in have no ring
}

// FuzzRule reads any text as a rule without a panic; offsets lie in the text,
// and what is read without fault says the same when it is read again.
func FuzzRule(f *testing.F) {
	for _, text := range []string{
		"structure before cladding", "[trees, planting, mulch] before turf, everywhere", "paving before planting, after 12h",
		"paving apart from planting", "[a, b before c", "a before [b,",
		"soil before planting, after", "木 before 木, after 1d, everywhere",
	} {
		f.Add(text)
	}
	stages := append(schedule.BuiltInStages(), "a", "b", "木")
	f.Fuzz(func(t *testing.T, text string) {
		rule, faults := planfile.ParseRule(text, stages)
		for _, fault := range faults {
			if fault.Offset < 0 || fault.Offset > utf8.RuneCountInString(text) || fault.Text == "" {
				t.Fatalf("%+v in %q", fault, text)
			}
		}
		if len(faults) > 0 {
			return
		}
		if len(rule.First) == 0 || len(rule.Then) == 0 || rule.Kind == schedule.Apart && rule.HasAfter {
			t.Fatalf("%q became %+v", text, rule)
		}
		again, faults := planfile.ParseRule(rule.Text, stages)
		if len(faults) > 0 || diffRules(rule, again) {
			t.Fatalf("%q became %+v, then %+v %v", text, rule, again, faults)
		}
	})
}

func diffRules(a, b schedule.Rule) bool {
	return diffPlans(&schedule.Plan{Rules: []schedule.Rule{a}, Site: utc},
		&schedule.Plan{Rules: []schedule.Rule{b}, Site: utc}) != ""
}
