package tui

import (
	"errors"
	"strings"
	"testing"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/tui/draw"
	"build.example/turflast/tui/gardentest"
)

func TestViews(t *testing.T) {
	b := demo(t)
	b.sees("1 WINDOW", "Hands over", "GATE")
	b.press("2")
	b.sees("2 DAY")
	b.press("tab")
	b.sees("3 DELIVERIES", "wall blocks and sand")
	b.press("tab")
	b.sees("4 PEOPLE", "Ground crew", "● at work")
	b.press("tab")
	b.sees("5 ODDS", "HOW LIKELY IT IS")
	b.press("tab")
	b.sees("1 WINDOW")
	b.press("shift+tab")
	b.sees("5 ODDS")
	b.press("q")
	if !b.quit {
		t.Error("q doesn't quit")
	}
}

func TestChoiceFollowsTheView(t *testing.T) {
	b := demo(t)
	b.press("/", "concrete", "enter", "3")
	if got := b.app().chosen(); got != b.file.plan.Unload(b.file.plan.FindDelivery("concrete")) {
		t.Errorf("the deliveries view chose %v", got)
	}
	b.press("1", "/", "Lay the turf", "enter", "3")
	if got := b.app().chosen(); got != b.file.plan.Unload(b.file.plan.FindDelivery("turf")) {
		t.Errorf("a task's delivery isn't chosen: %v", got)
	}
}

func TestFind(t *testing.T) {
	b := demo(t)
	b.press("/", "lights")
	b.sees("Find: lights▁", "5 found")
	first := b.app().chosen()
	b.press("down")
	if b.app().chosen() == first {
		t.Error("down doesn't go to the next one found")
	}
	b.press("up", "esc")
	if b.app().chosen() != first {
		t.Error("up doesn't go back")
	}
	b.lacks("Find:")
	b.press("/", "q", "?", "enter")
	if b.quit {
		t.Error("q quits while it is typed")
	}
}

func TestFilter(t *testing.T) {
	b := demo(t)
	b.press("f", "joiners")
	b.sees("Show only: joiners▁", "Raise the larch frame")
	b.press("enter")
	b.sees(`Only "joiners"`, "esc shows all")
	b.lacks("Lay the turf")
	b.press("esc")
	b.sees("turf")
	b.lacks(`Only "joiners"`)
	b.press("f", "no such thing at all", "enter")
	b.sees("0 of ")
	for _, view := range []string{"1", "2", "3", "4", "5"} {
		b.press(view, "up", "down", "left", "right", "[", "]", "home", "end", "pgup", "pgdown", "j", "k", "enter", "y", "n")
	}
}

func TestTrialAndUndo(t *testing.T) {
	b := demo(t)
	b.press("/", "concrete", "enter", "3")
	d := b.file.plan.FindDelivery("concrete")
	filed := b.file.plan.Deliveries[d].Arrives
	arrives := func() calendars.Minutes { return calendars.Minutes(b.app().shown.plan.Deliveries[d].Arrives - filed) }
	for _, c := range []struct {
		key  string
		want calendars.Minutes
	}{
		{".", 60}, {".", 120}, {">", 120 + calendars.Day}, {",", 60 + calendars.Day}, {"<", 60},
		{"u", 60 + calendars.Day}, {"u", 120 + calendars.Day}, {"u", 120}, {"u", 60}, {"u", 0},
	} {
		b.press(c.key)
		if got := arrives(); got != c.want {
			t.Fatalf("after %s the lorry is %d min later than filed, want %d", c.key, got, c.want)
		}
		if moved := c.want != 0; moved != strings.Contains(b.model.View(), "the plan file is unchanged") {
			t.Errorf("after %s the frame is wrong about the trial:\n%s", c.key, b.model.View())
		}
	}
	if b.file.plan.Deliveries[d].Arrives != filed {
		t.Error("a trial changed the plan that was loaded")
	}
	b.press("u")
	b.sees("Nothing to take back")
}

func TestTrialThatBreaksIsLoud(t *testing.T) {
	b := demo(t)
	b.press("/", "62 m2", "enter", "3", ">")
	b.sees("! ", "the hand-over", "after the line", "late")
	if !draw.Alarm(b.app().garden) {
		t.Error("no alarm")
	}
	b.press("p")
	b.sees("PROBLEMS", "! ")
	b.press("p", ">")
	b.sees("! The lorry with 62 m2 turf", "10 h 27 late")
}

func TestReload(t *testing.T) {
	b := demo(t)
	b.press("/", "62 m2", "enter", "3", ",")
	changed := *b.file.plan
	changed.Garden = "Another Court"
	b.file.plan, b.file.stamp = &changed, "2"
	b.look()
	b.sees("Another Court", "What if: turf 1h ")

	d := changed.FindDelivery("turf")
	b.file.plan, b.file.stamp = changed.Rebooked(d, changed.Deliveries[d].Arrives+60), "3"
	b.look()
	b.sees("What if: turf 1h earlier") // than the file books it now
	renamed := changed.Rebooked(d, changed.Deliveries[d].Arrives)
	renamed.Deliveries[d].ID, renamed.Deliveries[d].What = "sods", "sods"
	b.file.plan, b.file.stamp = renamed, "4"
	b.look()
	b.sees("Set aside, since the plan is another now: turf 1h earlier: ", "What if: 0 changes, 1 set aside")
}

func TestBrokenFileKeepsTheLastGoodPlan(t *testing.T) {
	b := demo(t)
	good := b.file.plan
	b.file.plan, b.file.stamp = nil, "2"
	b.file.problems = schedule.Problems{{Pos: schedule.Pos{Line: 12, Column: 5},
		Text: "unknown key takse", Hint: "did you mean takes?"}}
	b.look()
	b.sees("The last good plan is shown: plan.yaml:12:5: unknown key takse; did you mean takes?", "GATE")
	b.press("p")
	b.sees("plan.yaml:12:5")
	b.press("esc")
	b.file.plan, b.file.problems, b.file.stamp = good, nil, "3"
	b.look()
	b.lacks("The last good plan")

	b.file.stamp = ""
	next, _ := b.app().statted(statMsg{""})
	b.model = next
	b.sees("plan.yaml is gone")
}

func TestFirstPlanBroken(t *testing.T) {
	b := newBench(t, gardentest.Demo(t), 80, 24)
	b.model = newApp(b.app().opts)
	b.send(tea.WindowSizeMsg{Width: 80, Height: 24})
	b.sees("Reading plan.yaml")
	b.file.plan, b.file.problems = nil, schedule.Problems{{Text: "the file is empty"}}
	b.press("r")
	b.sees("plan.yaml can't be shown", "the file is empty")
	for _, k := range []string{"up", "down", "1", "2", "3", "d", "u", "f", "x", "enter", "/", "y", "esc", "?", "esc"} {
		b.press(k)
	}
}

func TestSolveError(t *testing.T) {
	b := demo(t)
	b.file.fail = errors.New("paving and planting wait for each other")
	b.press("r")
	b.sees("The last good plan is shown", "wait for each other", "GATE")
	b.file.fail = nil
	b.press("r")
	b.lacks("wait for each other")
}

// TestNewestWins holds the solves back: of three trials asked for while the
// first is solved, only the last is solved and shown.
func TestNewestWins(t *testing.T) {
	b := demo(t)
	b.press("/", "62 m2", "enter", "3")
	d, _ := b.file.plan.Delivery(b.app().chosen())
	filed := b.file.plan.Deliveries[d].Arrives
	solves := func(run func()) int {
		before := b.file.solves
		run()
		return b.file.solves - before
	}
	b.hold = true
	for range 3 {
		b.press(",")
	}
	if len(b.held) != 1 {
		t.Fatalf("%d solves begun at once", len(b.held))
	}
	if n := solves(func() { b.send(b.held[0]()) }); n != 1 {
		t.Fatalf("%d solves for the first", n)
	}
	if got := b.app().shown.plan.Deliveries[d].Arrives; got != filed {
		t.Errorf("an old result is shown")
	}
	if n := solves(func() { b.send(b.held[1]()) }); n != 1 {
		t.Fatalf("%d solves for the newest", n)
	}
	if got := b.app().shown.plan.Deliveries[d].Arrives; got != filed.Plus(-180) {
		t.Errorf("the newest isn't shown")
	}
	if len(b.held) != 3 { // the third looks for the crew programme
		t.Fatalf("%d solves in all", len(b.held))
	}
}

// TestHeldKeys sends keys as a terminal does that has read many at once: each
// counts, even while a solve runs.
func TestHeldKeys(t *testing.T) {
	b := demo(t)
	b.press("/", "62 m2", "enter", "3")
	d, _ := b.file.plan.Delivery(b.app().chosen())
	filed := b.file.plan.Deliveries[d].Arrives
	b.send(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("<<<u")})
	if got := b.app().shown.plan.Deliveries[d].Arrives; got != filed.Plus(-2*calendars.Day) {
		t.Errorf("three days earlier and one back is %d", got-filed)
	}
	b.press("u", "u")
	b.send(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("u>>/turf")})
	b.sees("Find: turf▁")
	if got := b.app().shown.plan.Deliveries[d].Arrives; got != filed.Plus(2*calendars.Day) {
		t.Errorf("two days later is %d", got-filed)
	}
	b.send(tea.KeyMsg{Type: tea.KeyEsc})
	b.send(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(">>>"), Paste: true})
	if got := b.app().shown.plan.Deliveries[d].Arrives; got != filed.Plus(2*calendars.Day) {
		t.Error("a paste presses keys")
	}
}

func TestPages(t *testing.T) {
	b := newBench(t, gardentest.Demo(t), 80, 24)
	b.press("?")
	b.sees("KEYS", "Going about")
	for range 8 {
		b.press("pgdown")
	}
	b.sees("the aim")
	b.press("pgup", "up", "?")
	b.sees("1 WINDOW", "GATE")
	b.press("d")
	b.sees("WHAT DRIVES THE DATE")
	b.press("esc", "p")
	b.sees("PROBLEMS")
	b.press("ctrl+c")
	if !b.quit {
		t.Error("ctrl+c doesn't quit")
	}
}

// TestAKeyHasOneMeaning checks that no key does two things, in whatever view, and that
// every key has words for the help.
func TestAKeyHasOneMeaning(t *testing.T) {
	a := newApp(Options{})
	seen := map[string]string{}
	for _, list := range [][]key.Binding{a.keys.list(), a.moves.List(), a.window.Keys(), a.day.Keys(),
		a.ticks.list(), a.tryKeys.Steps(), a.tryKeys.List()} {
		for _, k := range list {
			if k.Help().Desc == "" || k.Help().Key == "" {
				t.Errorf("%q has no words", k.Keys())
			}
			for _, name := range k.Keys() {
				if was := seen[name]; was != "" && was != k.Help().Desc {
					t.Errorf("%q does two things: %s; %s", name, was, k.Help().Desc)
				}
				seen[name] = k.Help().Desc
			}
		}
	}
}
