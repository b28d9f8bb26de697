package tui

import tea "github.com/charmbracelet/bubbletea"

// app is the root model: it routes keys and results, and draws only what
// stands around a view.
type app struct{ opts Options }

func newApp(opts Options) app { return app{opts: opts} }

// Init starts the first load.
func (a app) Init() tea.Cmd { return nil }

// Update quits.
func (a app) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	if _, ok := msg.(tea.KeyMsg); ok {
		return a, tea.Quit
	}
	return a, nil
}

// View is empty so far.
func (a app) View() string { return "" }
