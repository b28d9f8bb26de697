package wording

import (
	"fmt"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/site/baseline"
)

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
		return fmt.Sprintf("%s finishes %s, %s than %s.", name, w.Moment(d.NowFinish), apart(d.WasFinish, d.NowFinish), w.Moment(d.WasFinish))
	}
	return fmt.Sprintf("%s %s %s, %s than %s.", name, starts, w.Moment(d.Now), apart(d.Was, d.Now), w.Moment(d.Was))
}

// apart is how much later or earlier a moment is than another, on the clock.
func apart(was, now calendars.Instant) string {
	if now < was {
		return clock(calendars.Minutes(was-now)) + " earlier"
	}
	return clock(calendars.Minutes(now-was)) + " later"
}
