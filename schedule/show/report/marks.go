package report

import (
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
)

// The marks of activities and events.
const (
	markChain  = "█" // on the hand-over chain
	markFloat  = "▒" // with float
	markTicked = "✓" // nothing more is to be told of it
	markBreak  = "!" // past a date; of an event, it doesn't count
	markUndone = "-" // of an event, it is taken back
)

// markRole is what a mark before a task stands for.
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
