package sheets

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Failed lists the tasks whose sign-off failed and that aren't signed since, for the sheet
// of a date: those of a crew and those that its work waits for, or all for Everyone. None
// on a date that is over.
func (b *Book) Failed(on calendars.Date, crew schedule.CrewID) []schedule.TaskID {
	if b.Plan.Progress == nil || on < b.date(b.Plan.Now()) {
		return nil
	}
	var out []schedule.TaskID
	for i := range b.Plan.Tasks {
		id, was := schedule.TaskID(i), &b.Plan.Progress.Tasks[i]
		if was.Failed != 0 && was.Signed == 0 && b.concerns(id, crew) {
			out = append(out, id)
		}
	}
	return out
}

// concerns says whether a crew works on a task or on one that waits for it.
func (b *Book) concerns(id schedule.TaskID, crew schedule.CrewID) bool {
	return Needs(b.Plan.Tasks[id].Crew, crew) || slices.ContainsFunc(b.After(id.Activity()), func(t Tie) bool {
		return Needs(b.Plan.CrewOf(t.Activity), crew)
	})
}

// Begun lists a crew's tasks, or everyone's, that are begun and not ticked as finished, for
// the sheet of a date, by their start. None on a date that is over.
func (b *Book) Begun(on calendars.Date, crew schedule.CrewID) []schedule.TaskID {
	if b.Plan.Progress == nil || on < b.date(b.Plan.Now()) {
		return nil
	}
	return slices.DeleteFunc(b.byStart(), func(t schedule.TaskID) bool {
		return !b.Plan.InHand(t) || !Needs(b.Plan.Tasks[t].Crew, crew)
	})
}

// begunFirst puts the lines of what is begun and not ticked as finished first, and adds
// such work that has no line.
func (b *Book) begunFirst(d *Day) {
	begun := b.Begun(d.On, d.Crew)
	last := func(l Line) int {
		if t, task := b.Plan.Task(l.Activity); task && slices.Contains(begun, t) {
			return 0
		}
		return 1
	}
	slices.SortStableFunc(d.Lines, func(x, y Line) int { return last(x) - last(y) })
	d.Begun = slices.DeleteFunc(begun, func(t schedule.TaskID) bool {
		return slices.ContainsFunc(d.Lines, func(l Line) bool { return l.Activity == t.Activity() })
	})
}
