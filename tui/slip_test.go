package tui

import (
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/tui/gardentest"
)

// The page of slips compares the forecast with the newest baseline.
func TestTheSlipPage(t *testing.T) {
	b := demo(t)
	p := b.file.plan
	b.press("b")
	b.sees("WHAT SLIPPED", "Nothing is agreed to measure against")
	b.press("b")

	agreed := gardentest.Solve(t, p).Programme
	log := b.log()
	log.now, _ = calendars.At(p.Site.Location, calendars.DateOf(2027, 5, 3), 11*60)
	log.events = gardentest.Built(p, agreed, log.now, map[string]calendars.Minutes{"rill-liner": 4 * calendars.Hour})
	a := b.app()
	a.opts.Agreed = func(*schedule.Plan) (Agreed, error) { return Agreed{Programme: agreed, Number: 2}, nil }
	b.model = a
	b.press("r", "b")
	b.sees("The hand-over is as agreed in baseline 2",
		"1 task or lorry slipped and is over; nothing to come is late by it.")
	b.press("esc", "/", "Line the rill", "enter")
	b.sees("> Line the rill and pool started", "Agreed in the baseline: Sat 1 May")

	// Changes that are tried are compared with the forecast, not with the baseline.
	b.press("w", ":", "snag-walk 1h longer", "enter")
	b.lacks("Agreed in the baseline")
	b.press("b")
	b.sees("The hand-over is as agreed in baseline 2")
}
