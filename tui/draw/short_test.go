package draw_test

import (
	"strings"
	"testing"

	"build.example/turflast/schedule"
	"build.example/turflast/tui/draw"
	"build.example/turflast/tui/gardentest"
)

// TestShortNames draws a garden whose names fit on a large screen alone: on a small one
// the short names of the plan stand in for them, and where the plan has none the name is
// cut, or the id stands there.
func TestShortNames(t *testing.T) {
	p := gardentest.Demo(t)
	const long, short = "Set the copings all along the wall, and the cascade lip with them", "copings"
	coping, turf := p.FindTask("wall-coping"), p.FindTask("lay-turf")
	p.Tasks[coping].Name, p.Tasks[coping].Short = long, short
	p.Tasks[turf].Name = "Lay the turf from the steps on, and work back to the gate with the boards"
	g := gardentest.Solve(t, p)
	window := func(s draw.Size) string {
		return draw.NewSheet(g, s, draw.Scale{}).Draw(chrome(g, s, 0), draw.Look{Chosen: schedule.Nothing}, draw.Theme{})
	}
	day := func(width int) string {
		look := draw.DayLook{Date: g.Date(g.Programme.Tasks[coping].Start), Crew: draw.Everyone}
		return draw.Day(g, chrome(g, sizes[0], 1), look, draw.Size{Width: width, Height: 80}, draw.Theme{})
	}
	lorries := func(s draw.Size) string {
		return draw.NewLorries(g, s).Draw(chrome(g, s, 2), p.FindDelivery("slate"), 0, draw.Theme{})
	}
	for _, c := range []struct {
		what, frame string
		whole       bool
	}{
		{what: "a small window", frame: window(sizes[0])},
		{what: "a window", frame: window(sizes[1])},
		{what: "a large window", frame: window(sizes[2]), whole: true},
		{what: "a small day", frame: day(80)},
		{what: "a wide day", frame: day(140), whole: true},
		{what: "small deliveries", frame: lorries(draw.Size{Width: 80, Height: 40})},
		{what: "wide deliveries", frame: lorries(draw.Size{Width: 300, Height: 40}), whole: true},
	} {
		if got := strings.Contains(c.frame, long); got != c.whole {
			t.Errorf("%s has the whole name: %v, want %v\n%s", c.what, got, c.whole, c.frame)
		}
		if !c.whole && !strings.Contains(c.frame, short) {
			t.Errorf("%s lacks the short name:\n%s", c.what, c.frame)
		}
	}
	if frame := window(sizes[1]); !strings.Contains(frame, "lay turf") {
		t.Errorf("a window lacks the id of a task without a short name:\n%s", frame)
	}
}
