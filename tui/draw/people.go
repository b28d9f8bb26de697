package draw

import (
	"turflast/schedule/people"
	"turflast/schedule/report"
)

// PeopleLines are the heads and machines of a garden's programme by half day, and
// who clashes where some are missing.
func PeopleLines(g *Garden, width int) []Message {
	var out []Message
	for _, l := range report.PeopleLines(g.Plan, people.Of(g.Plan, g.Hours, g.Programme), g.Words, width-2) {
		st := Plain
		switch {
		case l.Heading:
			st = Strong
		case l.Missing:
			st = Warm
		}
		out = append(out, Message{Text: Clean(l.Text), Style: st})
	}
	return out
}
