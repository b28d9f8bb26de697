package tui

import (
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/schedule"
	"build.example/turflast/tui/draw"
)

// everywhere handles the keys that every view has; ok is false for any other.
func (a app) everywhere(k tea.KeyMsg) (next app, cmd tea.Cmd, ok bool) {
	if to, ok := a.keys.view(k, a.tab); ok {
		return a.turn(to), nil, true
	}
	switch m := a.keys; {
	case key.Matches(k, m.Quit):
		next, cmd = a.leave()
	case key.Matches(k, m.Go):
		next, cmd = a.enter()
	case key.Matches(k, m.Cause), key.Matches(k, m.Effect):
		next = a.follow(key.Matches(k, m.Effect))
	case key.Matches(k, m.Longer):
		next = a.lookOn()
	case key.Matches(k, m.Copy):
		next, cmd = a.copied()
	default:
		if kind := a.pageFor(k); kind != noPage {
			return a.open(kind), nil, true
		}
		return a.change(k)
	}
	return next, cmd, true
}

// change handles the keys that change what is shown.
func (a app) change(k tea.KeyMsg) (next app, cmd tea.Cmd, ok bool) {
	next = a
	switch m := a.keys; {
	case key.Matches(k, m.Drawer):
		next.drawer, next.page = !a.drawer || a.page.kind != noPage, overlay{}
	case key.Matches(k, m.Undo):
		next, cmd = a.undo()
	case key.Matches(k, m.Scope):
		next, cmd = a.turnScope()
	case key.Matches(k, m.Reload):
		next.notice = "Read " + draw.Clean(a.opts.Name) + " again."
		cmd = load(a.opts)
	case key.Matches(k, m.Edit):
		next, cmd = a.edit()
	case key.Matches(k, m.EndMends):
		next = a.endMends()
	case key.Matches(k, m.Take):
		next, cmd = a.takeOffer()
	case key.Matches(k, m.Close):
		next = a.clear()
	default:
		return a.seek(k)
	}
	return next, cmd, true
}

// seek handles the keys that find something in what is shown.
func (a app) seek(k tea.KeyMsg) (next app, cmd tea.Cmd, ok bool) {
	switch m := a.keys; {
	case key.Matches(k, m.Find):
		a.prompt = prompt{kind: findPrompt}
	case key.Matches(k, m.Filter):
		a.prompt = prompt{kind: filterPrompt, text: a.filter}
	case key.Matches(k, m.NextHit):
		a = a.again(1)
	case key.Matches(k, m.LastHit):
		a = a.again(-1)
	default:
		return a, nil, false
	}
	return a, nil, true
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

// clear closes the page, else the what-if, else what a tick did, else shows all again,
// else leaves nothing chosen.
func (a app) clear() app {
	switch {
	case a.page.kind != noPage:
		a.page = overlay{}
		return a
	case a.drawer:
		a.drawer = false
		return a
	case a.site.ticked != nil && a.settled():
		a.site.ticked = nil
		return a
	case a.filter == "" && a.tab == windowTab && a.window.Chosen() != schedule.Nothing:
		a.window = a.window.Unchoose()
		return a
	case a.filter == "":
		a.notice = "There is nothing to close."
		return a
	}
	a.filter = ""
	return a.spread()
}
