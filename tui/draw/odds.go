package draw

import (
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/report"
)

// oddsBeside is the rows of the page of the odds that aren't the picture's.
const oddsBeside = 15

// OddsLines are what came of many builds of a garden's crew programme, for a
// size: the chance, a picture of it, and what drives the risk.
func OddsLines(g *Garden, programme *schedule.Programme, o *odds.Result, s Size) []page.Text {
	d := report.New(g.With(programme)).Chances(o)
	return laid(d, min(s.Width-2, page.Wide), min(max(s.Height-oddsBeside, 4), page.Rows))
}
