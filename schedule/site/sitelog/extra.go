package sitelog

import (
	"fmt"
	"slices"
	"strings"
)

// Work is work that a log adds to the plan: by itself, or as the condition on which a hold
// point was signed.
type Work struct{ Event }

// ID is the id that the work has in the plan.
func (w *Work) ID() string {
	if w.What == Signed {
		return w.Task + "-condition"
	}
	return w.Task
}

// add adds work, or says why it can't be.
func (s *State) add(w Work) (why string) {
	if slices.ContainsFunc(s.Works, func(x Work) bool { return x.ID() == w.ID() }) {
		return fmt.Sprintf("other work is called %s already; give it another name", w.ID())
	}
	s.Works = append(s.Works, w)
	return ""
}

// cancel takes a task out of the plan from a moment on. What is begun ends there.
func (s *State) cancel(e *Event) (why string) {
	t := s.task(e.Task)
	switch {
	case t.Cancelled != 0:
		return e.Task + " is cancelled already"
	case t.Finish != 0:
		return e.Task + " is finished already; undo that first if it was wrong"
	}
	t.Cancelled, t.CancelledWhy = e.At, e.Text
	if t.Start != 0 {
		t.Finish = e.At
		t.goOn(e.At)
	}
	return ""
}

// The names of lists of ids in an event are joined by commas.
const listed = ", "

// List splits the ids that a key of an event has.
func List(ids string) []string {
	if ids == "" {
		return nil
	}
	return strings.Split(ids, listed)
}

// Join joins ids for a key of an event.
func Join(ids []string) string { return strings.Join(ids, listed) }

// extra says whether an event changes what there is to do in the plan.
func (e *Event) extra() bool { return e.What == Added || e.What == Cancelled || e.conditional() }

// conditional says whether a hold point was signed on condition that something is done.
func (e *Event) conditional() bool { return e.What == Signed && e.Text != "" }
