package tui

import (
	"fmt"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/schedule/show/page"
)

// keyMap is what the keys do in every view. The footer, the help and the
// bindings all come from it and from the views' own lists.
type keyMap struct {
	Window, Day, Deliveries, Next key.Binding
	Find, Filter, Clear           key.Binding
	Chain, People, Odds, Logged   key.Binding
	Slip                          key.Binding
	Problems, Scope               key.Binding
	Drawer                        key.Binding
	Undo, Reload, Help, Quit      key.Binding
}

func defaultKeys() keyMap {
	return keyMap{
		Window:     key.NewBinding(key.WithKeys("1"), key.WithHelp("1", "the window")),
		Day:        key.NewBinding(key.WithKeys("2"), key.WithHelp("2", "the day")),
		Deliveries: key.NewBinding(key.WithKeys("3"), key.WithHelp("3", "the deliveries")),
		Next:       key.NewBinding(key.WithKeys("tab"), key.WithHelp("tab", "the next view")),
		Find:       key.NewBinding(key.WithKeys("/"), key.WithHelp("/", "find a task or a delivery by its name")),
		Filter:     key.NewBinding(key.WithKeys("f"), key.WithHelp("f", "show only some: a crew, a zone, a stage, a name")),
		Clear:      key.NewBinding(key.WithKeys("esc"), key.WithHelp("esc", "show all again; close a page")),
		Chain:      key.NewBinding(key.WithKeys("d"), key.WithHelp("d", "what drives the hand-over date")),
		People:     key.NewBinding(key.WithKeys("h"), key.WithHelp("h", "heads and machines by half day, and who clashes")),
		Odds:       key.NewBinding(key.WithKeys("o"), key.WithHelp("o", "how likely the hand-over is, and what drives the risk")),
		Logged:     key.NewBinding(key.WithKeys("g"), key.WithHelp("g", "what has been logged, the newest first")),
		Slip:       key.NewBinding(key.WithKeys("b"), key.WithHelp("b", "what slipped against the baseline, worst first, and what made it slip")),
		Problems:   key.NewBinding(key.WithKeys("p"), key.WithHelp("p", "problems of the plan file, and dates that break")),
		Scope:      key.NewBinding(key.WithKeys("l"), key.WithHelp("l", "logic only, with hands unlimited; again: the crew programme")),
		Drawer:     key.NewBinding(key.WithKeys("w"), key.WithHelp("w", "what if: try changes without touching the plan file; again: close")),
		Undo:       key.NewBinding(key.WithKeys("u"), key.WithHelp("u", "take the last change back")),
		Reload:     key.NewBinding(key.WithKeys("r"), key.WithHelp("r", "read the plan file again")),
		Help:       key.NewBinding(key.WithKeys("?"), key.WithHelp("?", "help")),
		Quit:       key.NewBinding(key.WithKeys("q", "ctrl+c"), key.WithHelp("q", "quit")),
	}
}

func (k keyMap) list() []key.Binding {
	return []key.Binding{k.Window, k.Day, k.Deliveries, k.Next, k.Find, k.Filter, k.Clear, k.Chain,
		k.People, k.Odds, k.Logged, k.Slip, k.Problems, k.Scope, k.Drawer, k.Undo, k.Reload, k.Help, k.Quit}
}

// page is the page that a key opens, noPage for any other key.
func (k keyMap) page(press tea.KeyMsg) pageKind {
	switch {
	case key.Matches(press, k.Help):
		return helpPage
	case key.Matches(press, k.Chain):
		return chainPage
	case key.Matches(press, k.People):
		return peoplePage
	case key.Matches(press, k.Odds):
		return oddsPage
	case key.Matches(press, k.Logged):
		return loggedPage
	case key.Matches(press, k.Slip):
		return slipPage
	case key.Matches(press, k.Problems):
		return problemsPage
	}
	return noPage
}

// keyLines add a heading and a line for each key.
func keyLines(d *page.Document, heading string, keys []key.Binding) {
	d.In(page.Strong, heading)
	for _, k := range keys {
		text := fmt.Sprintf("  %-6s %s", k.Help().Key, k.Help().Desc)
		d.Add(page.Whole(page.As(page.Plain, text)))
	}
}
