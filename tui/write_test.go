package tui

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/whatif"
)

// desk is a plan's file in memory: what is written to it is the next plan that is read.
type desk struct {
	b       *bench
	refuses error
	lines   []int // at which an editor was opened
}

func (d *desk) Write(_ *schedule.Plan, changes []schedule.Change) (string, func() error, error) {
	if d.refuses != nil {
		return "", nil, d.refuses
	}
	was := d.b.file.plan
	now, err := whatif.Apply(was, changes)
	if err != nil {
		return "", nil, err
	}
	d.b.file.plan = now
	return "Wrote plan.yaml, line 7.", func() error { d.b.file.plan = was; return d.refuses }, nil
}

func (d *desk) Draft(_ *schedule.Plan, changes []schedule.Change) (lines []string, err error) {
	if _, err := whatif.Apply(d.b.file.plan, changes); err != nil {
		return nil, err
	}
	for i := range changes {
		lines = append(lines, fmt.Sprintf("line %d: %s", 7+i, changes[i].String()))
	}
	return lines, nil
}

func (d *desk) Editor(line int) (tea.ExecCommand, error) {
	d.lines = append(d.lines, line)
	return nothingRun{}, d.refuses
}

// nothingRun is an editor that is closed at once.
type nothingRun struct{}

func (nothingRun) Run() error          { return nil }
func (nothingRun) SetStdin(io.Reader)  {}
func (nothingRun) SetStdout(io.Writer) {}
func (nothingRun) SetStderr(io.Writer) {}

func atDesk(t *testing.T) (*bench, *desk) {
	b := demo(t)
	d := &desk{b: b}
	a := b.app()
	a.opts.File = d
	b.model = a
	return b, d
}

// What is tried goes into the file once that was asked; what was set aside stays tried, and the
// same key takes it back.
func TestWriteWhatIsTried(t *testing.T) {
	b, _ := atDesk(t)
	pots := b.file.plan.FindTask("pots")
	b.press("w", "I")
	b.sees("Nothing to write: no change is in force.")
	b.press(":", "rain on Tue 4 May", "enter", "S", ":", "drop pots", "enter", "I")
	b.sees("line 7: drop pots", "Write into plan.yaml: drop pots? enter writes, esc doesn't")
	b.lacks("line 8")
	b.press("esc")
	if b.file.plan.FindTask("pots") != pots {
		t.Fatal("it was written without an answer")
	}
	b.press("I", "x", "enter")
	b.sees("Wrote plan.yaml, line 7.", "(wet on 2027-05-04)")
	if b.file.plan.FindTask("pots") != schedule.None || len(b.changes()) != 0 {
		t.Errorf("written: %v; still in force: %q", b.file.plan.FindTask("pots"), b.changes())
	}
	b.press("u")
	b.sees("Nothing to take back")
	b.press("I")
	b.sees("Take back what was written into plan.yaml?")
	b.press("enter")
	b.sees("plan.yaml reads as it did before.", "drop pots")
	if b.file.plan.FindTask("pots") != pots || len(b.changes()) != 1 {
		t.Errorf("taken back: %v; in force: %q", b.file.plan.FindTask("pots"), b.changes())
	}
	b.press("I", "esc", "D")
}

// What would be written is shown as far as there is room; where nothing would be, it is said at once.
func TestWhatWouldBeWritten(t *testing.T) {
	b, _ := atDesk(t)
	b.press("w")
	for i := range 10 {
		b.press(":", fmt.Sprintf("rename pots to Pots %d", i), "enter")
	}
	b.press("I")
	b.sees("line 7: rename pots", "line 13: rename pots", "and 3 lines more", "and 9 changes more? enter writes")
	b.lacks("line 14")
	b.press("esc")
	b.lacks("line 7: rename pots")
	b.model, _ = b.model.Update(draftedMsg{changes: []string{"drop pots"}, lines: []string{"line 3"}})
	b.lacks("line 3") // by now something else is tried
	b.press("I")
	b.model, _ = b.model.Update(draftedMsg{err: errors.New("the plan has faults")})
	b.lacks("the plan has faults")
}

// Why nothing was written is said, and what is tried stays.
func TestNothingWritten(t *testing.T) {
	b, d := atDesk(t)
	d.refuses = errors.New("plan.yaml has changed since it was read")
	b.press("w", ":", "drop pots", "enter", ":", "rain on Tue 4 May", "enter", "I")
	b.sees("Write into plan.yaml: drop pots; and 1 change more?")
	b.press("enter")
	b.sees("! plan.yaml has changed since it was read.")
	if len(b.changes()) != 2 {
		t.Errorf("in force: %q", b.changes())
	}
	b.press("E")
	b.sees("! plan.yaml has changed since it was read.")
	a := b.app()
	a.opts.File = nil
	b.model = a
	for _, key := range []string{"I", "E"} {
		b.press(key)
		b.sees(`This plan has no file: "turflast new" or "turflast demo" makes one.`)
	}
}

// The editor opens at what is chosen, or at the first fault; the file is read once it is closed.
func TestEditor(t *testing.T) {
	b, d := atDesk(t)
	b.press("/", "pots", "enter", "E")
	p := b.file.plan
	want := p.Tasks[p.FindTask("pots")].Pos.Line
	if len(d.lines) != 1 || d.lines[0] != want || want < 2 {
		t.Fatalf("opened at %v, pots stand at line %d", d.lines, want)
	}
	b.file.plan, _ = whatif.Apply(p, []schedule.Change{{Kind: schedule.ChangeDrop, Name: "pots"}})
	b.send(editedMsg{})
	if strings.Contains(b.model.View(), "pots 5h") || b.app().site.file != b.file.plan {
		t.Error("the screen doesn't follow the editor")
	}
	b.file.problems = schedule.Problems{{Pos: schedule.Pos{Line: 9, Column: 2}, Text: "unknown key"}}
	b.send(editedMsg{errors.New("exit status 1")})
	b.sees("! exit status 1.", "The last good plan is shown")
	b.press("E")
	if d.lines[len(d.lines)-1] != 9 {
		t.Errorf("opened at %v, the fault is on line 9", d.lines)
	}
}
