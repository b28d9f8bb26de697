package views

import (
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/schedule"
	"build.example/turflast/tui/draw"
)

// windowKeys is what the view's own keys do.
type windowKeys struct {
	Closer, Wider, Nights key.Binding
}

// defaultWindowKeys returns the view's own keys.
func defaultWindowKeys() windowKeys {
	return windowKeys{
		Closer: key.NewBinding(key.WithKeys("+", "="), key.WithHelp("+", "look closer")),
		Wider:  key.NewBinding(key.WithKeys("-"), key.WithHelp("-", "look wider")),
		Nights: key.NewBinding(key.WithKeys("Z"), key.WithHelp("Z", "open or close the nights")),
	}
}

// list returns the keys in the order of the help.
func (k windowKeys) list() []key.Binding {
	return []key.Binding{k.Closer, k.Wider, k.Nights}
}

// closest is the largest zoom.
const closest = 8

// Window is the view's state.
type Window struct {
	keys   windowKeys
	moves  Moves
	garden *draw.Garden
	size   draw.Size
	scale  draw.Scale
	sheet  *draw.Sheet
	look   draw.Look
}

// NewWindow returns the view before anything is known.
func NewWindow() Window {
	return Window{keys: defaultWindowKeys(), moves: DefaultMoves(), look: draw.Look{Chosen: schedule.Nothing}}
}

// Keys returns the view's own keys.
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

// layOut lays the sheet out again and keeps the choice if it can. At first nothing is
// chosen.
func (m Window) layOut() Window {
	if m.garden == nil || m.size.Width == 0 {
		return m
	}
	m.sheet = draw.NewSheet(m.garden, m.size, m.scale)
	if m.look.Chosen != schedule.Nothing && !m.sheet.Has(m.look.Chosen) {
		m.look.Chosen = m.sheet.First()
	}
	m.look = m.sheet.Follow(m.look)
	return m
}

// Chosen returns the activity that the view's keys act on, or Nothing.
func (m Window) Chosen() schedule.Activity { return m.look.Chosen }

// Choose chooses an activity, if it is shown.
func (m Window) Choose(t schedule.Activity) Window {
	if m.sheet != nil && m.sheet.Has(t) {
		m.look.Chosen = t
		m.look = m.sheet.Follow(m.look)
	}
	return m
}

// Unchoose leaves nothing chosen.
func (m Window) Unchoose() Window {
	m.look.Chosen = schedule.Nothing
	return m
}

// Click chooses what stands at a place of a frame; did is false where nothing does.
func (m Window) Click(c draw.Chrome, x, y int) (next Window, did bool) {
	if m.sheet == nil {
		return m, false
	}
	at := m.sheet.At(c, m.look, x, y)
	return m.Choose(at), at != schedule.Nothing
}

// Update handles the view's keys; did is false where a key does nothing.
func (m Window) Update(press tea.KeyMsg) (next Window, did bool) {
	if m.sheet == nil {
		return m, false
	}
	was := m.look.Chosen
	next = m.Choose(m.target(press))
	if next.look.Chosen != was {
		return next, true
	}
	return m.rescale(press)
}

// target returns the activity that a key goes to, or Nothing.
func (m Window) target(press tea.KeyMsg) schedule.Activity {
	sh, at := m.sheet, m.look.Chosen
	switch k := m.moves; {
	case key.Matches(press, k.Left):
		return sh.Across(at, -1)
	case key.Matches(press, k.Right):
		return sh.Across(at, 1)
	case key.Matches(press, k.Home):
		return sh.Top()
	case key.Matches(press, k.End):
		return sh.First()
	}
	by, ok := m.moves.Lines(press, m.size.Height/2, 1)
	if !ok {
		return schedule.Nothing
	}
	step := 1
	if by < 0 {
		step = -1
	}
	for ; by != 0; by -= step {
		at = sh.Down(at, step)
	}
	return at
}

// rescale handles the keys that change the scale.
func (m Window) rescale(press tea.KeyMsg) (next Window, did bool) {
	was := m.scale
	switch {
	case key.Matches(press, m.keys.Closer):
		m.scale.Zoom = min(max(m.scale.Zoom, 1)*2, closest)
	case key.Matches(press, m.keys.Wider):
		m.scale.Zoom = max(m.scale.Zoom/2, 1)
	case key.Matches(press, m.keys.Nights):
		m.scale.Nights = !m.scale.Nights
	}
	if m.scale == was || max(m.scale.Zoom, 1) == max(was.Zoom, 1) && m.scale.Nights == was.Nights {
		return m, false
	}
	return m.layOut(), true
}

// View draws a frame.
func (m Window) View(c draw.Chrome, th draw.Theme) string {
	if m.sheet == nil {
		return draw.Page(c, "", nil, 0, m.size, th)
	}
	return m.sheet.Draw(c, m.look, th)
}
