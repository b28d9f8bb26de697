package whatif_test

import (
	"context"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/whatif"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/verify"
	"build.example/turflast/testdata"
)

var questionsAsked = flag.Int("questions", 24, "ordinary questions asked of each of four plans; 0 for all")

// The built-in garden and three gardens of other shapes: a roof with a crane for two
// mornings, a school yard whose hours and heads are dated, a courtyard for three people.
func gardens(t *testing.T) map[string]*schedule.Plan {
	t.Helper()
	texts := map[string]string{"tidewall": testdata.Demo}
	files, err := filepath.Glob("testdata/*.yaml")
	if err != nil || len(files) != 3 {
		t.Fatal(files, err)
	}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		texts[strings.TrimSuffix(filepath.Base(file), ".yaml")] = string(text)
	}
	out := make(map[string]*schedule.Plan)
	for name, text := range texts {
		p, problems := planfile.Read(strings.NewReader(text))
		if p == nil {
			t.Fatalf("%s: %v", name, problems.Faults())
		}
		out[name] = p
	}
	return out
}

// ordinary lists what people ask of a plan: each lorry later by an hour, a day and
// three; each crew one and two short on each day; each machine out for a day; each
// wet day; each of the longest tasks a quarter longer.
func ordinary(p *schedule.Plan) []string {
	var out []string
	for i := range p.Deliveries {
		for _, by := range []string{"1h", "1d", "3d"} {
			out = append(out, fmt.Sprintf("%s %s later", p.Deliveries[i].ID, by))
		}
	}
	loc := p.Site.Location
	first, last := calendars.DateIn(p.Site.Opens, loc), calendars.DateIn(p.Site.Handover, loc)
	for d := first; d <= last; d++ {
		for i := range p.Crews {
			for _, n := range []int{1, 2} {
				out = append(out, fmt.Sprintf("%s %d fewer on %v", p.Crews[i].ID, n, d))
			}
		}
		for i := range p.Machines {
			out = append(out, fmt.Sprintf("%s away on %v", p.Machines[i].ID, d))
		}
		out = append(out, fmt.Sprintf("wet on %v", d))
	}
	long := make([]int, len(p.Tasks))
	for i := range long {
		long[i] = i
	}
	takes := func(i int) calendars.Minutes { return p.Tasks[i].Effort.Time(1) }
	slices.SortStableFunc(long, func(a, b int) int { return int(takes(b) - takes(a)) })
	for _, i := range long[:min(10, len(long))] {
		by := calendars.FormatWait(max(takes(i)/4, 1))
		out = append(out, fmt.Sprintf("%s %s longer", p.Tasks[i].ID, strings.ReplaceAll(by, " ", "")))
	}
	return out
}

// Every ordinary question has an answer: all work has a place, the programme passes
// its check, it is no worse than keeping the order of hands, and no date breaks that
// would hold in that order, save where the hand-over's lateness falls by it, or that
// of tasks at their own dates, which counts before keeps and the gate.
func TestOrdinaryQuestions(t *testing.T) {
	for name, p := range gardens(t) {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			before := programme(t, p, nil)
			asked := ordinary(p)
			step := 1
			if *questionsAsked > 0 {
				step = max(len(asked) / *questionsAsked, 1)
			}
			answers := 0
			for k := 0; k < len(asked); k += step {
				q, err := whatif.Apply(p, changes(t, asked[k]))
				if schedule.AsChangeFault(err) != nil {
					continue // the change can't be: a crew of one is never two short, or there is nobody that day
				} else if err != nil {
					t.Fatal(err)
				}
				answers++
				checkAnswer(t, asked[k], before, q)
			}
			if answers < min(*questionsAsked, len(asked))/2 {
				t.Errorf("only %d of %d questions could be asked", answers, len(asked))
			}
			t.Logf("%d questions answered", answers)
		})
	}
}

func programme(t *testing.T, p *schedule.Plan, reference *schedule.Programme) network.Case {
	t.Helper()
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	c := s.Crews(context.Background(), solve.Options{Reference: reference})
	if found := verify.Check(p, c.Programme, schedule.Crews); len(found.Rules) > 0 {
		t.Fatalf("%v", found.Rules)
	}
	return c
}

// checkAnswer compares the answer to a question with the programme in which nobody
// changes the order of hands, where that has a place for all work.
func checkAnswer(t *testing.T, question string, before network.Case, q *schedule.Plan) {
	t.Helper()
	reference := whatif.Reference(before, q)
	after := programme(t, q, reference)
	g := after.Programme
	if g.Blocked != nil {
		t.Errorf("%q: some work has no place: %+v", question, g.Blocked)
		return
	}
	s, err := solve.New(q)
	if err != nil {
		t.Fatal(err)
	}
	kept := s.Ordered(reference).Programme
	if kept.Blocked != nil {
		return // some work has no place in that order, which is worse than any lateness
	}
	late := lateness(q, g) - lateness(q, kept)
	if late > 0 {
		t.Errorf("%q: %d minutes later than in the order of hands as it is", question, late)
	}
	sooner := ownLateness(g) < ownLateness(kept)
	for _, b := range g.Breaks {
		if b.Kind == schedule.BreakHandover || late < 0 || b.Kind != schedule.BreakBy && sooner {
			continue
		}
		if !slices.ContainsFunc(kept.Breaks, func(k schedule.Break) bool {
			return k.Kind == b.Kind && k.Activity == b.Activity && k.Stock == b.Stock
		}) {
			t.Errorf("%q: %s breaks a date (kind %d) that holds in the order of hands as it is", question,
				q.ActivityName(b.Activity), b.Kind)
		}
	}
}

// lateness is how long after the hand-over the last required activity is done.
func lateness(p *schedule.Plan, g *schedule.Programme) calendars.Minutes {
	late := calendars.Minutes(0)
	for _, b := range g.Breaks {
		if b.Kind == schedule.BreakHandover {
			late = max(late, calendars.Minutes(b.Actual-p.Site.Handover))
		}
	}
	return late
}

// ownLateness is how late tasks are at their own dates, all together, on the clock.
func ownLateness(g *schedule.Programme) (late calendars.Minutes) {
	for _, b := range g.Breaks {
		if b.Kind == schedule.BreakBy {
			late += calendars.Minutes(b.Actual - b.Limit)
		}
	}
	return late
}
