package tui

import (
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/schedule"
	"build.example/turflast/tui/draw"
)

// WhatIfs keeps what-ifs in files. Its methods run beside the screen.
type WhatIfs interface {
	// List returns the names of the what-ifs that can be opened.
	List() []string

	// Open reads a what-if by its name.
	Open(name string) (*schedule.WhatIf, error)

	// Save writes a what-if to a new file named after it, and returns the file's name.
	// It overwrites none.
	Save(set *schedule.WhatIf) (file string, err error)
}

// Messages about the files of what-ifs.
type (
	listedMsg struct{ names []string }
	openedMsg struct {
		set *schedule.WhatIf
		err error
	}
	savedMsg struct {
		name, file string
		err        error
	}
)

// askName asks for the name to save the changes under.
func (a app) askName() app {
	switch {
	case a.opts.WhatIfs == nil:
		a.notice = "There is no place to save a what-if in."
	case len(a.want.trials.InForce()) == 0:
		a.notice = "Nothing to save: no change is in force."
	default:
		a.prompt = prompt{kind: namePrompt, text: a.want.trials.Name()}
	}
	return a
}

// saveTrials saves the changes in force.
func (a app) saveTrials() (app, tea.Cmd) {
	name := strings.Join(strings.Fields(a.prompt.text), " ")
	if name == "" {
		a.prompt.fault = "Give it a name, such as late slate."
		return a, nil
	}
	a.prompt = prompt{}
	files, set := a.opts.WhatIfs, a.want.trials.Saved(name)
	return a, func() tea.Msg {
		file, err := files.Save(set)
		return savedMsg{name, file, err}
	}
}

// askFile lists the what-ifs; once they are listed, it asks for one.
func (a app) askFile() (app, tea.Cmd) {
	if a.opts.WhatIfs == nil {
		a.notice = "There is no place to open a what-if from."
		return a, nil
	}
	files := a.opts.WhatIfs
	return a, func() tea.Msg { return listedMsg{files.List()} }
}

// openTrials reads the what-if whose name was typed.
func (a app) openTrials() (app, tea.Cmd) {
	name := strings.TrimSpace(a.prompt.text)
	if name == "" {
		a.prompt.fault = "Name one; tab goes through them."
		return a, nil
	}
	a.prompt = prompt{}
	files := a.opts.WhatIfs
	return a, func() tea.Msg {
		set, err := files.Open(name)
		return openedMsg{set, err}
	}
}

// filed handles the messages about the files of what-ifs.
func (a app) filed(msg tea.Msg) (app, tea.Cmd) {
	switch msg := msg.(type) {
	case listedMsg:
		if len(msg.names) == 0 {
			a.notice = "No what-if is saved here yet."
			return a, nil
		}
		a.prompt = prompt{kind: openPrompt, names: msg.names, text: msg.names[0]}
	case savedMsg:
		if msg.err != nil {
			a.notice = "! Not saved: " + draw.Clean(msg.err.Error()) + "."
			return a, nil
		}
		a.want.trials = a.want.trials.Named(msg.name)
		a.notice = "Saved as " + draw.Clean(msg.file) + "."
	case openedMsg:
		if msg.err != nil {
			a.notice = "! " + draw.Clean(msg.err.Error())
			return a, nil
		}
		return a.try(a.want.trials.Open(msg.set))
	}
	return a, nil
}
