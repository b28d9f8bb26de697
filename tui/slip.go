package tui

import (
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/report"
	"build.example/turflast/schedule/site/progress"
	"build.example/turflast/schedule/site/slip"
	"build.example/turflast/tui/draw"
)

// slipped returns a crew programme as a solution, with how far it is from what was
// agreed.
func slipped(c network.Case, site siteLog) solution {
	s, p, agreed := solution{Case: c}, c.Plan, site.agreed.Programme
	if agreed == nil || len(agreed.Tasks) != len(p.Tasks) || len(agreed.Unloads) != len(p.Deliveries) {
		return s
	}
	standing := site.standing
	if standing == nil || standing.Plan != p {
		standing = progress.Planned(p)
	}
	s.slip = slip.Of(standing, c, agreed)
	return s
}

// agreed returns what was agreed, for the programme that is shown; nil for a programme
// with changes or of logic, which isn't compared with it.
func (a app) agreed(s *solution) *draw.Agreed {
	was := a.site.agreed
	if was.Programme == nil || s.slip == nil {
		return nil
	}
	return draw.NewAgreed(was.Programme, s.slip)
}

// slipWidth is the most columns that the page of what slipped takes: longer lines are
// hard to read.
const slipWidth = 76

// slipLines returns the page of what slipped, or why there is nothing to tell.
func (a app) slipLines() []page.Text {
	text := ""
	switch s := a.basis.crews; {
	case a.site.agreed.Programme == nil:
		text = "Nothing is agreed to measure against: \"turflast baseline set\" freezes the programme as agreed."
	case s == nil && a.logicOnly:
		text = "What slipped is told of the crew programme: " + a.keys.Scope.Help().Key + " looks for it."
	case s == nil || s.slip == nil:
		text = "The crew programme is looked for; then it is held against what was agreed."
	default:
		d := report.New(s.Case).Slipped(s.slip, a.site.agreed.Number)
		return draw.Lines(d, min(a.size.Width-4, slipWidth), page.Rows)
	}
	d := &page.Document{}
	d.Say(text)
	return a.laid(d, 4)
}
