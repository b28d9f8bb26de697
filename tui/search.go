package tui

import (
	"context"
	"fmt"
	"sync/atomic"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/whatif"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/site/slip"
	"build.example/turflast/tui/draw"
)

// A search is shown once it takes longer than soon, and then its progress at this
// interval.
const (
	soon  = 500 * time.Millisecond
	again = 250 * time.Millisecond
)

// search looks for a crew programme beside the screen.
type search struct {
	plan *schedule.Plan
	stop context.CancelFunc
	best atomic.Int64 // the earliest finish so far, 0 before there is one
	slow bool         // it takes longer than half a second

	looks int // at it since then
}

// better remembers a better finish. A search that begins again may report one that is
// worse than what it found before.
func (s *search) better(finish calendars.Instant) {
	if best := s.best.Load(); best == 0 || int64(finish) < best {
		s.best.Store(int64(finish))
	}
}

// Messages of a search.
type (
	foundMsg struct {
		search   *search
		stopped  bool // it found nothing to keep
		solution solution
		err      error
	}
	slowMsg struct{ search *search }
)

// basis is the plan as filed with its programmes, which changes are compared with.
type basis struct {
	plan         *schedule.Plan
	logic, crews *solution // nil until there is one
}

// solution is a solved plan.
type solution struct {
	network.Case

	trial *draw.Trial // what the changes do; nil without any
	slip  *slip.Slip  // how far it is from what was agreed; nil when nothing was, or with changes
}

// look begins a search for a crew programme, if one is wanted and no search runs. The
// plan as filed comes first and keeps to what was agreed; then the plan with changes,
// which keeps to the first programme as well as it can. A search that was stopped must
// end first.
func (a app) look() (app, tea.Cmd) {
	if a.logicOnly || a.crews != nil || a.search != nil || a.logic == nil || a.solving {
		return a, nil
	}
	ctx, stop := context.WithCancel(context.Background())
	s := &search{plan: a.shown.plan, stop: stop}
	if a.basis.crews == nil {
		s.plan = a.basis.plan
	}
	a.search = s
	basis, crews, near, site := a.basis, a.opts.Crews, a.site.agreed.Programme, a.site
	run := func() tea.Msg {
		defer stop()
		if s.plan != basis.plan {
			near = whatif.Reference(basis.crews.Case, s.plan)
		}
		c, err := crews(ctx, s.plan, near, s.better)
		var found solution
		switch {
		case err != nil:
		case s.plan != basis.plan:
			found = against(basis.crews.Case, c)
		default:
			found = slipped(c, site)
		}
		return foundMsg{s, ctx.Err() != nil, found, err}
	}
	return a, tea.Batch(run, a.wait(soon, slowMsg{s}))
}

// against returns a programme with changes as a solution, compared with the one without
// them.
func against(before, after network.Case) solution {
	return solution{Case: after, trial: draw.NewTrial(whatif.Compare(before, after))}
}

// halt stops the search for a programme, and all studies.
func (a app) halt() {
	a.endStudies()
	if a.search != nil {
		a.search.stop()
	}
}

// supersede stops what isn't needed for a new target. The search for the programme of
// the plan as filed goes on.
func (a app) supersede() {
	a.endStudies()
	if s := a.search; s != nil && s.plan != a.want.filed && s.plan != a.want.plan {
		s.stop()
	}
}

// found takes a crew programme from a search and shows it if it is the one wanted, or
// else begins the next search.
func (a app) found(msg foundMsg) (app, tea.Cmd) {
	a.search = nil
	filed, shown := msg.search.plan == a.basis.plan && msg.search.plan == a.want.filed, msg.search.plan == a.want.plan
	switch {
	case msg.stopped || !filed && !shown:
		return a.look()
	case msg.err != nil:
		a.failed, a.broken = msg.err.Error(), true
		return a, nil
	}
	if filed {
		a.basis.crews = &msg.solution
	}
	if msg.search.plan == a.shown.plan && shown {
		a.crews = &msg.solution
		return a.show(), nil
	}
	return a.look()
}

// slowed marks a search that still runs as slow, so that it is shown, and asks for the
// next look at it.
func (a app) slowed(msg slowMsg) (app, tea.Cmd) {
	if a.search == nil || a.search != msg.search {
		return a, nil
	}
	if a.search.slow {
		a.search.looks++
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

// looking returns what the bottom line says while a search has run for some time; empty
// otherwise.
func (a app) looking() string {
	s := a.search
	if s == nil || !s.slow || a.logicOnly || a.crews != nil {
		return ""
	}
	shown := "logic only is shown"
	if a.waiting() {
		shown = "the programme before is shown"
	}
	seconds := int((soon + time.Duration(s.looks)*again) / time.Second)
	took := ""
	if seconds > 0 {
		took = fmt.Sprintf(", %d s", seconds)
	}
	best := calendars.Instant(s.best.Load())
	switch {
	case s.plan != a.shown.plan:
		return "Looking for the crew programme without the changes first" + took + " · " + shown
	case best.IsReal():
		return draw.Clean("Looking for better: " + a.words.Moment(best) + " so far" + took + " · " + shown)
	}
	return "Looking for the crew programme" + took + " · " + shown
}

// wait sends a message after a while.
func wait(d time.Duration, msg tea.Msg) tea.Cmd {
	return tea.Tick(d, func(time.Time) tea.Msg { return msg })
}
