package views

import (
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// Moves is how one goes about in every view, list and page: by a line, by about a frame,
// to either end.
type Moves struct {
	Up, Down, Left, Right key.Binding
	PageUp, PageDown      key.Binding
	Home, End             key.Binding
}

// DefaultMoves returns those keys, with what they do in words that are true everywhere.
func DefaultMoves() Moves {
	return Moves{
		Up:       key.NewBinding(key.WithKeys("up", "k"), key.WithHelp("↑ k", "the one above; a page scrolls up")),
		Down:     key.NewBinding(key.WithKeys("down", "j"), key.WithHelp("↓ j", "the one below; a page scrolls down")),
		Left:     key.NewBinding(key.WithKeys("left"), key.WithHelp("←", "the one before")),
		Right:    key.NewBinding(key.WithKeys("right"), key.WithHelp("→", "the one after")),
		PageUp:   key.NewBinding(key.WithKeys("pgup"), key.WithHelp("pgup", "up by about a screen")),
		PageDown: key.NewBinding(key.WithKeys("pgdown"), key.WithHelp("pgdn", "down by about a screen")),
		Home:     key.NewBinding(key.WithKeys("home"), key.WithHelp("home", "to the first")),
		End:      key.NewBinding(key.WithKeys("end"), key.WithHelp("end", "to the last; in the window the end of the chain")),
	}
}

// List returns the keys in the order of the help.
func (k Moves) List() []key.Binding {
	return []key.Binding{k.Up, k.Down, k.Left, k.Right, k.PageUp, k.PageDown, k.Home, k.End}
}

// Lines returns by how many lines a key moves up or down in a list of some length, of
// which a page is in sight; ok is false for a key that doesn't.
func (k Moves) Lines(press tea.KeyMsg, page, length int) (by int, ok bool) {
	page = max(page-1, 1)
	for _, x := range []struct {
		key key.Binding
		by  int
	}{{k.Up, -1}, {k.Down, 1}, {k.PageUp, -page}, {k.PageDown, page}, {k.Home, -length}, {k.End, length}} {
		if key.Matches(press, x.key) {
			return x.by, true
		}
	}
	return 0, false
}
