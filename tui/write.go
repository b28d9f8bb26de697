package tui

import (
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/tui/draw"
	"build.example/turflast/tui/trials"
)

// File is the plan's file, which is written and edited. Its methods run beside the screen,
// but for Editor.
type File interface {
	// Draft is what Write would write, a line for each that changes. The error says why nothing
	// would be.
	Draft(tried *schedule.Plan, changes []schedule.Change) ([]string, error)

	// Write writes changes, which were tried on a plan, into the file that was loaded last. It
	// says what it wrote in a sentence; back writes the text before again. The error says why
	// nothing is written.
	Write(tried *schedule.Plan, changes []schedule.Change) (said string, back func() error, err error)

	// Editor is the user's editor with the file open at a line. The error says why there is none.
	Editor(line int) (tea.ExecCommand, error)
}

// written is what was written into the plan's file last, so that it can be taken back.
type written struct {
	back   func() error // nil when nothing was
	trials trials.Set   // as they were tried
}

// Messages about the plan's file.
type (
	writtenMsg struct {
		said string
		back func() error
		set  trials.Set // as it was tried
		err  error
	}
	draftedMsg struct {
		changes, lines []string
		err            error
	}
	unwrittenMsg struct{ err error }
	editedMsg    struct{ err error }
)

// askWrite finds out what the changes in force would write into the plan's file, and then asks
// whether they are to; without any it asks whether what was written is to be taken back.
func (a app) askWrite() (app, tea.Cmd) {
	file, filed, changes := a.opts.File, a.want.filed, a.want.trials.InForce()
	switch {
	case file == nil:
		a.notice = wording.NothingToWriteTo
	case len(changes) > 0:
		return a, func() tea.Msg {
			lines, err := file.Draft(filed, changes)
			return draftedMsg{textsOf(changes), lines, err}
		}
	case a.written.back != nil:
		a.prompt = prompt{kind: backPrompt}
	default:
		a.notice = wording.NothingToWrite
	}
	return a, nil
}

func textsOf(changes []schedule.Change) []string {
	var out []string
	for i := range changes {
		out = append(out, changes[i].String())
	}
	return out
}

// drafted shows what would be written and asks whether it is to be, unless something else is tried
// or typed by now.
func (a app) drafted(msg draftedMsg) app {
	switch {
	case a.prompt.kind != noPrompt || !slices.Equal(textsOf(a.want.trials.InForce()), msg.changes):
	case msg.err != nil:
		a.notice = "! " + draw.Clean(msg.err.Error()) + "."
	case len(msg.lines) == 0:
		a.notice = wording.Wrote(draw.Clean(a.opts.Name), nil)
	default:
		a.prompt = prompt{kind: writePrompt, names: msg.lines}
	}
	return a
}

// draftShare is the part of a frame's height that lines to be written take at most.
const draftShare = 5

// draft is what would be written while it is asked, as far as there is room.
func (a app) draft() []string {
	if a.prompt.kind != writePrompt {
		return nil
	}
	lines := a.prompt.names
	if most := max(a.size.Height/draftShare, 1); len(lines) > most {
		more := wording.Count(len(lines)-most+1, "line", "lines") + " more"
		lines = append(slices.Clone(lines[:most-1]), "and "+more)
	}
	return lines
}

// writeWords asks before the plan's file is written.
func (a app) writeWords() string {
	file := draw.Clean(a.opts.Name)
	if a.prompt.kind == backPrompt {
		return wording.AskBack(file)
	}
	list := a.want.trials.InForce()
	return wording.AskWrite(file, draw.Clean(list[0].String()), len(list)-1)
}

// writing handles a key while it is asked whether to write: enter does, esc doesn't.
func (a app) writing(k tea.KeyMsg) (app, tea.Cmd) {
	back := a.prompt.kind == backPrompt
	switch k.Type {
	case tea.KeyEsc:
		a.prompt = prompt{}
		return a, nil
	case tea.KeyEnter:
		a.prompt = prompt{}
	default:
		return a, nil
	}
	if back {
		undo := a.written.back
		return a, func() tea.Msg { return unwrittenMsg{undo()} }
	}
	file, filed, set := a.opts.File, a.want.filed, a.want.trials
	return a, func() tea.Msg {
		said, undo, err := file.Write(filed, set.InForce())
		return writtenMsg{said, undo, set, err}
	}
}

// edit opens the user's editor at the line of what is chosen, or of what is wrong with the file.
func (a app) edit() (app, tea.Cmd) {
	if a.opts.File == nil {
		a.notice = wording.NothingToWriteTo
		return a, nil
	}
	editor, err := a.opts.File.Editor(a.line())
	if err != nil {
		a.notice = "! " + draw.Clean(err.Error()) + "."
		return a, nil
	}
	return a, tea.Exec(editor, func(err error) tea.Msg { return editedMsg{err} })
}

// line is the line of the plan's file at which the editor opens.
func (a app) line() int {
	if faults := a.problems.Faults(); a.broken && len(faults) > 0 {
		return max(faults[0].Pos.Line, 1)
	}
	if a.garden == nil {
		return 1
	}
	at := schedule.Pos{}
	if t, ok := a.garden.Plan.Task(a.chosen()); ok {
		at = a.garden.Plan.Tasks[t].Pos
	} else if d, ok := a.garden.Plan.Delivery(a.chosen()); ok {
		at = a.garden.Plan.Deliveries[d].Pos
	}
	return max(at.Line, 1)
}

// filePut handles the messages about the plan's file; after each it is read anew.
func (a app) filePut(msg tea.Msg) (app, tea.Cmd) {
	var err error
	switch msg := msg.(type) {
	case writtenMsg:
		if err = msg.err; err == nil {
			a.notice = draw.Clean(msg.said)
			if msg.back != nil {
				a.written = written{msg.back, msg.set}
			}
			a.want.trials = a.want.trials.Written(msg.set)
		}
	case unwrittenMsg:
		if err = msg.err; err == nil {
			a.notice = wording.TookBack(draw.Clean(a.opts.Name))
			a.want.trials, a.written = a.written.trials, written{}
		}
	case editedMsg:
		err = msg.err
	}
	if err != nil {
		a.notice = "! " + draw.Clean(err.Error()) + "."
		if _, edited := msg.(editedMsg); !edited {
			return a, nil
		}
	}
	return a, load(a.opts)
}
