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
// agreed.
func (w *Writer) Agreed(b *baseline.Baseline) string {
	text := fmt.Sprintf("Agreed %s by %s. Hands over %s, %s.", w.Moment(b.Agreed), b.By, w.Moment(b.Finish),
		w.Against(&schedule.Programme{Finish: b.Finish, Handover: b.Margin}))
	if b.Why != "" {
		text += " Why: " + b.Why + "."
	}
	return text
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
	case baseline.Added:
		if d.Now == 0 {
			return name + " is new, and left out."
		}
		return fmt.Sprintf("%s is new: it %s %s.", name, starts, w.Moment(d.Now))
	case baseline.Gone:
		if d.Was == 0 {
			return name + " is gone; it was left out."
		}
		return fmt.Sprintf("%s is gone; it %s %s.", name, begins, w.Moment(d.Was))
	case baseline.LeftOut:
		return fmt.Sprintf("%s is left out; it %s %s.", name, begins, w.Moment(d.Was))
	case baseline.PutBack:
		return fmt.Sprintf("%s isn't left out any more: it %s %s.", name, starts, w.Moment(d.Now))
	case baseline.Longer:
		return fmt.Sprintf("%s finishes %s, %s than %s.", name, w.Moment(d.NowFinish), apart(d.WasFinish, d.NowFinish),
			w.Moment(d.WasFinish))
	}
	return fmt.Sprintf("%s %s %s, %s than %s.", name, starts, w.Moment(d.Now), apart(d.Was, d.Now), w.Moment(d.Was))
}
