package wording

import (
	"fmt"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/site/progress"
	"build.example/turflast/schedule/site/sitelog"
)

// The sentences below are short forms, for a screen, of those of [Writer.Standing].

// EventWhen says what happened and when, without a full stop. A moment on the date of
// beside is given by its time alone.
func (w *Writer) EventWhen(e *sitelog.Event, beside calendars.Instant) string {
	return w.Event(e) + ", " + w.Then(e.At, beside)
}

// By says who logged an event, to follow what happened; empty if that isn't known.
func By(e *sitelog.Event) string {
	if e.By == "" {
		return ""
	}
	return " (" + e.By + ")"
}

// News says what was logged last, and how many more events there are to read.
func (w *Writer) News(last *sitelog.Event, beside calendars.Instant, more int) string {
	text := "From the log: " + w.EventWhen(last, beside) + By(last) + "."
	if more > 0 {
		text += " " + AndMore(more, "")
	}
	return text
}

// AsideInBrief says what is wrong with a line of a log that is no event.
func AsideInBrief(a *sitelog.Aside) string {
	return fmt.Sprintf("Line %d of the log is set aside: %s", a.Line, a.Why)
}

// ConflictInBrief says that an event doesn't count, and why.
func (w *Writer) ConflictInBrief(c *sitelog.Conflict) string {
	return fmt.Sprintf("In the log, this doesn't count: %s. %s.", w.EventWhen(&c.Event, calendars.Past)+By(&c.Event),
		Capital(c.Why))
}

// UnknownInBrief says that an event is about something that isn't in the plan.
func (w *Writer) UnknownInBrief(e *sitelog.Event) string {
	return "In the log, of something that isn't in the plan: " + w.EventWhen(e, calendars.Past) + By(e) + "."
}

// OverdueInBrief says that a lorry hasn't come, and when it is expected.
func (w *Writer) OverdueInBrief(o progress.Overdue) string {
	return fmt.Sprintf("The lorry with %s hasn't come; it was booked for %s, and is expected %s.",
		w.Delivery(o.Delivery), w.Moment(o.Booked), w.expected(o.Delivery, "from now on"))
}

// TogetherInBrief says that two tasks that are to be kept apart went on side by side.
func (w *Writer) TogetherInBrief(x progress.Together) string {
	return fmt.Sprintf("%s went on beside %s, from which it is to be kept apart.", w.Task(x.Task), w.Task(x.Beside))
}

// OutOfOrderInBrief says what a task was started before, out of sequence.
func (w *Writer) OutOfOrderInBrief(o progress.OutOfOrder) string {
	after := w.Activity(o.After) + " was there"
	if w.onlyCame(o) {
		after = w.Activity(o.After) + " was unloaded"
	}
	if o.Given != schedule.None {
		after = w.plan.Givens[o.Given].What + " was there"
	} else if _, task := w.plan.Task(o.After); task {
		after = w.Activity(o.After) + " was done"
	}
	return fmt.Sprintf("%s was started before %s.", w.Task(o.Task), after)
}
