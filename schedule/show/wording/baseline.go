package wording

import (
	"fmt"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/site/baseline"
)

// Fixed sentences about baselines.
const (
	NothingAgreed  = `Nothing is agreed yet: "turflast baseline set" freezes the programme.`
	SinceNewest    = "The plan file has changed since the newest was agreed."
	SinceThat      = "The plan file has changed since that was agreed."
	NothingDiffers = "Nothing."
	UncountedHeads = "Nothing is agreed, so each task counts with as many heads as it can take; " +
		`"turflast baseline set" says how many there are.`
)

// Agreed says when and by whom a baseline was agreed, when it hands over, and why it was
// agreed. Of what had no place it says so.
func (w *Writer) Agreed(b *baseline.Baseline) string {
	event, without := "Hands over", w.WithoutAgreed(b)
	if without != "" {
		event, without = "All that had a place is done", " "+without
	}
	text := fmt.Sprintf("Agreed %s by %s. %s %s, %s.%s", w.Moment(b.Agreed), b.By, event, w.Moment(b.Finish),
		w.Against(&schedule.Programme{Finish: b.Finish, Handover: b.Margin}), without)
	if b.Why != "" {
		text += " Why: " + b.Why + "."
	}
	return text
}

// WithoutAgreed names what had no place when a baseline was agreed, as a sentence; empty
// if all had one.
func (w *Writer) WithoutAgreed(b *baseline.Baseline) string {
	tasks, deliveries := b.Without()
	var names []string
	for _, id := range tasks {
		names = append(names, w.taskNamed(id))
	}
	for _, id := range deliveries {
		names = append(names, w.lorryNamed(id))
	}
	if len(names) == 0 {
		return ""
	}
	return "It is agreed without " + list(names) + ", for want of a place."
}

// AgreedWork says when a task was agreed to start and finish.
func (w *Writer) AgreedWork(was *schedule.TaskDates) string {
	return "Agreed in the baseline: " + w.Moment(was.Start) + " to " + w.Then(was.Finish, was.Start) + "."
}

// AgreedArrival says when a lorry was agreed to come.
func (w *Writer) AgreedArrival(was calendars.Instant) string {
	return "Agreed in the baseline: " + w.Moment(was) + "."
}

// Differs says how one thing differs between two baselines, as a sentence.
func (w *Writer) Differs(d baseline.Difference) string {
	name, starts, begins := w.taskNamed(d.ID), "starts", "started"
	if d.Delivery {
		name, starts, begins = w.lorryNamed(d.ID), "comes", "came"
	}
	switch d.Change {
	case baseline.Lost:
		return name + " has no place" + w.was(d.Was, begins, "; it was left out.")
	case baseline.Placed:
		return fmt.Sprintf("%s had no place: it %s %s.", name, starts, w.Moment(d.Now))
	case baseline.Added:
		return name + " is new" + w.newNow(d, starts)
	case baseline.Gone:
		return name + " is gone; it " + w.gone(d, begins)
	case baseline.LeftOut:
		return name + " is left out" + w.was(d.Was, begins, "; it had no place.")
	case baseline.PutBack:
		return fmt.Sprintf("%s isn't left out any more: it %s %s.", name, starts, w.Moment(d.Now))
	case baseline.Longer:
		return fmt.Sprintf("%s finishes %s, %s than %s.", name, w.Moment(d.NowFinish), apart(d.WasFinish, d.NowFinish),
			w.Moment(d.WasFinish))
	}
	return fmt.Sprintf("%s %s %s, %s than %s.", name, starts, w.Moment(d.Now), apart(d.Was, d.Now), w.Moment(d.Was))
}

// newNow ends a sentence on what is new.
func (w *Writer) newNow(d baseline.Difference, starts string) string {
	switch {
	case d.NoPlace:
		return ", and has no place."
	case d.Now == 0:
		return ", and left out."
	}
	return fmt.Sprintf(": it %s %s.", starts, w.Moment(d.Now))
}

// gone ends a sentence on what is gone.
func (w *Writer) gone(d baseline.Difference, begins string) string {
	switch {
	case d.NoPlace:
		return "had no place."
	case d.Was == 0:
		return "was left out."
	}
	return fmt.Sprintf("%s %s.", begins, w.Moment(d.Was))
}

// was ends a sentence with when something was agreed to begin, or else as told.
func (w *Writer) was(at calendars.Instant, begins, otherwise string) string {
	if at == 0 {
		return otherwise
	}
	return fmt.Sprintf("; it %s %s.", begins, w.Moment(at))
}
