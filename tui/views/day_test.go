package views_test

import (
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/calendars"
	"build.example/turflast/tui/draw"
	"build.example/turflast/tui/gardentest"
	"build.example/turflast/tui/views"
)

func pressDay(m views.Day, keys ...tea.KeyMsg) views.Day {
	for _, k := range keys {
		m, _ = m.Update(k)
	}
	return m
}

func rune1(r rune) tea.KeyMsg { return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}} }

var left, right, down, up = tea.KeyMsg{Type: tea.KeyLeft}, tea.KeyMsg{Type: tea.KeyRight},
	tea.KeyMsg{Type: tea.KeyDown}, tea.KeyMsg{Type: tea.KeyUp}

func TestDayKeys(t *testing.T) {
	g := gardentest.Solve(t, gardentest.Demo(t))
	m := views.NewDay().SetSize(draw.Size{Width: 100, Height: 30}).SetGarden(g)
	sees := func(m views.Day, want string) {
		t.Helper()
		if frame := m.View(draw.Chrome{}, draw.Theme{}); !strings.Contains(frame, want) {
			t.Errorf("the frame lacks %q:\n%s", want, frame)
		}
	}
	sees(m, "FRI 30 APR · everyone")
	sees(pressDay(m, right, right), "SUN 2 MAY · everyone")
	sees(pressDay(m, left, left), "WED 28 APR")
	sees(pressDay(m, rune1('c')), "· Ground crew · 5 there")
	sees(pressDay(m, rune1('C')), "· Volunteers · nobody there")
	sees(pressDay(m, rune1('C'), rune1('c')), "· everyone")

	framed := m.Choose(g.Plan.FindTask("raise-frame").Activity())
	sees(framed, "SUN 2 MAY · Joiners")
	sees(framed, "  Raise the larch frame")
	sees(pressDay(framed, down, down, down, down, down, down), "TAKE CARE")
	sees(pressDay(framed, down, down, up, up, up), "  Raise the larch frame")
	sees(framed.Choose(g.Plan.Unload(g.Plan.FindDelivery("turf"))), "FRI 7 MAY · everyone")

	many := m
	for range 60 {
		many = pressDay(many, right)
	}
	sees(many, "SAT 8 MAY")
}

// TestFirstDay is today's while there is work; before that the first of the
// window, after it the last.
func TestFirstDay(t *testing.T) {
	g := gardentest.Solve(t, gardentest.Demo(t))
	for now, want := range map[calendars.Instant]string{
		g.Plan.Site.Opens.Plus(3 * calendars.Day):    "MON 3 MAY",
		g.Plan.Site.Opens.Plus(-100 * calendars.Day): "FRI 30 APR",
		g.Plan.Site.Opens.Plus(-10 * calendars.Day):  "TUE 20 APR",
		g.Plan.Site.Opens.Plus(100 * calendars.Day):  "SAT 8 MAY",
	} {
		g.Now = now
		m := views.NewDay().SetSize(draw.Size{Width: 100, Height: 30}).SetGarden(g)
		if frame := m.View(draw.Chrome{}, draw.Theme{}); !strings.Contains(frame, want) {
			t.Errorf("the frame lacks %q:\n%s", want, frame)
		}
	}
}
