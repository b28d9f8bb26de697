package main

import (
	"errors"
	"fmt"
	"io"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/wording"
)

// screenFile is the plan's file for the terminal UI.
type screenFile struct {
	p   *program
	src source

	mu   sync.Mutex
	held []byte // the text that was read last
}

// read reads the file and holds its text, into which changes are written.
func (f *screenFile) read() ([]byte, error) {
	text, err := f.src.read()
	if err == nil {
		f.mu.Lock()
		f.held = text
		f.mu.Unlock()
	}
	return text, err
}

// text is the text that was read last.
func (f *screenFile) text() *planText {
	f.mu.Lock()
	defer f.mu.Unlock()
	return &planText{f.src, f.held}
}

// Draft says which lines of the text that was read last changes would change.
func (f *screenFile) Draft(tried *schedule.Plan, changes []schedule.Change) ([]string, error) {
	file := f.text()
	text, err := file.with(tried, changes)
	if err != nil {
		return nil, err
	}
	var lines []string
	for _, r := range rewritten(file.text, text) {
		lines = append(lines, r.Says()...)
	}
	return lines, nil
}

// Write writes changes into the text that was read last, if the file still has it.
func (f *screenFile) Write(
	tried *schedule.Plan, changes []schedule.Change,
) (said string, back func() error, err error) {
	file := f.text()
	text, err := file.with(tried, changes)
	if err != nil {
		return "", nil, err
	}
	if err := file.put(text); err != nil {
		return "", nil, err
	}
	name, lines := filepath.Base(f.src.path), rewritten(file.text, text)
	if len(lines) == 0 {
		return wording.Wrote(name, nil), nil, nil
	}
	back = func() error { return (&planText{f.src, text}).put(file.text) }
	return wording.Wrote(name, lines), back, nil
}

// Editor is the user's editor with the plan's file open at a line.
func (f *screenFile) Editor(line int) (tea.ExecCommand, error) {
	named := f.p.env.Getenv("VISUAL")
	if named == "" {
		named = f.p.env.Getenv("EDITOR")
	}
	words := strings.Fields(named)
	if len(words) == 0 {
		return nil, errors.New(wording.NoEditor)
	}
	path, err := exec.LookPath(words[0])
	if err != nil {
		return nil, fmt.Errorf("can't open the editor %s: %w", words[0], reason(errors.Unwrap(err)))
	}
	return editing{exec.Command(path, append(words[1:], atLine(words[0], f.src.path, line)...)...)}, nil
}

// editing is an editor at work in the terminal that it is given.
type editing struct{ *exec.Cmd }

func (e editing) SetStdin(r io.Reader)  { e.Stdin = r }
func (e editing) SetStdout(w io.Writer) { e.Stdout = w }
func (e editing) SetStderr(w io.Writer) { e.Stderr = w }

// atLine are the arguments with which an editor opens a file at a line, as far as that is known
// of it (from memory, by their manuals): others get the file alone.
func atLine(editor, file string, line int) []string {
	name := strings.TrimSuffix(filepath.Base(editor), filepath.Ext(editor))
	plus := []string{"vi", "vim", "nvim", "view", "nano", "pico", "emacs", "emacsclient", "joe", "jed", "micro", "ne",
		"kak", "mg", "mcedit", "gedit", "kate"}
	colon := []string{"hx", "helix", "subl", "zed"}
	switch {
	case slices.Contains(plus, name):
		return []string{fmt.Sprintf("+%d", line), file}
	case slices.Contains(colon, name):
		return []string{fmt.Sprintf("%s:%d", file, line)}
	case name == "code" || name == "codium":
		return []string{"--goto", fmt.Sprintf("%s:%d", file, line)}
	}
	return []string{file}
}
