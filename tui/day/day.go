// Package day is the view of one day: what a crew does, where, with whom, and
// what it waits for.
package day

import (
	"slices"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/tui/draw"
)

// KeyMap is what the view's keys do.
type KeyMap struct {
	Earlier, Later     key.Binding
	CrewBefore, CrewTo key.Binding
	Up, Down           key.Binding
}

// DefaultKeys are the view's keys.
func DefaultKeys() KeyMap {
	return KeyMap{
		Earlier:    key.NewBinding(key.WithKeys("left"), key.WithHelp("←", "the day before")),
		Later:      key.NewBinding(key.WithKeys("right"), key.WithHelp("→", "the day after")),
		CrewBefore: key.NewBinding(key.WithKeys("["), key.WithHelp("[", "the crew before")),
		CrewTo:     key.NewBinding(key.WithKeys("]"), key.WithHelp("]", "the next crew")),
		Up:         key.NewBinding(key.WithKeys("up"), key.WithHelp("↑", "choose the line above, scroll up")),
		Down:       key.NewBinding(key.WithKeys("down"), key.WithHelp("↓", "choose the line below, scroll down")),
	}
}

// List is the keys in the order of the help.
func (k KeyMap) List() []key.Binding {
	return []key.Binding{k.Earlier, k.Later, k.CrewBefore, k.CrewTo, k.Up, k.Down}
}

// Hint is the main keys in a few words.
func (m Model) Hint() string {
	k := m.keys
	return k.Earlier.Help().Key + " " + k.Later.Help().Key + " day   " + k.CrewBefore.Help().Key + " " + k.CrewTo.Help().Key +
		" crew   " + k.Up.Help().Key + " " + k.Down.Help().Key + " line"
}

// Model is the view's state.
type Model struct {
	keys   KeyMap
	garden *draw.Garden
	size   draw.Size
	look   draw.DayLook
	chosen draw.Thing // by another view last
	line   draw.Thing // the line that is chosen; Nothing when there is none
}

// New is the view before anything is known.
func New() Model {
	return Model{keys: DefaultKeys(), look: draw.DayLook{Crew: draw.Everyone}, chosen: draw.Nothing, line: draw.Nothing}
}

// Keys is what its keys do.
func (m Model) Keys() []key.Binding { return m.keys.List() }

// SetGarden shows another garden, or the same one solved anew. The first one
// is shown on today's date; before there is work on the first day of the window,
// after it on the last.
func (m Model) SetGarden(g *draw.Garden) Model {
	first := m.garden == nil
	m.garden = g
	if int(m.look.Crew) >= len(g.Plan.Crews) {
		m.look.Crew = draw.Everyone
	}
	if first {
		m.look.Date = g.Date(g.Now)
	}
	return m.within()
}

// within keeps the date among the days with work.
func (m Model) within() Model {
	from, to := m.garden.Days()
	if m.look.Date < from || m.look.Date > to {
		m.look.Date = min(max(m.look.Date, m.garden.Date(m.garden.Plan.Site.Opens)), to)
	}
	return m.hold()
}

// hold keeps the choice on what was chosen, whose number may be another now.
func (m Model) hold() Model {
	top := m.look.Top
	m.look = m.garden.ChooseThing(m.look, m.line, m.size)
	m.look.Top = min(max(top, m.look.Top), m.garden.LastTop(m.look, m.size))
	return m.mark()
}

// mark takes note of what is chosen.
func (m Model) mark() Model {
	m.line = draw.Nothing
	if s, ok := m.garden.Chosen(m.look); ok {
		m.line = s.Thing
	}
	return m
}

// SetSize fits the view to the terminal.
func (m Model) SetSize(s draw.Size) Model {
	m.size = s
	if m.garden == nil {
		return m
	}
	return m.within()
}

// Chosen is the chosen line's, else what another view chose last.
func (m Model) Chosen() draw.Thing {
	if m.line != draw.Nothing {
		return m.line
	}
	return m.chosen
}

// Choose shows the day on which a thing starts, of its first crew.
func (m Model) Choose(t draw.Thing) Model {
	if m.garden == nil || t == m.Chosen() {
		return m
	}
	m.chosen = t
	at, crew := calendars.Never, draw.Everyone
	switch p, g := m.garden.Plan, m.garden.Programme; {
	case t.Task >= 0:
		at = g.Tasks[t.Task].Start
		if needs := p.Tasks[t.Task].Crew; len(needs) > 0 {
			crew = needs[0].Crew
		}
	case t.Delivery >= 0:
		at = g.Unloads[t.Delivery].Arrives
	}
	if at.IsReal() {
		m.look, m.line = draw.DayLook{Date: m.garden.Date(at), Crew: crew}, t
		return m.hold()
	}
	return m
}

// Update answers the view's keys.
func (m Model) Update(press tea.KeyMsg) Model {
	if m.garden == nil {
		return m
	}
	from, to := m.garden.Days()
	switch k := m.keys; {
	case key.Matches(press, k.Earlier):
		return m.onDate(max(m.look.Date-1, from))
	case key.Matches(press, k.Later):
		return m.onDate(min(m.look.Date+1, to))
	case key.Matches(press, k.CrewBefore):
		return m.turnCrew(-1)
	case key.Matches(press, k.CrewTo):
		return m.turnCrew(1)
	case key.Matches(press, k.Up):
		m.look = m.garden.Choose(m.look, -1, m.size)
	case key.Matches(press, k.Down):
		m.look = m.garden.Choose(m.look, 1, m.size)
	}
	return m.mark()
}

// onDate shows another day, its first line chosen.
func (m Model) onDate(d calendars.Date) Model {
	if d != m.look.Date {
		m.look, m.line = draw.DayLook{Date: d, Crew: m.look.Crew}, draw.Nothing
	}
	return m.hold()
}

// Lines are the day's lines, and what comes through the gate, with their numbers.
func (m Model) Lines() []draw.Numbered {
	if m.garden == nil {
		return nil
	}
	var out []draw.Numbered
	for _, s := range m.garden.Shifts(m.look) {
		out = append(out, draw.Numbered{Thing: s.Thing, Number: m.garden.Number(s.Thing)})
	}
	for _, t := range m.garden.Gate(m.look.Date) {
		if n := (draw.Numbered{Thing: t, Number: m.garden.Number(t)}); !slices.Contains(out, n) {
			out = append(out, n)
		}
	}
	return out
}

// Line is the chosen line; its number is 0 for none.
func (m Model) Line() draw.Numbered {
	if m.line == draw.Nothing {
		return draw.Numbered{Thing: draw.Nothing}
	}
	return draw.Numbered{Thing: m.line, Number: m.garden.Number(m.line)}
}

// Date is the day that is shown.
func (m Model) Date() calendars.Date { return m.look.Date }

// Crew is the crew that is shown, or draw.Everyone.
func (m Model) Crew() schedule.CrewID { return m.look.Crew }

// turnCrew goes round the crews, with everyone between the last and the first.
func (m Model) turnCrew(by int) Model {
	n := len(m.garden.Plan.Crews) + 1
	m.look = draw.DayLook{Date: m.look.Date, Crew: schedule.CrewID((int(m.look.Crew)+1+by+n)%n - 1)}
	m.line = draw.Nothing
	return m.hold()
}

// View draws a frame.
func (m Model) View(c draw.Chrome, th draw.Theme) string {
	if m.garden == nil {
		return draw.Page(c, "", nil, 0, m.size, th)
	}
	return draw.Day(m.garden, c, m.look, m.size, th)
}
