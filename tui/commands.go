package tui

import (
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"turflast/schedule"
)

// pollEvery is how often the plan's file is looked at: soon enough after a
// save, and no load.
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
		solution Solution
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

// solve makes the logic programme of a target.
func solve(opts Options, gen int, t target) tea.Cmd {
	return func() tea.Msg {
		solution, err := opts.Logic(t.plan)
		return solvedMsg{gen, t, solution, err}
	}
}
