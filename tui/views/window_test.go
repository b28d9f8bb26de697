package views_test

import (
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/schedule"
	"build.example/turflast/tui/draw"
	"build.example/turflast/tui/gardentest"
	"build.example/turflast/tui/views"
)

var keys = map[string]tea.KeyMsg{
	"up": {Type: tea.KeyUp}, "down": {Type: tea.KeyDown}, "left": {Type: tea.KeyLeft}, "right": {Type: tea.KeyRight},
	"home": {Type: tea.KeyHome}, "end": {Type: tea.KeyEnd},
	"pgup": {Type: tea.KeyPgUp}, "pgdown": {Type: tea.KeyPgDown},
}

func pressWindow(m views.Window, names ...string) views.Window {
	for _, n := range names {
		k, ok := keys[n]
		if !ok {
			k = tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(n)}
		}
		m, _ = m.Update(k)
	}
	return m
}

func TestWindowKeys(t *testing.T) {
	g := gardentest.Solve(t, gardentest.Demo(t))
	task := func(id string) schedule.Activity { return g.Plan.FindTask(id).Activity() }
	start := views.NewWindow().SetSize(draw.Size{Width: 120, Height: 40}).SetGarden(g)
	for _, c := range []struct {
		from schedule.Activity
		keys []string
		want schedule.Activity
	}{
		{task("lay-turf"), []string{"end"}, task("snag-walk")},
		{task("lay-turf"), []string{"home"}, task("cut-frame")},
		{task("cut-frame"), []string{"pgdown", "pgdown", "pgdown", "pgup", "pgup", "pgup", "home"}, task("cut-frame")},
		{task("cut-frame"), []string{"up", "left"}, task("cut-frame")},
		{task("roof"), []string{"Z", "+", "+", "+", "+", "-", "Z", "z"}, task("roof")},
		{schedule.Nothing, nil, schedule.Nothing},
		{schedule.Nothing, []string{"down"}, task("snag-walk")},
		{schedule.Nothing, []string{"left", "right"}, task("snag-walk")},
	} {
		if got := pressWindow(start.Choose(c.from), c.keys...).Chosen(); got != c.want {
			t.Errorf("%v from %d lead to %d, want %d", c.keys, c.from, got, c.want)
		}
	}
}

func TestWindowBeforeAnythingIsKnown(t *testing.T) {
	m := pressWindow(views.NewWindow(), "up", "Z", "pgdown", "end")
	if m = m.SetSize(draw.Size{Width: 80, Height: 24}); m.View(draw.Chrome{}, draw.Theme{}) == "" {
		t.Error("no frame")
	}
}

// TestNothingIsChosenAgain goes back to where the view began.
func TestNothingIsChosenAgain(t *testing.T) {
	g := gardentest.Solve(t, gardentest.Demo(t))
	m := views.NewWindow().SetSize(draw.Size{Width: 120, Height: 40}).SetGarden(g)
	first := m.View(draw.Chrome{}, draw.Theme{})
	m = pressWindow(m, "down").Unchoose()
	if m.Chosen() != schedule.Nothing || m.View(draw.Chrome{}, draw.Theme{}) != first {
		t.Errorf("%d is chosen still", m.Chosen())
	}
}

// TestFilterMovesTheChoice hides what is chosen.
func TestFilterMovesTheChoice(t *testing.T) {
	g := gardentest.Solve(t, gardentest.Demo(t))
	m := views.NewWindow().SetSize(draw.Size{Width: 120, Height: 40}).SetGarden(g)
	m = m.Choose(g.Plan.FindTask("snag-walk").Activity())
	few := *g
	few.Only = make([]bool, g.Plan.Activities())
	roof := g.Plan.FindTask("roof")
	few.Only[roof] = true
	if got := m.SetGarden(&few).Chosen(); got != roof.Activity() {
		t.Errorf("%v is chosen", got)
	}
	few.Only = make([]bool, g.Plan.Activities())
	if got := pressWindow(m.SetGarden(&few), "down", "pgup", "end", "+").Chosen(); got != schedule.Nothing {
		t.Errorf("%v is chosen of nothing", got)
	}
}

// TestNothingChosen leaves nothing chosen by key until another key chooses; a new
// programme chooses nothing by itself.
func TestNothingChosen(t *testing.T) {
	g := gardentest.Solve(t, gardentest.Demo(t))
	m := views.NewWindow().SetSize(draw.Size{Width: 120, Height: 40}).SetGarden(g).Unchoose()
	if got := m.SetGarden(g).SetSize(draw.Size{Width: 80, Height: 24}).Chosen(); got != schedule.Nothing {
		t.Errorf("%v is chosen", got)
	}
	if m.View(draw.Chrome{}, draw.Theme{}) == "" {
		t.Error("no frame")
	}
	if got := pressWindow(m, "down").Chosen(); got == schedule.Nothing {
		t.Error("an arrow chooses nothing")
	}
}

// TestKeysSayWhetherTheyDid holds what a key says against what it did.
func TestKeysSayWhetherTheyDid(t *testing.T) {
	g := gardentest.Solve(t, gardentest.Demo(t))
	m := views.NewWindow().SetSize(draw.Size{Width: 120, Height: 40}).SetGarden(g)
	for _, c := range []struct {
		key  tea.KeyMsg
		want bool
	}{
		{keys["home"], true}, {keys["home"], false}, {keys["up"], false}, {rune1('-'), false}, {rune1('+'), true},
		{rune1('-'), true}, {rune1('Z'), true}, {rune1('z'), false}, {rune1('j'), true},
	} {
		next, did := m.Update(c.key)
		if did != c.want {
			t.Errorf("%s says %v", c.key, did)
		}
		m = next
	}
}
