package wording

import (
	"fmt"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Break says which date breaks and by how much, as a sentence.
func (w *Writer) Break(b schedule.Break) string {
	name := w.NameFirst(b.Activity)
	switch b.Kind {
	case schedule.BreakHandover:
		done := w.doneOr(b)
		if d, ok := w.plan.Delivery(b.Activity); ok {
			done = w.unloaded(d)
		}
		return fmt.Sprintf("%s %s %s %s, %s the hand-over.", name, w.is(b), done, w.Moment(b.Actual), w.after(b))
	case schedule.BreakBy:
		return fmt.Sprintf("%s finishes %s, %s its own date (%s).", name, w.Moment(b.Actual), w.after(b),
			w.Moment(b.Limit))
	case schedule.BreakKeep:
		d := &w.plan.Deliveries[b.Stock]
		over := elapsed(b.Limit, b.Actual)
		if b.Actual == calendars.Never {
			return fmt.Sprintf("%s is never done, and the keep of %s is %s.", name, d.What, clock(d.Keep))
		}
		return fmt.Sprintf("%s %s %s %s, %s past the keep of %s (%s).", name, w.is(b), w.doneOr(b), w.Moment(b.Actual),
			over, d.What, clock(d.Keep))
	case schedule.BreakSentAway:
		d, _ := w.plan.Delivery(b.Activity)
		if b.Actual == calendars.Never {
			return fmt.Sprintf("%s is never %s.", name, w.unloaded(d))
		}
		return fmt.Sprintf("%s is sent away: its %s doesn't begin before the gate shuts %s, but %s, %s later.", name,
			w.unloading(d), w.Moment(b.Limit), w.Moment(b.Actual), elapsed(b.Limit, b.Actual))
	case schedule.BreakWithin:
		if b.Actual == calendars.Never {
			return fmt.Sprintf("%s had to follow by %s, the longest wait, and never does.", Capital(name), w.Moment(b.Limit))
		}
		return fmt.Sprintf("%s had to follow by %s, the longest wait; it does so %s, %s late.", Capital(name),
			w.Moment(b.Limit), w.Moment(b.Actual), elapsed(b.Limit, b.Actual))
	}
	return ""
}

// after says how long after its limit a date is: in site time, or on the clock if the
// site is closed throughout.
func (w *Writer) after(b schedule.Break) string {
	if b.Actual == calendars.Never {
		return "never before"
	}
	return beforeOrAfter(w.late(b))
}

func (w *Writer) late(b schedule.Break) schedule.Margin {
	if m := w.site().Between(b.Limit, b.Actual); m > 0 {
		return schedule.Margin{Time: -m}
	}
	return schedule.Margin{Time: calendars.Minutes(b.Limit - b.Actual), Clock: true}
}

// lorry names a delivery as the lorry that brings or collects it.
func (w *Writer) lorry(d schedule.DeliveryID) string { return "the lorry with " + w.Delivery(d) }

// unloading is the word for what is done to a lorry.
func (w *Writer) unloading(d schedule.DeliveryID) string {
	if w.plan.Deliveries[d].Out {
		return "loading"
	}
	return "unloading"
}

// is tells the end of something in a programme as such, but as to come where a build under way
// hasn't reached it, and as reckoned where nobody has logged it.
func (w *Writer) is(b schedule.Break) string {
	t, task := w.plan.Task(b.Activity)
	d, _ := w.plan.Delivery(b.Activity)
	switch {
	case w.plan.Progress == nil:
		return "is"
	case b.Actual >= w.plan.Now() || task && !w.plan.Finished(t):
		return "will be"
	case task || w.plan.LoggedOver(d):
		return "is"
	}
	return "would be"
}

// doneOr is the word for the end of a task: one that was cancelled is over, not done.
func (w *Writer) doneOr(b schedule.Break) string {
	if t, task := w.plan.Task(b.Activity); task && w.over(t) == "cancelled" {
		return "over"
	}
	return "done"
}

// unloaded is the word for what has been done to a lorry.
func (w *Writer) unloaded(d schedule.DeliveryID) string {
	if w.plan.Deliveries[d].Out {
		return "loaded"
	}
	return "unloaded"
}
