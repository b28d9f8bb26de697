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
}

func pressWindow(m views.Window, names ...string) views.Window {
	for _, n := range names {
		k, ok := keys[n]
		if !ok {
			k = tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(n)}
		}
		m = m.Update(k)
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
		{task("gravel"), []string{"["}, task("lift-front")},
		{task("lift-front"), []string{"]"}, task("gravel")},
		{task("cut-frame"), []string{"up", "left"}, task("cut-frame")},
		{task("cut-frame"), []string{"]"}, task("dry-run")},
		{task("roof"), []string{"n", "+", "+", "+", "+", "-", "n", "z"}, task("roof")},
		{schedule.Nothing, nil, task("snag-walk")},
	} {
		if got := pressWindow(start.Choose(c.from), c.keys...).Chosen(); got != c.want {
			t.Errorf("%v from %s lead to %s, want %s", c.keys, g.Name(c.from), g.Name(got), g.Name(c.want))
		}
	}
}

func TestWindowBeforeAnythingIsKnown(t *testing.T) {
	m := pressWindow(views.NewWindow(), "up", "n", "[", "end")
	if m = m.SetSize(draw.Size{Width: 80, Height: 24}); m.View(draw.Chrome{}, draw.Theme{}) == "" {
		t.Error("no frame")
	}
}

// TestFilterMovesTheChoice hides what is chosen.
func TestFilterMovesTheChoice(t *testing.T) {
	g := gardentest.Solve(t, gardentest.Demo(t))
	m := views.NewWindow().SetSize(draw.Size{Width: 120, Height: 40}).SetGarden(g)
	few := *g
	few.Only = make([]bool, g.Plan.Activities())
	roof := g.Plan.FindTask("roof")
	few.Only[roof] = true
	if got := m.SetGarden(&few).Chosen(); got != roof.Activity() {
		t.Errorf("%v is chosen", got)
	}
	few.Only = make([]bool, g.Plan.Activities())
	if got := pressWindow(m.SetGarden(&few), "down", "[", "end", "+").Chosen(); got != schedule.Nothing {
		t.Errorf("%v is chosen of nothing", got)
	}
}
