package draw_test

import (
	"testing"

	"build.example/turflast/schedule"
	"build.example/turflast/tui/draw"
	"build.example/turflast/tui/gardentest"
)

// TestEverythingCanBeReached walks with the four arrows from the first activity
// to all others.
func TestEverythingCanBeReached(t *testing.T) {
	g := gardentest.Solve(t, gardentest.Demo(t))
	for _, s := range sizes {
		sheet := draw.NewSheet(g, s, draw.Scale{})
		seen := map[schedule.Activity]bool{sheet.First(): true}
		for todo := []schedule.Activity{sheet.First()}; len(todo) > 0; todo = todo[1:] {
			for _, next := range []schedule.Activity{sheet.Down(todo[0], 1),
				sheet.Down(todo[0], -1), sheet.Across(todo[0], 1), sheet.Across(todo[0], -1)} {
				if !seen[next] {
					seen[next] = true
					todo = append(todo, next)
				}
			}
		}
		if want := len(g.Plan.Tasks) + len(g.Plan.Deliveries); len(seen) != want {
			t.Errorf("at %v the arrows reach %d activities of %d", s, len(seen), want)
		}
	}
}

// TestCauseLeadsToTheChainsStart goes from the last finish to what it waits
// for, step by step, and reaches the first step of the chain.
func TestCauseLeadsToTheChainsStart(t *testing.T) {
	g := gardentest.Solve(t, gardentest.Driven(t))
	sheet := draw.NewSheet(g, sizes[1], draw.Scale{})
	at := sheet.First()
	for range g.Plan.Tasks {
		at = sheet.Cause(at)
	}
	if want := g.Programme.Chain[0].Activity; at != want {
		t.Errorf("the causes lead to %s, the chain begins with %s", g.Name(at), g.Name(want))
	}
	for range g.Plan.Tasks {
		at = sheet.Effect(at)
	}
	if at != sheet.First() {
		t.Errorf("the effects lead to %s", g.Name(at))
	}
}

// TestShiftsCoverTheWork checks that every worked minute of every crew's task
// is on some day's list.
func TestShiftsCoverTheWork(t *testing.T) {
	g := gardentest.Solve(t, gardentest.Demo(t))
	listed := map[schedule.TaskID]bool{}
	from, to := g.Days()
	for day := from; day <= to; day++ {
		for _, s := range g.Shifts(draw.DayLook{Date: day, Crew: draw.Everyone}) {
			if task, ok := g.Plan.Task(s.Activity); ok {
				listed[task] = true
				if d := g.Programme.Tasks[task]; s.Span.Start < d.Start || s.Span.End > d.Finish || g.Date(s.Span.Start) != day {
					t.Errorf("%s is listed on %v from %d to %d", g.Name(s.Activity), day, s.Span.Start, s.Span.End)
				}
			}
		}
	}
	if len(listed) != len(g.Plan.Tasks) {
		t.Errorf("%d of %d tasks are on a day's list", len(listed), len(g.Plan.Tasks))
	}
}
