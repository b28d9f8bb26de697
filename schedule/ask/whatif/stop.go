package whatif

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// stop has a task stand still for a time: those at it and its machines are free for
// other work then, and it goes on after.
func (a *applying) stop() {
	_, i := a.find(task)
	spans := a.spans()
	if a.fault != nil {
		return
	}
	t := a.p.Tasks[i]
	switch {
	case a.p.Finished(schedule.TaskID(i)):
		a.fail(a.c.Columns.Name, "", "%s is finished", t.Name)
		return
	case spans[0].Start < a.p.Now():
		a.fail(a.c.Columns.When, "", "that has passed")
		return
	}
	t.Stops = slices.Concat(t.Stops, spans)
	slices.SortFunc(t.Stops, func(a, b calendars.Span) int { return int(a.Start - b.Start) })
	a.p.Tasks = slices.Clone(a.p.Tasks)
	a.p.Tasks[i] = t
}
