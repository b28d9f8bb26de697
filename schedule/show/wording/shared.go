package wording

import (
	"fmt"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// shared words a wait for hands, machines, room or the gate.
func (w *Writer) shared(r schedule.Reason, at calendars.Instant) string {
	until := w.Then(r.Until, at)
	by := ""
	if r.Other != schedule.Nothing {
		by = w.named(r.Other)
	}
	switch {
	case r.Kind == schedule.ByCrew && r.Crew != schedule.None:
		return busy(w.plan.Crews[r.Crew].Name, "busy", until, "with", by)
	case r.Kind == schedule.ByMachine && r.Machine != schedule.None:
		return busy(w.plan.Machines[r.Machine].Name, "busy", until, "with", by)
	case r.Kind == schedule.ByZone && r.Zone != schedule.None:
		return busy("room in "+w.plan.Zones[r.Zone].Name, "taken", until, "by", by)
	}
	return busy("the gate", "taken", until, "by", by)
}

func busy(what, how, until, with, by string) string {
	if by == "" {
		return fmt.Sprintf("it waits for %s until %s", what, until)
	}
	return fmt.Sprintf("it waits for %s, %s until %s %s %s", what, how, until, with, by)
}

// alone says why activity a waits for another one that may not go on beside it.
func (w *Writer) alone(r schedule.Reason, at calendars.Instant, a schedule.Activity) string {
	until, other := w.Then(r.Until, at), w.named(r.Other)
	t, task := w.plan.Task(a)
	holder, work := w.plan.Task(r.Other)
	if !task || !work {
		return fmt.Sprintf("it can't go on beside %s, until %s", other, until)
	}
	this, that := &w.plan.Tasks[t], &w.plan.Tasks[holder]
	rule, apart := w.plan.ApartBy(t, holder)
	switch {
	case apart && rule == schedule.None:
		return fmt.Sprintf("it is kept apart from %s, which goes on until %s", other, until)
	case apart:
		return fmt.Sprintf("it is kept apart from %s, which goes on until %s (rule %q)",
			other, until, w.plan.Rules[rule].Text)
	case schedule.ShareZone(that.Clears, this.Occupied()):
		return fmt.Sprintf("%s clears %s until %s", other, w.Zones(that.Clears), until)
	case schedule.ShareZone(this.Clears, that.Zones):
		return fmt.Sprintf("it clears %s, where %s works until %s", w.Zones(this.Clears), other, until)
	case schedule.ShareZone(this.Clears, that.Occupied()):
		return fmt.Sprintf("it clears %s, where a machine of %s stands until %s", w.Zones(this.Clears), other, until)
	case that.Closes.Timed:
		return fmt.Sprintf("%s closes the way in until %s", other, until)
	case this.Closes.Timed:
		return fmt.Sprintf("it closes the way in, behind which %s works until %s", other, until)
	}
	return fmt.Sprintf("it can't go on beside %s, until %s", other, until)
}
