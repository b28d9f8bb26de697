package wording

import (
	"fmt"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Against is the margin in short, for comparing programmes: "5 h 20 before the line",
// "on the line", "never" if some work has no place.
func (w *Writer) Against(g *schedule.Programme) string {
	if g.Finish == calendars.Never {
		return "never"
	}
	return against(g.Handover, "line")
}

// HandsOver is when a programme hands over, for comparing programmes.
func (w *Writer) HandsOver(g *schedule.Programme) string { return w.Moment(g.Finish) }

// ToLine is how far from the line a moment is: "5 h 20 before the line". m is the site
// time from it to the line, negative if it is later.
func (w *Writer) ToLine(m calendars.Minutes) string { return against(schedule.Margin{Time: m}, "line") }

// WhatIf is the title of a set of changes. A set without a name hasn't been saved.
func (w *Writer) WhatIf(name string) string {
	title := w.plan.Garden + ", what if:"
	if name != "" {
		title += " " + name
	}
	return title
}

// NoTaskMoves is said of changes that move no task.
const NoTaskMoves = "No task moves."

// BeforeAfter is the hand-over with changes and without them, and how many tasks they
// move, as sentences.
func (w *Writer) BeforeAfter(before, after *schedule.Programme, moved int) string {
	lead, with, without := "Hands over ", w.handsOver(after), w.handsOver(before)
	if after.Scope == schedule.Logic {
		lead = "Logic only so far: hands over "
	}
	text := lead + with + "; without the changes " + without
	switch after.Finish {
	case before.Finish:
		text = lead + w.HandsOver(after) + " as before, " + w.Against(after)
	case calendars.Never:
		text = "Never hands over; without the changes " + without
	}
	switch moved {
	case 0:
		return text + ". " + NoTaskMoves
	case 1:
		return text + ". One task moves."
	}
	return fmt.Sprintf("%s. %d tasks move.", text, moved)
}

func (w *Writer) handsOver(g *schedule.Programme) string { return w.HandsOver(g) + ", " + w.Against(g) }

// WithoutChanges says when a task starts without the changes, or when it is finished
// without them if they leave its start as it was. Start is its start with them.
func (w *Writer) WithoutChanges(was calendars.Span, start calendars.Instant) string {
	if was.Start == start {
		return "Without the changes it finishes " + w.Moment(was.End) + "."
	}
	return "Without the changes it starts " + w.Moment(was.Start) + "."
}

// BreaksAsBefore says that a date breaks with the changes as it does without them.
func (w *Writer) BreaksAsBefore(b schedule.Break) string { return "Breaks as before: " + w.Break(b) }

// HoldsAgain says that a date no longer breaks. The writer must be that of the plan
// without the changes.
func (w *Writer) HoldsAgain(b schedule.Break) string { return "Holds again: " + w.Break(b) }
