package wording

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/site/sitelog"
)

// appointed says what was agreed of a sign-off, after its task.
func (w *Writer) appointed(e *sitelog.Event) string {
	what := "appointment"
	if t := w.plan.FindTask(e.Task); t != schedule.None && w.plan.Tasks[t].Hold != nil {
		what = w.plan.Tasks[t].Hold.What
	}
	switch {
	case e.To == 0:
		return what + ", not " + w.Moment(e.Was) + " any more"
	case e.Was == 0:
		return what + ", agreed for " + w.Moment(e.To)
	}
	return what + ", agreed for " + w.Moment(e.To) + " in place of " + w.Moment(e.Was)
}

// machineOf is the name of a machine with an id, or the id.
func (w *Writer) machineOf(id string) string {
	if m := w.plan.FindMachine(id); m != schedule.None {
		return w.plan.Machines[m].Name
	}
	return id
}

// machineDid says what happened to a machine, after its name.
func (w *Writer) machineDid(e *sitelog.Event) string {
	switch e.What {
	case sitelog.SlotGot:
		return "is ours " + w.Span(calendars.Span{Start: e.From, End: e.Until})
	case sitelog.SlotLost:
		return "isn't ours " + w.Span(calendars.Span{Start: e.From, End: e.Until})
	case sitelog.Back:
		return "is back"
	}
	if e.Until != 0 {
		return "is away, to be back " + w.Moment(e.Until)
	}
	return "is away"
}
