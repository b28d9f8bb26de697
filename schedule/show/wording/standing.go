package wording

import (
	"fmt"
	"slices"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/site/progress"
	"build.example/turflast/schedule/site/sitelog"
)

// mostNamed is how many things a sentence names before it counts the rest.
const mostNamed = 3

// OutOfOrder says what a task that was started out of sequence should have waited for,
// as a sentence; empty if it wasn't. The writer must be that of the standing's plan.
func (w *Writer) OutOfOrder(s *progress.Standing, t schedule.TaskID) string {
	var waits []string
	for _, o := range s.OutOfOrder {
		if o.Task == t {
			waits = append(waits, w.passed(o))
		}
	}
	if len(waits) == 0 {
		return ""
	}
	return fmt.Sprintf("%s was started %s out of sequence: %s.", w.Task(t), w.Moment(w.plan.Progress.Tasks[t].Start),
		listUpTo(mostNamed, waits))
}

// passed says what hadn't happened when a task was started, as a clause.
func (w *Writer) passed(o progress.OutOfOrder) string {
	if o.Given != schedule.None {
		return w.plan.Givens[o.Given].What + " wasn't there"
	}
	after, task := w.plan.Task(o.After)
	if !task {
		return w.Activity(o.After) + " " + w.lorryHadnt(o)
	}
	s := w.wasnt(after, w.plan.Progress.Tasks[o.Task].Start)
	switch {
	case o.Rule == schedule.WayIn:
		s += " (it closes the way in)"
	case o.Rule != schedule.None:
		s += " (" + w.plan.Rules[o.Rule].Text + ")"
	}
	return s
}

// wasnt says what hadn't happened to a task at a moment, as a clause.
func (w *Writer) wasnt(after schedule.TaskID, start calendars.Instant) string {
	was := &w.plan.Progress.Tasks[after]
	s := "the wait after " + w.Task(after) + " wasn't over"
	switch {
	case was.Start == 0 || was.Start > start:
		s = w.Task(after) + " wasn't started"
	case was.Before != 0 && was.Before <= start:
		s = w.Task(after) + " wasn't signed"
	case was.Finish == 0 || was.Finish > start:
		s = w.Task(after) + " wasn't finished"
	case w.plan.Tasks[after].Hold != nil && (was.Signed == 0 || was.Signed > start):
		s = w.Task(after) + " wasn't signed"
	}
	return s
}

// Together says that two tasks that are to be kept apart went on side by side, as a
// sentence.
func (w *Writer) Together(x progress.Together) string {
	rule := "the plan keeps them apart"
	if x.Rule != schedule.None {
		rule = w.plan.Rules[x.Rule].Text
	}
	return fmt.Sprintf("%s went on beside %s from %s: %s.", w.Task(x.Task), w.Task(x.Beside), w.Moment(x.From), rule)
}

// Overdue says that a lorry hasn't come by its booking, as a sentence.
func (w *Writer) Overdue(o progress.Overdue) string {
	return fmt.Sprintf("%s hasn't come; it was booked for %s, and is expected %s.",
		w.lorryNamed(w.plan.Deliveries[o.Delivery].ID), w.Moment(o.Booked), w.expected(o.Delivery, "now"))
}

// expected says when a lorry that hasn't come is expected: at a moment to come, such as
// the next at which the gate opens, or else as now says it.
func (w *Writer) expected(d schedule.DeliveryID, now string) string {
	if at := w.plan.Deliveries[d].Arrives; at > w.plan.Now() {
		return w.Moment(at)
	}
	return now
}

// Assumed says when a refused lorry is taken to come again, as a sentence.
func (w *Writer) Assumed(d schedule.DeliveryID) string {
	if parts := w.plan.Progress.Deliveries[d].Parts; len(parts) > 0 && !w.plan.Progress.Deliveries[d].Refused {
		return fmt.Sprintf("%s came short, %s, and the rest isn't booked; it is taken to come %s.",
			w.lorryNamed(w.plan.Deliveries[d].ID), parts[len(parts)-1].Short, w.Moment(w.plan.Deliveries[d].Arrives))
	}
	return fmt.Sprintf("%s was refused and isn't booked again; it is taken to come %s.",
		w.lorryNamed(w.plan.Deliveries[d].ID), w.Moment(w.plan.Deliveries[d].Arrives))
}

// Absent says that a machine is away as at the moment, since when and until when, as sentences;
// empty if it isn't.
func (w *Writer) Absent(s *progress.Standing, m schedule.MachineID) string {
	all := s.State.Away[w.plan.Machines[m].ID]
	if len(all) == 0 || all[len(all)-1].Until <= w.plan.Now() {
		return ""
	}
	a, name := &all[len(all)-1], w.plan.Machines[m].Name
	text := fmt.Sprintf("%s is away since %s", name, w.Moment(a.From))
	if a.Why != "" {
		text += " (" + strings.TrimSuffix(a.Why, ".") + ")"
	}
	if a.Until == calendars.Never {
		return text + fmt.Sprintf("; nobody has said until when: it is taken to be away for the rest of today. "+
			"Once it is there: \"turflast log back %s\".", w.plan.Machines[m].ID)
	}
	return text + ", to be back " + w.Moment(a.Until) + "."
}

// absent lists the machines that are away as at the moment.
func (w *Writer) absent(s *progress.Standing) (out []Remark) {
	for i := range w.plan.Machines {
		if text := w.Absent(s, schedule.MachineID(i)); text != "" {
			out = append(out, Remark{AbsentMachine, schedule.Nothing, "", text})
		}
	}
	return out
}

// Conflict says why an event doesn't count, as a sentence.
func (w *Writer) Conflict(c *sitelog.Conflict) string {
	return fmt.Sprintf("%s doesn't count: %s.", w.logged(&c.Event), c.Why)
}

// Unknown says that an event is about something that isn't in the plan, as a sentence.
func (w *Writer) Unknown(e *sitelog.Event) string {
	return fmt.Sprintf("%s is kept, but the plan has no such thing.", w.logged(e))
}

// logged names an event in a sentence.
func (w *Writer) logged(e *sitelog.Event) string {
	return fmt.Sprintf("\"%s\" (%s)", w.Event(e), w.whenBy(e))
}

// whenBy says when something was logged and, if that is known, by whom.
func (w *Writer) whenBy(e *sitelog.Event) string {
	if e.By == "" {
		return w.Moment(e.At)
	}
	return w.Moment(e.At) + ", by " + e.By
}

// Remark is something that a log says besides the dates it gives.
type Remark struct {
	Kind     RemarkKind
	Activity schedule.Activity // or Nothing
	Event    string            // the id of an event that doesn't fit; else empty
	Text     string            // as a sentence
}

// RemarkKind says what a remark is about.
type RemarkKind string

// The kinds of remark.
const (
	FailedSignOff RemarkKind = "failed_sign_off" // a task whose sign-off failed and isn't got since
	OutOfSequence RemarkKind = "out_of_sequence" // a task that was started before something it follows was over
	KeptApart     RemarkKind = "kept_apart"      // a task that went on beside another against the plan
	OverdueLorry  RemarkKind = "overdue"         // a delivery that hasn't come
	RefusedLorry  RemarkKind = "refused"         // a delivery that was sent away and not booked again
	AbsentMachine RemarkKind = "away"            // a machine that is away as at the moment
	ConflictEvent RemarkKind = "conflict"        // an event that contradicts others, and doesn't count
	UnknownEvent  RemarkKind = "unknown"         // an event about something that isn't in the plan
)

// Standing is all that a log says besides the dates it gives, in the order of the kinds.
// The writer must be that of the standing's plan.
func (w *Writer) Standing(s *progress.Standing) []Remark {
	var out []Remark
	for i := range w.plan.Tasks {
		if t, was := schedule.TaskID(i), &w.plan.Progress.Tasks[i]; was.Failed != 0 && was.Signed == 0 {
			out = append(out, Remark{FailedSignOff, t.Activity(), "", w.failed(w.Task(t), t)})
		}
	}
	for t := range w.plan.Tasks {
		if text := w.OutOfOrder(s, schedule.TaskID(t)); text != "" {
			out = append(out, Remark{OutOfSequence, schedule.Activity(t), "", text})
		}
	}
	for _, x := range s.Together {
		out = append(out, Remark{KeptApart, x.Task.Activity(), "", w.Together(x)})
	}
	for _, o := range s.Overdue {
		out = append(out, Remark{OverdueLorry, w.plan.Unload(o.Delivery), "", w.Overdue(o)})
	}
	for _, d := range s.Assumed {
		out = append(out, Remark{RefusedLorry, w.plan.Unload(d), "", w.Assumed(d)})
	}
	out = append(out, w.absent(s)...)
	for i := range s.State.Conflicts {
		c := &s.State.Conflicts[i]
		out = append(out, Remark{ConflictEvent, schedule.Nothing, c.Event.ID, w.Conflict(c)})
	}
	for i := range s.Unknown {
		out = append(out, Remark{UnknownEvent, schedule.Nothing, s.Unknown[i].ID, w.Unknown(&s.Unknown[i])})
	}
	return out
}

// EventIn is [Writer.Event], but for an event that takes another one back, or closes a
// snag, it quotes that other event if events has it.
func (w *Writer) EventIn(events []sitelog.Event, e *sitelog.Event) string {
	const deep = 2 // an undo of a snag that was put right
	return w.eventIn(events, e, deep)
}

func (w *Writer) eventIn(events []sitelog.Event, e *sitelog.Event, deep int) string {
	if e.Of == "" || deep == 0 {
		return w.Event(e)
	}
	k := slices.IndexFunc(events, func(o sitelog.Event) bool { return o.ID == e.Of && o.ID != e.ID })
	if k < 0 {
		return w.Event(e)
	}
	what := "Taken back"
	switch e.What {
	case sitelog.SnagClosed:
		what = "Put right"
	case sitelog.Closed:
		what = "Closed"
	}
	what += fmt.Sprintf(": \"%s\" of %s", w.eventIn(events, &events[k], deep-1), w.Then(events[k].At, e.At))
	if e.Text != "" {
		what += ": " + e.Text
	}
	return what
}
