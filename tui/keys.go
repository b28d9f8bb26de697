package tui

import (
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// keyMap is what the keys do in every view: each has one meaning everywhere, and the
// larger of two letters is the larger step or the way back. The footer, the help, the
// list of pages and the bindings all come from it and from the views' own lists.
type keyMap struct {
	Window, Day, Deliveries, People, Odds key.Binding
	Next, Before                          key.Binding
	Go, Close, Cause, Effect              key.Binding
	Find, NextHit, LastHit, Filter        key.Binding
	Pages, Tasks, Chain, Ways             key.Binding
	Slip, Logged, Problems                key.Binding
	Scope, Drawer, EndMends               key.Binding
	Longer, Take                          key.Binding
	Copy, Undo, Reload, Edit              key.Binding
	Help, Suspend, Quit                   key.Binding
}

func defaultKeys() keyMap {
	return keyMap{
		Window:     bind("1", "the window"),
		Day:        bind("2", "the day"),
		Deliveries: bind("3", "the deliveries; ← → orders by date, the gate list"),
		People:     bind("4", "people and machines; ← → bookings, costs"),
		Odds:       bind("5", "the odds of the hand-over, and what drives the risk"),
		Next:       bind("tab", "the next view"),
		Before:     key.NewBinding(key.WithKeys("shift+tab"), key.WithHelp("⇧tab", "the view before")),
		Go:         bind("enter", "open or go to what is chosen"),
		Close:      bind("esc", "close; show all again; choose nothing"),
		Cause:      bind("[", "go to what it waits for"),
		Effect:     bind("]", "go to what waits for it"),
		Find:       bind("/", "find a name, or words on a page"),
		NextHit:    bind("n", "the next one found"),
		LastHit:    bind("N", "the one found before"),
		Filter:     bind("f", "show only some: a crew, a zone, a stage, a name"),
		Pages:      key.NewBinding(key.WithKeys(" "), key.WithHelp("space", "all pages and views, to choose from")),
		Tasks:      bind("a", "all tasks, the tightest first"),
		Chain:      bind("d", "what drives the hand-over date"),
		Ways:       bind("o", "ways out: what would mend a broken date"),
		Slip:       bind("b", "what slipped against the baseline"),
		Logged:     bind("g", "what has been logged"),
		Problems:   bind("p", "problems of the plan file, and dates that break"),
		Scope:      bind("l", "logic only, with hands unlimited; again: crews"),
		Drawer:     bind("w", "what if: try changes; the plan file stays as it is"),
		EndMends:   bind("i", "end the search for what would mend it"),
		Longer:     bind("v", "look on for a better programme"),
		Take:       bind("A", "agree to the better programme: a baseline"),
		Copy:       bind("y", "copy the sentence of what is chosen, or the page"),
		Undo:       bind("u", "take the last change or tick back"),
		Reload:     bind("r", "read the plan file again"),
		Edit:       bind("E", "open the plan file in your editor at what is chosen"),
		Help:       bind("?", "these keys"),
		Suspend:    key.NewBinding(key.WithKeys("ctrl+z"), key.WithHelp("ctrl-z", "to the shell; fg comes back")),
		Quit:       key.NewBinding(key.WithKeys("q", "ctrl+c"), key.WithHelp("q", "quit")),
	}
}

// bind returns a key with what it does.
func bind(k, does string) key.Binding {
	return key.NewBinding(key.WithKeys(k), key.WithHelp(k, does))
}

// views are the keys of the views, in the order of the tabs.
func (k keyMap) views() []key.Binding {
	return []key.Binding{k.Window, k.Day, k.Deliveries, k.People, k.Odds}
}

// list returns the keys in the order of the help.
func (k keyMap) list() []key.Binding {
	return append(k.views(), k.Next, k.Before, k.Go, k.Close, k.Cause, k.Effect, k.Find, k.NextHit, k.LastHit,
		k.Filter, k.Pages, k.Tasks, k.Chain, k.Ways, k.Slip, k.Logged, k.Problems, k.Longer, k.Take, k.Scope,
		k.Drawer, k.EndMends, k.Copy, k.Undo, k.Reload, k.Edit, k.Help, k.Suspend, k.Quit)
}

// view returns the view that a key shows, from the one that is shown now; ok is false
// for any other key.
func (k keyMap) view(press tea.KeyMsg, now tab) (to tab, ok bool) {
	for i, v := range k.views() {
		if key.Matches(press, v) {
			return tab(i), true
		}
	}
	switch {
	case key.Matches(press, k.Next):
		return (now + 1) % tabs, true
	case key.Matches(press, k.Before):
		return (now + tabs - 1) % tabs, true
	}
	return now, false
}
