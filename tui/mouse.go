package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/tui/draw"
)

// wheelLines is how many lines a notch of the wheel scrolls a page.
const wheelLines = 3

// mouse handles the mouse: a click chooses, the wheel goes up and down. It changes
// nothing else, and nothing while something is typed.
func (a app) mouse(m tea.MouseMsg) app {
	if a.prompt.kind != noPrompt || m.Action != tea.MouseActionPress {
		return a
	}
	switch m.Button {
	case tea.MouseButtonWheelUp:
		return a.wheel(tea.KeyMsg{Type: tea.KeyUp})
	case tea.MouseButtonWheelDown:
		return a.wheel(tea.KeyMsg{Type: tea.KeyDown})
	case tea.MouseButtonLeft:
		return a.click(m.X, m.Y)
	}
	return a
}

// wheel goes up or down by a line of a list, or some lines of a page.
func (a app) wheel(k tea.KeyMsg) app {
	times := 1
	if a.page.kind != noPage && !a.page.kind.lists() || a.tab == oddsTab {
		times = wheelLines
	}
	for range times {
		next, ok := a.onPage(k)
		if !ok && a.page.kind == noPage && a.garden != nil {
			next = a.inView(k)
		}
		a = next
	}
	a.notice = "" // at an end the wheel just stops
	return a
}

// click chooses what stands at a place, or shows the view whose name does.
func (a app) click(x, y int) app {
	c := a.chrome()
	if y == 0 {
		g := a.garden
		if a.page.kind != noPage || a.tab == oddsTab {
			g = nil
		}
		if to := c.TabAt(g, a.size, x); to >= 0 {
			return a.turn(tab(to))
		}
		return a
	}
	switch {
	case a.page.kind.lists():
		look := draw.PageLook{Top: a.page.top}
		if line := draw.PageLine(c, look, a.size, y); line >= 0 && line < len(a.pageLines()) {
			a.page.chosen = line
		}
	case a.page.kind == noPage && a.garden != nil:
		return a.clickView(c, x, y)
	}
	return a
}

// clickView chooses what stands at a place of the view that is shown.
func (a app) clickView(c draw.Chrome, x, y int) app {
	did := false
	switch a.tab {
	case windowTab:
		a.window, did = a.window.Click(c, x, y)
	case dayTab:
		a.day, did = a.day.Click(c, y)
	case deliveriesTab:
		a.deliveries, did = a.deliveries.Click(c, y)
	case peopleTab:
		a.people, did = a.people.Click(c, y)
	}
	a.picked = a.picked || did
	return a
}
