package said_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/said"
	"build.example/turflast/testdata"
)

// gardens are the plans that come with the program, on the second day of each.
func gardens(t *testing.T) map[string]*said.Garden {
	t.Helper()
	out := make(map[string]*said.Garden)
	for name, text := range map[string]string{"built-in": testdata.Demo, "starter": testdata.Starter} {
		p, problems := planfile.Read(strings.NewReader(text))
		if problems.Fatal() {
			t.Fatal(name, problems)
		}
		out[name] = at(p, p.Site.Opens.In(p.Site.Location).Add(26*time.Hour))
	}
	return out
}

// Everything is known by its id, its name in any case and its number, whatever else has
// these words in its name.
func TestEveryName(t *testing.T) {
	for garden, g := range gardens(t) {
		p := g.Plan
		for a := range p.Activities() {
			for _, text := range []string{p.ActivityID(a), p.ActivityName(a), strings.ToUpper(p.ActivityName(a)),
				fmt.Sprint(a + 1)} {
				var got []schedule.Activity
				var err error
				if _, task := p.Task(a); task {
					var list []schedule.TaskID
					list, err = g.Tasks(text)
					for _, id := range list {
						got = append(got, id.Activity())
					}
				} else {
					got, err = g.Activities(text)
				}
				if err != nil || len(got) != 1 || got[0] != a {
					t.Errorf("%s: %q is %v, %v", garden, text, got, err)
				}
			}
		}
		for i := range p.Crews {
			for _, text := range []string{p.Crews[i].ID, p.Crews[i].Name} {
				if id, err := g.Crew(text); err != nil || int(id) != i {
					t.Errorf("%s: %q is %v, %v", garden, text, id, err)
				}
			}
		}
	}
}

// Examples that errors show are understood in the garden that they are shown for.
func TestExamples(t *testing.T) {
	for garden, g := range gardens(t) {
		if _, err := g.Changes(g.ChangeExample()); err != nil {
			t.Errorf("%s: %v", garden, err)
		}
		if _, err := g.Ticks(g.TickExample()); err != nil {
			t.Errorf("%s: %v", garden, err)
		}
		if _, err := g.Question(g.QuestionExample()); err != nil {
			t.Errorf("%s: %v", garden, err)
		}
	}
}

// A number that may stand for another is asked back with the name, alone and in a row; the
// name itself is understood.
func TestUnsureNumbers(t *testing.T) {
	for garden, g := range gardens(t) {
		g.Unsure = func(n int) bool { return n == 2 }
		for _, text := range []string{"finish 2", "finish 1 2", "finish 1, 2 and 3", "2 done"} {
			_, err := g.Ticks(text)
			name := g.Plan.ActivityName(g.Number(2))
			if err == nil || !strings.Contains(err.Error(), "2 may be "+name) {
				t.Errorf("%s: %s: %v", garden, text, err)
			}
		}
		if _, err := g.Ticks("finish " + g.Plan.ActivityID(g.Number(2))); err != nil {
			t.Errorf("%s: %v", garden, err)
		}
		if list, err := g.Ticks("finish 1-3"); err == nil { // it may be a time too
			t.Errorf("%s: %v", garden, list)
		}
		if _, err := g.Ticks("finish 1"); err != nil {
			t.Errorf("%s: %v", garden, err)
		}
	}
}
