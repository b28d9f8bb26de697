package wording

import (
	"fmt"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/site/slip"
)

// Slipped says how far the hand-over is from what was agreed, as a sentence; number
// is the baseline's.
func (w *Writer) Slipped(s *slip.Slip, g *schedule.Programme, number int) string {
	if s.Rest {
		return w.restSlipped(s, g, number)
	}
	switch {
	case s.Now == s.Was:
		return fmt.Sprintf("The hand-over is as agreed in baseline %d: %s, %s.", number, w.Moment(s.Now), w.Against(g))
	case s.Now < s.Was:
		return fmt.Sprintf("The hand-over is %s sooner than agreed in baseline %d: %s, %s. %s was agreed.",
			lateness(-s.By, s.OnClock), number, w.Moment(s.Now), w.Against(g), w.Moment(s.Was))
	}
	return fmt.Sprintf("The hand-over slips %s from baseline %d: %s, %s. %s was agreed.",
		lateness(s.By, s.OnClock), number, w.Moment(s.Now), w.Against(g), w.Moment(s.Was))
}

// restSlipped is [Writer.Slipped] where some work has no place, or had none when it was
// agreed.
func (w *Writer) restSlipped(s *slip.Slip, g *schedule.Programme, number int) string {
	now, was := w.Moment(s.Now)+", "+w.Against(g)+".", " "+w.Moment(s.Was)+" was agreed."
	switch {
	case len(s.Never)+len(s.Placed) > 0:
		return w.otherWork(s, g, number)
	case s.Now == s.Was:
		return fmt.Sprintf("All that has a place is done as agreed in baseline %d: %s", number, now)
	case s.Now < s.Was:
		return fmt.Sprintf("All that has a place is done %s sooner than agreed in baseline %d: %s",
			lateness(-s.By, s.OnClock),
			number, now+was)
	}
	return fmt.Sprintf("All that has a place is done %s later than agreed in baseline %d: %s", lateness(s.By, s.OnClock),
		number, now+was)
}

// otherWork is [Writer.Slipped] where not the same work has a place as when it was
// agreed, so that nobody can say how far that slips.
func (w *Writer) otherWork(s *slip.Slip, g *schedule.Programme, number int) string {
	text := w.Margin(g)
	if n := len(s.Never); n > 0 {
		text += " " + Count(n, "task that was agreed has no place any more.",
			"tasks that were agreed have no place any more.")
	}
	if n := len(s.Placed); n > 0 {
		text += " " + Count(n, "task in it had no place when it was agreed.", "tasks in it had no place when it was agreed.")
	}
	then := "."
	if len(s.Placed) > 0 {
		then = ", without them."
	}
	return fmt.Sprintf("%s Baseline %d has %s%s", text, number, w.Moment(s.Was), then)
}

// lateness is working time, or time on the clock.
func lateness(m calendars.Minutes, onClock bool) string {
	if onClock {
		return clock(m) + " on the clock"
	}
	return work(m)
}

// TaskSlip says how late a task is, as a sentence.
func (w *Writer) TaskSlip(t *slip.Task, g *schedule.Programme) string {
	ends := "finishes"
	if w.plan.Finished(t.Task) {
		ends = "was " + w.over(t.Task)
	}
	return fmt.Sprintf("%s: %s late. It %s %s; %s was agreed.", w.Task(t.Task), lateness(t.By, t.OnClock), ends,
		w.Moment(g.Tasks[t.Task].Finish), w.Moment(t.WasFinish))
}

// LorrySlip says how late a lorry is, as a sentence.
func (w *Writer) LorrySlip(d *slip.Delivery, g *schedule.Programme) string {
	comes := "is expected"
	switch {
	case w.plan.Arrived(d.Delivery) && w.plan.Progress.Deliveries[d.Delivery].Unseen:
		comes = "had come by" // when it did isn't logged
	case w.plan.Arrived(d.Delivery):
		comes = "came"
	}
	return fmt.Sprintf("%s: %s late. It %s %s; %s was agreed.", Capital(w.Delivery(d.Delivery)), clock(d.By), comes,
		w.Moment(g.Unloads[d.Delivery].Arrives), w.Moment(d.Was))
}

// SlippedAndOver says how many tasks and lorries slipped and matter no longer.
func SlippedAndOver(n int) string {
	return Count(n, "task or lorry slipped and is over; nothing to come is late by it.",
		"tasks and lorries slipped and are over; nothing to come is late by them.")
}

// NoPlaceLeft says how many tasks have no place any more; never must name at least one.
func (w *Writer) NoPlaceLeft(never []schedule.TaskID) string {
	return fmt.Sprintf("%s no place any more, %s the first.", Count(len(never), "task has", "tasks have"),
		w.Task(never[0]))
}

// PlacedNow says that a task has a place, and had none when it was agreed.
func (w *Writer) PlacedNow(t schedule.TaskID, g *schedule.Programme) string {
	return fmt.Sprintf("%s had no place when it was agreed; it starts %s.", w.Task(t), w.Moment(g.Tasks[t].Start))
}

// Sooner says how many tasks finish sooner than agreed, as a sentence.
func Sooner(tasks int) string {
	return Count(tasks, "task finishes sooner than agreed.", "tasks finish sooner than agreed.")
}

// SoonerSpelt is [Sooner] with a single task spelt out.
func SoonerSpelt(tasks int) string {
	if tasks == 1 {
		return "One task finishes sooner than agreed."
	}
	return Sooner(tasks)
}

// NoPlaceOf says that a task has no place any more.
func (w *Writer) NoPlaceOf(t schedule.TaskID) string { return w.Task(t) + " has no place any more." }

// RestToldAbove stands for the rest of a trace that is given above, without naming a
// task.
const RestToldAbove = "The rest is told above."

// Traced words a trace, one sentence a step, from what is late back to its cause.
func (w *Writer) Traced(t *slip.Trace) []string {
	var out []string
	for i := range t.Steps {
		var next *slip.Step
		if i+1 < len(t.Steps) {
			next = &t.Steps[i+1]
		}
		out = append(out, w.tracedStep(&t.Steps[i], next))
	}
	return out
}

func (w *Writer) tracedStep(s, next *slip.Step) string {
	text := w.NameFirst(s.Activity)
	switch {
	case s.Added:
		text += " wasn't to be done as agreed, and is now"
	case !w.isLorry(s.Activity):
		text += fmt.Sprintf(" is %s late", lateness(s.By, s.OnClock))
	case s.Why != nil:
		d, _ := w.plan.Delivery(s.Activity)
		text += fmt.Sprintf(" %s %s %s late", fact(w.plan.Unloaded(d), "is", "will be"), w.unloaded(d), clock(s.By))
	default:
		text += fmt.Sprintf(" is %s late", clock(s.By))
	}
	sep := ": "
	if why := w.stepWhy(s, next); why != "" {
		text, sep = text+": "+why, "; "
	}
	for i := range s.Events {
		e := &s.Events[i]
		text += fmt.Sprintf("%s%s (%s)", sep, w.Event(e), w.whenBy(e))
		sep = "; "
	}
	switch {
	case s.Anew && s.Why != nil && s.Why.Other != schedule.Nothing:
		text += fmt.Sprintf(". As agreed it didn't wait for %s; nothing that was logged holds it: another order was found",
			w.named(s.Why.Other))
	case s.Anew:
		text += ". Nothing that was logged holds it: another order was found"
	}
	return text + "."
}

// stepWhy says what a step waited for, or when it was to begin or come; empty if only
// the log explains it.
func (w *Writer) stepWhy(s, next *slip.Step) string {
	switch {
	case next != nil && s.Why == nil:
		return fact(w.plan.Begun(s.Activity), "it waited for ", "it waits for ") + w.named(next.Activity)
	case s.Due != 0 && !w.isLorry(s.Activity):
		return fmt.Sprintf("it was to begin %s, and nothing says that it has", w.Moment(s.Due))
	case s.Books != 0:
		return fmt.Sprintf("it is booked for %s instead", w.Moment(s.Books))
	case s.Due != 0:
		return fmt.Sprintf("it was to come %s, and nothing says that it has", w.Moment(s.Due))
	case s.Why != nil && (next != nil || len(s.Events) == 0):
		why := w.Reason(*s.Why, calendars.Never, s.Activity) // no date stands beside its moments
		if s.Beside {
			why += fmt.Sprintf("; %s, late as well, is in the way too", w.named(next.Activity))
		}
		return why
	}
	return ""
}

// ToldAbove stands for the rest of a trace, from a step on that is given above.
func (w *Writer) ToldAbove(s *slip.Step) string {
	return fmt.Sprintf("Why %s is late is told above.", w.named(s.Activity))
}

// isLorry reports whether an activity is the unloading of a lorry.
func (w *Writer) isLorry(a schedule.Activity) bool {
	_, ok := w.plan.Delivery(a)
	return ok
}
