package draw

import (
	"slices"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/report"
	"build.example/turflast/schedule/show/use"
)

// headLines are the heads by half day, laid out for a width.
type headLines struct {
	width int
	lines []page.Text
}

// PeopleLines are the heads and machines of a garden's programme by half day, and
// who clashes where some are missing. They are laid out once for each width.
func PeopleLines(g *Garden, width int) []page.Text {
	if g.heads.lines == nil || g.heads.width != width {
		g.heads = headLines{width, g.layHeads(width)}
	}
	return g.heads.lines
}

func (g *Garden) layHeads(width int) []page.Text {
	p := *g.Plan
	p.Crews, p.Machines = slices.Clone(p.Crews), slices.Clone(p.Machines)
	for i := range p.Crews {
		p.Crews[i].Name = g.crewName(schedule.CrewID(i))
	}
	for i := range p.Machines {
		p.Machines[i].Name = named(p.Machines[i].Name, p.Machines[i].ID)
	}
	return laid(report.Heads(&p, use.Of(g.Case), g.Words), width-2, page.Rows)
}
