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
	Drawer, EndMends              key.Binding
	Longer, Take                  key.Binding
	Undo, Reload, Help, Quit      key.Binding
}

func defaultKeys() keyMap {
	return keyMap{
		Window:     bind("1", "the window"),
		Day:        bind("2", "the day"),
		Deliveries: bind("3", "the deliveries"),
		Next:       bind("tab", "the next view"),
		Find:       bind("/", "find a task or a delivery by its name"),
		Filter:     bind("f", "show only some: a crew, a zone, a stage, a name"),
		Clear:      bind("esc", "show all again; close a page"),
		Chain:      bind("d", "what drives the hand-over date"),
		People:     bind("h", "heads and machines by half day, and who clashes"),
		Odds:       bind("o", "how likely the hand-over is, and what drives the risk"),
		Logged:     bind("g", "what has been logged, the newest first"),
		Slip:       bind("b", "what slipped against the baseline, worst first, and what made it slip"),
		Problems:   bind("p", "problems of the plan file, and dates that break"),
		Scope:      bind("l", "logic only, with hands unlimited; again: the crew programme"),
		Drawer:     bind("w", "what if: try changes without touching the plan file; again: close"),
		EndMends:   bind("i", "end the search for what would mend it, with what was found"),
		Longer:     bind("v", "look on for a better programme: how far that is, what was found, what moves"),
		Take:       bind("y", "take the better programme that was found: it becomes the newest baseline"),
		Undo:       bind("u", "take the last change back"),
		Reload:     bind("r", "read the plan file again"),
		Help:       bind("?", "help"),
		Quit:       key.NewBinding(key.WithKeys("q", "ctrl+c"), key.WithHelp("q", "quit")),
	}
}

// bind returns a key with what it does.
func bind(k, does string) key.Binding {
	return key.NewBinding(key.WithKeys(k), key.WithHelp(k, does))
}

func (k keyMap) list() []key.Binding {
	return []key.Binding{k.Window, k.Day, k.Deliveries, k.Next, k.Find, k.Filter, k.Clear, k.Chain,
		k.People, k.Odds, k.Logged, k.Slip, k.Problems, k.Scope, k.Drawer, k.EndMends,
		k.Longer, k.Take, k.Undo, k.Reload, k.Help, k.Quit}
}

// page returns the page that a key opens; noPage for any other key.
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

// keyLines adds a heading and a line for each key.
func keyLines(d *page.Document, heading string, keys []key.Binding) {
	d.In(page.Strong, heading)
	for _, k := range keys {
		text := fmt.Sprintf("  %-6s %s", k.Help().Key, k.Help().Desc)
		d.Add(page.Whole(page.As(page.Plain, text)))
	}
}
