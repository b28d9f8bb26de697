package draw_test

import (
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
	"pgregory.net/rapid"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/tui/draw"
	"build.example/turflast/tui/gardentest"
)

// strip takes escape sequences away, and the spaces at line ends with them: a
// coloured frame keeps spaces that have a style.
func strip(frame string) string {
	lines := strings.Split(ansi.Strip(frame), "\n")
	for i, l := range lines {
		lines[i] = strings.TrimRight(l, " ")
	}
	return strings.Join(lines, "\n")
}

// checkFrame fails unless a frame has its size and nothing but text in it.
func checkFrame(t interface {
	Helper()
	Fatalf(string, ...any)
}, name, frame string, s draw.Size) {
	t.Helper()
	lines := strings.Split(frame, "\n")
	if len(lines) != s.Height {
		t.Fatalf("%s at %v has %d lines", name, s, len(lines))
	}
	for i, l := range lines {
		if w := ansi.StringWidth(l); w > s.Width {
			t.Fatalf("%s at %v: line %d has %d columns: %q", name, s, i, w, l)
		}
		for _, r := range l {
			if r < ' ' || r == 0x7f || r >= 0x80 && r < 0xa0 {
				t.Fatalf("%s at %v: line %d has a control character: %q", name, s, i, l)
			}
		}
	}
}

// names are what a hostile or a foreign plan might hold.
func names() *rapid.Generator[string] {
	return rapid.OneOf(
		rapid.SampledFrom([]string{"", " ", "\x1b[31mred\x1b[0m",
			"a\tb\nc", "庭の石", "👩‍👩‍👧 family", "⚠️ care", "\u202eesrever",
			"e\u0301\u0301\u0301", "\xff\xfe", strings.Repeat("long name ", 20), strings.Repeat("長", 200)}),
		rapid.StringN(0, 40, 200),
	)
}

// TestFramesKeepTheirSize draws every view with fuzzed names at random sizes.
func TestFramesKeepTheirSize(t *testing.T) {
	demo := gardentest.Demo(t)
	rapid.Check(t, func(rt *rapid.T) {
		p := *demo
		p.Garden = names().Draw(rt, "garden")
		p.Tasks = append([]schedule.Task(nil), demo.Tasks...)
		for i := range p.Tasks {
			p.Tasks[i].Name, p.Tasks[i].Short = names().Draw(rt, "task"), names().Draw(rt, "short")
			p.Tasks[i].Note, p.Tasks[i].DoneWhen = names().Draw(rt, "note"), names().Draw(rt, "done when")
		}
		p.Zones = append([]schedule.Zone(nil), demo.Zones...)
		for i := range p.Zones {
			p.Zones[i].Name = names().Draw(rt, "zone")
		}
		p.Deliveries = append([]schedule.Delivery(nil), demo.Deliveries...)
		for i := range p.Deliveries {
			p.Deliveries[i].What = names().Draw(rt, "delivery")
		}
		p.Crews = append([]schedule.Crew(nil), demo.Crews...)
		for i := range p.Crews {
			p.Crews[i].Name = names().Draw(rt, "crew")
		}
		g := gardentest.Solve(t, &p)
		s := draw.Size{Width: rapid.IntRange(1, 240).Draw(rt, "width"), Height: rapid.IntRange(1, 70).Draw(rt, "height")}
		for name, frame := range frames(g, s, draw.Theme{}) {
			checkFrame(rt, name, frame, s)
		}
	})
}

// TestEveryMessageCount draws views that must say more than usual.
func TestEveryMessageCount(t *testing.T) {
	g := gardentest.Solve(t, gardentest.Demo(t))
	s := draw.Size{Width: 60, Height: 15}
	for n := range 20 {
		c := chrome(g, s, 0)
		for range n {
			c.Messages = append(c.Messages,
				page.As(page.Late, "One more thing to say that is wider than a frame of sixty columns."))
		}
		sheet := draw.NewSheet(g, s, draw.Scale{})
		for _, a := range []schedule.Activity{sheet.First(), g.Plan.Unload(2), schedule.Nothing} {
			checkFrame(t, "window", sheet.Draw(c, draw.Look{Chosen: a}, draw.Theme{}), s)
		}
		checkFrame(t, "day", draw.Day(g, c, draw.DayLook{Date: g.Date(g.Plan.Site.Opens), Crew: 0}, s, draw.Theme{}), s)
		checkFrame(t, "deliveries", draw.NewLorries(g, s).Draw(c, 3, 0, draw.Theme{}), s)
	}
}

// TestEveryActivityIsNamed checks that whatever is chosen is on the frame with its
// name and its reason.
func TestEveryActivityIsNamed(t *testing.T) {
	g := gardentest.Solve(t, gardentest.Demo(t))
	for _, s := range sizes {
		for _, zoom := range []int{1, 4} {
			sheet := draw.NewSheet(g, s, draw.Scale{Zoom: zoom})
			look := draw.Look{}
			for i := range g.Plan.Tasks {
				look.Chosen = schedule.Activity(i)
				look = sheet.Follow(look)
				frame := sheet.Draw(chrome(g, s, 0), look, draw.Theme{})
				want := "> " + strings.SplitN(g.Name(look.Chosen), " ", 2)[0]
				if !strings.Contains(frame, want) {
					t.Fatalf("%s is chosen but not told at %v:\n%s", g.Name(look.Chosen), s, frame)
				}
			}
		}
	}
}
