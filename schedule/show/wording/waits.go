package wording

import (
	"fmt"

	"build.example/turflast/schedule/show/sheets"
)

// mostAwaited is how many of the answers that a forecast waits for are named.
const mostAwaited = 3

// Waits says beside a margin which answers a forecast waits for, and how it takes what is asked
// until then; empty if nothing is asked. planned is the margin if all of it happened as planned,
// as [Writer.InHand] has it, or empty where that wasn't tried; now is the one told.
func (w *Writer) Waits(all []sheets.Question, now, planned string) string {
	if len(all) == 0 {
		return ""
	}
	taken := [...]string{
		sheets.HasBegun: "as not begun", sheets.IsFinished: "as finished only now",
		sheets.IsSigned: "as not signed", sheets.HasCome: "as not come",
	}
	var named []string
	for i := range min(len(all), mostAwaited) {
		if all[i].Kind == sheets.IsBack {
			named = append(named, w.plan.Machines[all[i].Machine].Name+" as back")
			continue
		}
		named = append(named, w.Activity(all[i].Activity)+" "+taken[all[i].Kind])
	}
	if more := len(all) - mostAwaited; more > 0 {
		named = append(named, fmt.Sprintf("%d more", more))
	}
	text := fmt.Sprintf("Waits for %s, and until then takes %s.", Count(len(all), "answer", "answers"), list(named))
	switch planned {
	case "":
		return text
	case now:
		return text + " As planned, the margin is the same."
	}
	return text + fmt.Sprintf(" All as planned: %s; \"turflast log as planned\" logs that.", planned)
}
