package wording

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Against is the margin beside others: "5 h 20 before the line", "on the line",
// "never" when some work has no place.
func (w *Writer) Against(g *schedule.Programme) string {
	if g.Finish == calendars.Never {
		return "never"
	}
	return against(g.Handover, "line")
}

// HandsOver is when a programme hands over, beside others.
func (w *Writer) HandsOver(g *schedule.Programme) string { return w.Moment(g.Finish) }

// ToLine is how far from the line a moment is, by the site time to it, negative
// when it is later: "5 h 20 before the line".
func (w *Writer) ToLine(m calendars.Minutes) string { return against(schedule.Margin{Time: m}, "line") }

// WhatIf is the title of a set of changes; one without a name hasn't been saved.
func (w *Writer) WhatIf(name string) string {
	title := w.plan.Garden + ", what if:"
	if name != "" {
		title += " " + name
	}
	return title
}

// NoTaskMoves is said of changes by which none does.
const NoTaskMoves = "No task moves."
