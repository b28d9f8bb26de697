package main

import (
	"bytes"
	"errors"
	"fmt"
	"strconv"
	"strings"

	"github.com/rogpeppe/go-internal/diff"

	"build.example/turflast/cmd/turflast/swapfile"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/whatif"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/planfile/edit"
	"build.example/turflast/schedule/show/wording"
)

// planText is the text of a plan's file as it was read, into which changes are written.
type planText struct {
	src  source
	text []byte
}

// planText reads the text of a plan that has a file.
func (p *program) planText(src source) (*planText, error) {
	if src.path == "" {
		return nil, fmt.Errorf(wording.NoFileToWrite, src.name)
	}
	text, err := src.read()
	if err != nil {
		return nil, fmt.Errorf("can't read %s: %w", src.name, reason(err))
	}
	return &planText{src, text}, nil
}

// with is the text with changes, which were tried on the plan as its log has it.
func (t *planText) with(tried *schedule.Plan, changes []schedule.Change) ([]byte, error) {
	plan, problems := planfile.Read(bytes.NewReader(t.text))
	if problems.Fatal() {
		return nil, &problemsError{t.src.name, problems.Faults()}
	}
	for i := range changes {
		task := tried.FindTask(changes[i].Name)
		if changes[i].Kind == schedule.ChangeStretch && task != schedule.None && tried.Started(task) {
			return nil, fmt.Errorf("%q isn't written: "+wording.AlreadyBegun, changes[i].String(), tried.Tasks[task].Name)
		}
	}
	want, err := whatif.Apply(plan, changes)
	if err != nil {
		return nil, err
	}
	now, err := edit.Write(t.text, want)
	if err != nil {
		return nil, fmt.Errorf("%s isn't written: %w", t.src.name, err)
	}
	return now, nil
}

// put puts another text in the place of the file's, unless that is another by now.
func (t *planText) put(now []byte) error {
	err := swapfile.Swap(t.src.path, t.text, now)
	switch {
	case errors.Is(err, swapfile.ErrChanged):
		return fmt.Errorf(wording.WrittenMeanwhile, t.src.name)
	case err != nil:
		return fmt.Errorf("can't write %s: %w", t.src.name, reason(err))
	}
	return nil
}

// sayWritten says on standard error which lines of a plan's file read otherwise now.
func (p *program) sayWritten(file *planText, now []byte) {
	fmt.Fprintln(p.stderr, printable("turflast: wrote "+file.src.name))
	for _, r := range rewritten(file.text, now) {
		for _, line := range r.Says() {
			fmt.Fprintln(p.stderr, printable("  "+line))
		}
	}
}

// rewritten is what differs between two texts, by stretches of lines.
func rewritten(was, now []byte) []wording.Rewritten {
	var out []wording.Rewritten
	line, open := 0, false // of the text now
	for text := range strings.Lines(string(diff.Diff("was", was, "now", now))) {
		body := strings.TrimRight(text[1:], "\r\n")
		switch {
		case strings.HasPrefix(text, "@@"):
			_, at, _ := strings.Cut(body, " +")
			at, _, _ = strings.Cut(at, ",")
			line, _ = strconv.Atoi(at)
			open = false
		case line == 0 || text[0] == '\\':
			// the heading, or that a text has no line break at its end
		case text[0] == ' ':
			line, open = line+1, false
		default:
			if !open {
				out, open = append(out, wording.Rewritten{Line: line}), true
			}
			last := &out[len(out)-1]
			if text[0] == '-' {
				last.Was = append(last.Was, body)
			} else {
				last.Now = append(last.Now, body)
				line++
			}
		}
	}
	return out
}
