package tui

import (
	"errors"
	"io"
	"runtime"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
)

// shaky is a model that panics in one place.
type shaky struct{ where string }

type shakyMsg struct{}

func (s shaky) Init() tea.Cmd {
	if s.where != "command" {
		return func() tea.Msg { return shakyMsg{} }
	}
	return tea.Batch(func() tea.Msg { return nil }, func() tea.Msg { panic("out of turf") })
}

func (s shaky) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	if _, ok := msg.(shakyMsg); ok && s.where == "update" {
		panic("out of turf")
	}
	return s, nil
}

func (s shaky) View() string {
	if s.where == "view" {
		panic("out of turf")
	}
	return s.where
}

// A panic anywhere ends the program, and is reported with the place where it
// happened.
func TestPanicsEndInGoodOrder(t *testing.T) {
	for _, where := range []string{"update", "view", "command"} {
		t.Run(where, func(t *testing.T) {
			err := run(shaky{where}, tea.WithInput(nil), tea.WithOutput(io.Discard), tea.WithoutSignalHandler())
			var p *Panic
			if !errors.As(err, &p) || p.Error() != "out of turf" {
				t.Fatalf("the error is %v", err)
			}
			frame, names := runtime.Frame{}, ""
			for frames, more := runtime.CallersFrames(p.Frames()), true; more; {
				frame, more = frames.Next()
				names += frame.Function + "\n"
			}
			if !strings.Contains(names, "shaky") {
				t.Errorf("the stack doesn't say where:\n%s", names)
			}
		})
	}
}
