package tui

import (
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/schedule"
)

// pollEvery is how often the plan's file is looked at: often enough to show a save soon,
// and cheap.
const pollEvery = 500 * time.Millisecond

// Messages are what the commands bring back.
type (
	pollMsg   struct{}
	statMsg   struct{ stamp string }
	loadedMsg struct {
		plan     *schedule.Plan
		problems schedule.Problems
		stamp    string // of the file before it was read
	}
	solvedMsg struct {
		gen      int
		target   target
		basis    basis // of that target
		solution solution
		err      error
	}
)

// poll waits for the next look at the file.
func poll() tea.Cmd {
	return tea.Tick(pollEvery, func(time.Time) tea.Msg { return pollMsg{} })
}

// stat looks at the file.
func stat(opts Options) tea.Cmd {
	return func() tea.Msg { return statMsg{opts.Stat()} }
}

// load reads the plan.
func load(opts Options) tea.Cmd {
	return func() tea.Msg {
		stamp := ""
		if opts.Stat != nil {
			stamp = opts.Stat()
		}
		plan, problems := opts.Load()
		return loadedMsg{plan, problems, stamp}
	}
}

// solve makes the logic programme of what is wanted, and compares it with that of the
// plan as filed, which it makes as well if need be.
func (a app) solve() tea.Cmd {
	opts, gen, t, b := a.opts, a.gen, a.want, a.basis
	if a.stale {
		b = basis{}
	}
	return func() tea.Msg {
		if b.logic == nil {
			logic, err := opts.Logic(t.filed)
			if err != nil {
				return solvedMsg{gen: gen, target: t, err: err}
			}
			b = basis{plan: t.filed, logic: &solution{Case: logic}}
		}
		if t.plan == t.filed {
			return solvedMsg{gen, t, b, *b.logic, nil}
		}
		logic, err := opts.Logic(t.plan)
		if err != nil {
			return solvedMsg{gen: gen, target: t, err: err}
		}
		return solvedMsg{gen, t, b, against(b.logic.Case, logic), nil}
	}
}
