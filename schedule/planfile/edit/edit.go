// Package edit writes a change of a plan into its text as a person would type it: only the
// characters concerned change; comments, order and layout stay, line breaks of either kind, and
// the want of one at the end.
//
// What is to be changed is told by the plan that the text should say. The text that is returned
// reads as exactly that plan, or there is none: what a plan's text has no way of saying, such as
// a lorry that is held up, is refused with the reason. Places come from the YAML library's nodes;
// the text itself is never written by it.
package edit

import (
	"bytes"
	"errors"
	"fmt"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/planfile"
)

// Write returns the text of a plan changed so that it says the plan that is wanted, which is one
// of it with changes, without what its log says. The error says why there is no such text.
func Write(text []byte, want *schedule.Plan) ([]byte, error) {
	was, problems := planfile.Read(bytes.NewReader(text))
	if problems.Fatal() {
		return nil, errors.New("the plan has faults: put them right first")
	}
	d, err := open(string(text))
	if err != nil {
		return nil, err
	}
	w := &writer{document: d, was: was, want: want}
	for _, part := range []func(){w.site, w.crews, w.machines, w.givens, w.deliveries, w.tasks, w.measures} {
		if part(); w.err != nil {
			return nil, w.err
		}
	}
	return w.checked()
}

// checked is the text once it reads as what is wanted.
func (w *writer) checked() ([]byte, error) {
	text := []byte(w.String())
	got, problems := planfile.Read(bytes.NewReader(text))
	if problems.Fatal() {
		return nil, faulty(problems)
	}
	if key := differs(got, w.want); key != "" {
		return nil, fmt.Errorf("what changes of %s can't be written so that the plan reads as it was tried: "+
			"change it by hand", key)
	}
	return text, nil
}

// faulty says which fault a plan would have.
func faulty(problems schedule.Problems) error {
	first := problems.Faults()[0]
	reason := first.Text
	if first.Hint != "" {
		reason += "; " + first.Hint
	}
	return fmt.Errorf("the plan would have a fault: %s", reason)
}

// writer brings a text, step by step, from one plan to another. After an error it does nothing.
type writer struct {
	*document
	was, want *schedule.Plan
	err       error
}

// do keeps the first error.
func (w *writer) do(err error) {
	if w.err == nil {
		w.err = err
	}
}

// refuse says why what is tried can't be written.
func (w *writer) refuse(format string, args ...any) {
	w.do(fmt.Errorf(format, args...))
}

// set is put unless there was an error.
func (w *writer) set(value string, way ...string) {
	if w.err == nil {
		w.do(w.put(value, way...))
	}
}

// unset is drop unless there was an error.
func (w *writer) unset(way ...string) {
	if w.err == nil {
		w.do(w.drop(way...))
	}
}

// append is add unless there was an error.
func (w *writer) append(item string, sorted bool, way ...string) {
	if w.err == nil {
		w.do(w.add(item, sorted, way...))
	}
}
