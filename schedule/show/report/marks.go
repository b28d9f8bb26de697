package report

import (
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
)

// The marks of activities and events.
const (
	markChain  = "█" // on the hand-over chain
	markFloat  = "▒" // with float
	markTicked = "✓" // finished, or unloaded
	markBreak  = "!" // breaks a date; or an event that doesn't count
	markUndone = "-" // an event that is taken back
)

// markRole is the role of a mark before a task.
func markRole(mark string) page.Role {
	switch mark {
	case markChain:
		return page.Chain
	case markBreak:
		return page.Late
	case markFloat:
		return page.Work
	case markTicked:
		return page.Quiet
	}
	return page.Plain
}

// lorryMark is ▼ for what comes in and ▲ for what goes out.
func lorryMark(d *schedule.Delivery) string {
	if d.Out {
		return "▲"
	}
	return "▼"
}
