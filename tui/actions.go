package tui

import (
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/tui/draw"
)

// everywhere handles the keys that every view has; ok is false for any other.
func (a app) everywhere(k tea.KeyMsg) (next app, cmd tea.Cmd, ok bool) {
	switch m := a.keys; {
	case key.Matches(k, m.Quit):
		next, cmd = a.leave()
		return next, cmd, true
	case key.Matches(k, m.Window):
		return a.turn(windowTab), nil, true
	case key.Matches(k, m.Day):
		return a.turn(dayTab), nil, true
	case key.Matches(k, m.Deliveries):
		return a.turn(deliveriesTab), nil, true
	case key.Matches(k, m.Next):
		return a.turn((a.tab + 1) % tabs), nil, true
	}
	if kind := a.keys.page(k); kind != noPage {
		return a.open(kind), nil, true
	}
	return a.change(k)
}

// change handles the keys that change what is shown.
func (a app) change(k tea.KeyMsg) (next app, cmd tea.Cmd, ok bool) {
	switch m := a.keys; {
	case key.Matches(k, m.Drawer):
		a.drawer, a.page = !a.drawer || a.page.kind != noPage, overlay{}
		next = a
	case key.Matches(k, m.Undo):
		next, cmd = a.undo()
	case key.Matches(k, m.Scope):
		next, cmd = a.turnScope()
	case key.Matches(k, m.Reload):
		a.notice = "Read " + draw.Clean(a.opts.Name) + " again."
		next, cmd = a, load(a.opts)
	case key.Matches(k, m.Find):
		a.prompt = prompt{kind: findPrompt}
		next = a
	case key.Matches(k, m.Filter):
		a.prompt = prompt{kind: filterPrompt, text: a.filter}
		next = a
	case key.Matches(k, m.Clear):
		next = a.clear()
	default:
		return a.seek(k)
	}
	return next, cmd, true
}

// seek handles the keys about what is searched for meanwhile.
func (a app) seek(k tea.KeyMsg) (next app, cmd tea.Cmd, ok bool) {
	switch m := a.keys; {
	case key.Matches(k, m.EndMends):
		next = a.endMends()
	case key.Matches(k, m.Longer):
		next = a.lookOn()
	case key.Matches(k, m.Take):
		next, cmd = a.takeOffer()
	default:
		return a, nil, false
	}
	return next, cmd, true
}

// leave ends the UI, after a tick that is still being written.
func (a app) leave() (app, tea.Cmd) {
	a.halt()
	if a.site.busy && !a.site.leaving {
		a.site.leaving = true
		return a, nil
	}
	return a, tea.Quit
}

// undo takes back the newest tick if the day is shown, else the newest trial, or says
// that there is nothing to take back.
func (a app) undo() (app, tea.Cmd) {
	if next, cmd, ok := a.untick(); ok {
		return next, cmd
	}
	return a.untry()
}

// clear closes the page, else the what-if, else the filter.
func (a app) clear() app {
	switch {
	case a.page.kind != noPage:
		a.page = overlay{}
		return a
	case a.drawer:
		a.drawer = false
		return a
	}
	a.filter = ""
	return a.spread()
}

// prompted handles a key while something is typed. At every letter a find chooses a
// match, and a filter filters.
func (a app) prompted(k tea.KeyMsg) app {
	switch k.Type {
	case tea.KeyEnter:
		a.prompt = prompt{}
		return a
	case tea.KeyEsc:
		if a.prompt.kind == filterPrompt {
			a.filter = ""
			a = a.spread()
		}
		a.prompt = prompt{}
		return a
	case tea.KeyDown, tea.KeyTab:
		return a.find(1)
	case tea.KeyUp, tea.KeyShiftTab:
		return a.find(-1)
	}
	next, ok := a.prompt.typed(k)
	if !ok {
		return a
	}
	a.prompt = next
	if a.prompt.kind == filterPrompt {
		a.filter = a.prompt.text
		return a.spread()
	}
	return a.find(0)
}

// find chooses the activity found that is some places on from the chosen one, or the
// first found if the chosen one isn't among them.
func (a app) find(by int) app {
	if a.garden == nil || a.prompt.kind != findPrompt {
		return a
	}
	list := found(a.garden, a.prompt.text)
	if len(list) == 0 {
		return a
	}
	a.picked = true
	at := 0
	for i, t := range list {
		if t == a.chosen() {
			at = (i + by + len(list)) % len(list)
		}
	}
	return a.choose(list[at])
}
