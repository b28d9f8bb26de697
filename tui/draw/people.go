package draw

import (
	"slices"
	"strings"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/report"
	"build.example/turflast/schedule/show/use"
)

// headLines are the heads by half day, laid out for a width.
type headLines struct {
	width int
	lines []Message
}

// PeopleLines are the heads and machines of a garden's programme by half day, and
// who clashes where some are missing. They are laid out once for each width.
func PeopleLines(g *Garden, width int) []Message {
	if g.heads.lines == nil || g.heads.width != width {
		g.heads = headLines{width, g.layHeads(width)}
	}
	return g.heads.lines
}

func (g *Garden) layHeads(width int) []Message {
	var out []Message
	p := *g.Plan
	p.Crews, p.Machines = slices.Clone(p.Crews), slices.Clone(p.Machines)
	for i := range p.Crews {
		p.Crews[i].Name = g.crewName(schedule.CrewID(i))
	}
	for i := range p.Machines {
		p.Machines[i].Name = named(p.Machines[i].Name, p.Machines[i].ID)
	}
	for _, l := range report.PeopleLines(&p, use.Of(g.Case), g.Words, max(width-2, 1)) {
		st := Plain
		switch {
		case l.Heading:
			st = Strong
		case l.Missing:
			st = Warm
		}
		text := strings.TrimLeft(l.Text, " ")
		out = append(out, Message{Text: l.Text[:len(l.Text)-len(text)] + Clean(text), Style: st})
	}
	return out
}
