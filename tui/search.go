package tui

import (
	"context"
	"sync/atomic"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"turflast/calendars"
	"turflast/tui/draw"
)

// A search is told of once it takes longer than soon, and then anew so often.
const (
	soon  = 500 * time.Millisecond
	again = 250 * time.Millisecond
)

// search looks for a crew programme beside the screen.
type search struct {
	gen  int
	stop context.CancelFunc
	best atomic.Int64 // the earliest finish so far, 0 before there is one
	slow bool         // it takes longer than half a second
}

// better takes note of a better programme. A search that begins anew may tell of
// one that is worse than what was found before.
func (s *search) better(finish calendars.Instant) {
	if best := s.best.Load(); best == 0 || int64(finish) < best {
		s.best.Store(int64(finish))
	}
}

// Messages of a search.
type (
	foundMsg struct {
		gen      int
		solution Solution
		err      error
	}
	slowMsg struct{ gen int }
)

// look begins to look for the crew programme of what is shown, if it is wanted
// and nothing else is looked for: a search that was stopped ends first.
func (a app) look() (app, tea.Cmd) {
	if a.logicOnly || a.crews != nil || a.search != nil || a.logic == nil || a.solving {
		return a, nil
	}
	ctx, stop := context.WithCancel(context.Background())
	s := &search{gen: a.gen, stop: stop}
	a.search = s
	plan, crews := a.shown.plan, a.opts.Crews
	run := func() tea.Msg {
		defer stop()
		solution, err := crews(ctx, plan, s.better)
		return foundMsg{s.gen, solution, err}
	}
	return a, tea.Batch(run, a.wait(soon, slowMsg{s.gen}))
}

// halt stops the search for a programme, and the studies of one, that nobody
// waits for any more.
func (a app) halt() {
	a.endStudies()
	if a.search != nil {
		a.search.stop()
	}
}

// found shows a crew programme, if it is the one that is waited for.
func (a app) found(msg foundMsg) (app, tea.Cmd) {
	a.search = nil
	if msg.gen != a.gen {
		return a.look()
	}
	if msg.err != nil {
		a.failed, a.broken = msg.err.Error(), true
		return a, nil
	}
	a.crews = &msg.solution
	return a.show(), nil
}

// slowed makes a search that goes on be told of, again and again.
func (a app) slowed(msg slowMsg) (app, tea.Cmd) {
	if a.search == nil || a.search.gen != msg.gen {
		return a, nil
	}
	a.search.slow = true
	return a, a.wait(again, msg)
}

// turnScope shows the logic programme, or the crew programme again.
func (a app) turnScope() (app, tea.Cmd) {
	a.logicOnly = !a.logicOnly
	if a.logic == nil {
		return a, nil
	}
	return a.show().look()
}

// looking is what the bottom line says while the crew programme is looked for;
// empty when it isn't, or not for long.
func (a app) looking() string {
	s := a.search
	if s == nil || s.gen != a.gen || !s.slow || a.logicOnly {
		return ""
	}
	if best := calendars.Instant(s.best.Load()); best.IsReal() {
		return draw.Clean("Looking for better: " + a.words.Moment(best) + " so far · logic only is shown")
	}
	return "Looking for the crew programme · logic only is shown"
}

// wait sends a message after a while.
func wait(d time.Duration, msg tea.Msg) tea.Cmd {
	return tea.Tick(d, func(time.Time) tea.Msg { return msg })
}
