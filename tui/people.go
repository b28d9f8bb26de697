package tui

import (
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/report"
	"build.example/turflast/tui/draw"
)

// headLines is the page of heads as it was laid out last, so that scrolling doesn't
// count them again.
type headLines struct {
	of    *schedule.Programme
	width int
	lines []page.Text
}

// peopleLines returns the page of heads and machines by half day, and who clashes where
// some are missing.
func (a app) peopleLines() []page.Text {
	of, width := a.garden.Programme, a.size.Width-2
	if h := a.heads; h.of != of || h.width != width {
		d := report.New(a.garden.Case).Heads()
		*h = headLines{of, width, draw.Lines(d, width, page.Rows)}
	}
	return a.heads.lines
}
