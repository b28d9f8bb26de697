package views

import (
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/schedule"
	"build.example/turflast/tui/draw"
)

// windowKeys is what the view's keys do.
type windowKeys struct {
	Up, Down, Left, Right key.Binding
	Cause, Effect         key.Binding
	First, Last           key.Binding
	Closer, Wider, Nights key.Binding
}

// defaultWindowKeys returns the view's keys.
func defaultWindowKeys() windowKeys {
	return windowKeys{
		Up:     key.NewBinding(key.WithKeys("up"), key.WithHelp("↑", "choose on the row above")),
		Down:   key.NewBinding(key.WithKeys("down"), key.WithHelp("↓", "choose on the row below")),
		Left:   key.NewBinding(key.WithKeys("left"), key.WithHelp("←", "choose the one before on the row")),
		Right:  key.NewBinding(key.WithKeys("right"), key.WithHelp("→", "choose the one after on the row")),
		Cause:  key.NewBinding(key.WithKeys("["), key.WithHelp("[", "go to what it waits for")),
		Effect: key.NewBinding(key.WithKeys("]"), key.WithHelp("]", "go to what waits for it")),
		First:  key.NewBinding(key.WithKeys("home"), key.WithHelp("home", "choose the first task")),
		Last:   key.NewBinding(key.WithKeys("end"), key.WithHelp("end", "choose the end of the hand-over chain")),
		Closer: key.NewBinding(key.WithKeys("+", "="), key.WithHelp("+", "look closer")),
		Wider:  key.NewBinding(key.WithKeys("-"), key.WithHelp("-", "look wider")),
		Nights: key.NewBinding(key.WithKeys("n"), key.WithHelp("n", "open or close the nights")),
	}
}

// list returns the keys in the order of the help.
func (k windowKeys) list() []key.Binding {
	return []key.Binding{k.Up, k.Down, k.Left, k.Right, k.Cause, k.Effect, k.First, k.Last, k.Closer, k.Wider, k.Nights}
}

// closest is the largest zoom.
const closest = 8

// Window is the view's state.
type Window struct {
	keys   windowKeys
	garden *draw.Garden
	size   draw.Size
	scale  draw.Scale
	sheet  *draw.Sheet
	look   draw.Look
}

// NewWindow returns the view before anything is known.
func NewWindow() Window {
	return Window{keys: defaultWindowKeys(), look: draw.Look{Chosen: schedule.Nothing}}
}

// Keys returns the view's keys.
func (m Window) Keys() []key.Binding { return m.keys.list() }

// SetGarden shows another garden, or the same one solved again.
func (m Window) SetGarden(g *draw.Garden) Window {
	m.garden = g
	return m.layOut()
}

// SetSize fits the view to the terminal.
func (m Window) SetSize(s draw.Size) Window {
	m.size = s
	return m.layOut()
}

// layOut lays the sheet out again and keeps the choice if it can.
func (m Window) layOut() Window {
	if m.garden == nil || m.size.Width == 0 {
		return m
	}
	m.sheet = draw.NewSheet(m.garden, m.size, m.scale)
	if !m.sheet.Has(m.look.Chosen) {
		m.look.Chosen = m.sheet.First()
	}
	m.look = m.sheet.Follow(m.look)
	return m
}

// Chosen returns the activity that the view's keys act on.
func (m Window) Chosen() schedule.Activity { return m.look.Chosen }

// Choose chooses an activity, if it is shown.
func (m Window) Choose(t schedule.Activity) Window {
	if m.sheet != nil && m.sheet.Has(t) {
		m.look.Chosen = t
		m.look = m.sheet.Follow(m.look)
	}
	return m
}

// Update handles the view's keys.
func (m Window) Update(press tea.KeyMsg) Window {
	if m.sheet == nil {
		return m
	}
	sh, chosen := m.sheet, m.look.Chosen
	switch k := m.keys; {
	case key.Matches(press, k.Up):
		return m.Choose(sh.Down(chosen, -1))
	case key.Matches(press, k.Down):
		return m.Choose(sh.Down(chosen, 1))
	case key.Matches(press, k.Left):
		return m.Choose(sh.Across(chosen, -1))
	case key.Matches(press, k.Right):
		return m.Choose(sh.Across(chosen, 1))
	case key.Matches(press, k.Cause):
		return m.Choose(sh.Cause(chosen))
	case key.Matches(press, k.Effect):
		return m.Choose(sh.Effect(chosen))
	case key.Matches(press, k.First):
		return m.Choose(sh.Top())
	case key.Matches(press, k.Last):
		return m.Choose(sh.First())
	}
	return m.rescale(press)
}

// rescale handles the keys that change the scale.
func (m Window) rescale(press tea.KeyMsg) Window {
	was := m.scale
	switch {
	case key.Matches(press, m.keys.Closer):
		m.scale.Zoom = min(max(m.scale.Zoom, 1)*2, closest)
	case key.Matches(press, m.keys.Wider):
		m.scale.Zoom = max(m.scale.Zoom/2, 1)
	case key.Matches(press, m.keys.Nights):
		m.scale.Nights = !m.scale.Nights
	}
	if m.scale == was {
		return m
	}
	return m.layOut()
}

// View draws a frame.
func (m Window) View(c draw.Chrome, th draw.Theme) string {
	if m.sheet == nil {
		return draw.Page(c, "", nil, 0, m.size, th)
	}
	return m.sheet.Draw(c, m.look, th)
}
