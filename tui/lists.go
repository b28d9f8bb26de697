package tui

import (
	"fmt"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/tui/draw"
)

// indexLine is a line of the list of views and pages: what opens it, and what it is.
type indexLine struct {
	key  key.Binding
	view tab
	page pageKind // noPage for a view
}

// index lists the views, then the pages.
func (a app) index() []indexLine {
	var out []indexLine
	for i, k := range a.keys.views() {
		out = append(out, indexLine{key: k, view: tab(i)})
	}
	for _, p := range a.pages() {
		out = append(out, indexLine{key: p.key, page: p.kind})
	}
	return out
}

// indexLines returns the list of views and pages.
func (a app) indexLines() []page.Text {
	var out []page.Text
	for _, x := range a.index() {
		text := fmt.Sprintf(" %-3s %s", x.key.Help().Key, x.key.Help().Desc)
		out = append(out, page.As(page.Plain, draw.Cut(text, max(a.size.Width-2, 1))))
	}
	return out
}

// taskLines returns the list of all tasks.
func (a app) taskLines() []page.Text {
	return a.once(func() (out []page.Text) {
		for _, t := range a.garden.Tightest() {
			out = append(out, a.garden.TaskLine(t, a.size.Width-2))
		}
		return out
	})
}

// enter opens what is chosen, or goes to it.
func (a app) enter() (app, tea.Cmd) {
	next, ok := a.enterPage()
	if a.page.kind == noPage {
		next, ok = a.enterView()
	}
	if !ok {
		a.notice = "Nothing is chosen here that could be opened."
		return a, nil
	}
	return next, nil
}

// enterPage opens what is chosen on a page; ok is false where nothing is.
func (a app) enterPage() (next app, ok bool) {
	switch a.page.kind {
	case pagesPage:
		list := a.index()
		x := list[min(a.page.chosen, len(list)-1)]
		if x.page == noPage {
			return a.turn(x.view), true
		}
		if x.page == longerPage {
			return a.lookOn(), true
		}
		return a.open(x.page), true
	case tasksPage:
		if a.garden == nil {
			return a, false
		}
		list := a.garden.Tightest()
		if len(list) == 0 {
			return a, false
		}
		return a.goTo(list[min(a.page.chosen, len(list)-1)].Activity()), true
	case aboutPage:
		return a.goTo(a.page.of), a.page.of != schedule.Nothing
	}
	return a, false
}

// enterView opens what is chosen in a view; ok is false where nothing is.
func (a app) enterView() (next app, ok bool) {
	switch {
	case a.garden == nil:
		return a, false
	case a.tab == peopleTab && a.people.Crew() != schedule.None:
		crew := a.people.Crew()
		a.tab, a.picked = dayTab, true
		a = a.give()
		a.day = a.day.ChooseCrew(crew)
		return a, true
	case a.chosen() == schedule.Nothing:
		return a, false
	case a.tab == windowTab:
		return a.open(aboutPage), true
	}
	return a.goTo(a.chosen()), true
}

// goTo shows an activity in the window.
func (a app) goTo(t schedule.Activity) app {
	a.tab, a.page, a.picked = windowTab, overlay{}, true
	a = a.give().choose(t)
	if a.chosen() != t {
		a.notice = a.garden.Name(t) + " has no place in the window now."
	}
	return a
}

// follow goes to what the chosen activity waits for, or to what waits for it.
func (a app) follow(forward bool) app {
	if a.garden == nil || a.page.kind != noPage && a.page.kind != aboutPage {
		a.notice = "That works in a view, with a task or a lorry chosen."
		return a
	}
	from := a.chosen()
	if a.page.kind == aboutPage {
		from = a.page.of
	}
	to, none := a.garden.Cause(from), "It waits for nothing that is shown."
	if forward {
		to, none = a.garden.Effect(from), "Nothing that is shown waits for it."
	}
	switch {
	case from == schedule.Nothing:
		a.notice = "Choose a task or a lorry first."
		return a
	case to == schedule.Nothing:
		a.notice = none
		return a
	}
	a.picked = true
	if a.page.kind == aboutPage {
		a.page = overlay{kind: aboutPage, of: to}
	}
	if a = a.choose(to); a.page.kind == noPage && a.chosen() != to {
		a.notice = a.garden.Name(to) + " isn't in this view; " + a.keys.Window.Help().Key + " shows the window."
	}
	return a
}
