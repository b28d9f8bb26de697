package draw_test

import (
	"fmt"
	"strings"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/report"
	"build.example/turflast/tui/draw"
	"build.example/turflast/tui/gardentest"
)

// TestAgreedFrames draws the garden on the third day on site, with some work late:
// what is done and in hand, now, and pegs where it was agreed.
func TestAgreedFrames(t *testing.T) {
	p := gardentest.Driven(t)
	at, _ := calendars.At(p.Site.Location, calendars.DateOf(2027, 5, 3), 11*60)
	g, slipped := gardentest.Underway(t, p, at, map[string]calendars.Minutes{
		"dig-rill": 2 * calendars.Hour, "rill-liner": 4 * calendars.Hour,
		"wall-core": 3 * calendars.Hour, "bench": -calendars.Hour,
	})
	slate := p.FindDelivery("slate")
	g.Agreed.Programme.Unloads[slate].Arrives -= calendars.Instant(calendars.Day)
	for _, s := range []draw.Size{{Width: 80, Height: 24}, {Width: 200, Height: 60}} {
		sheet := draw.NewSheet(g, s, draw.Scale{})
		frame := sheet.Draw(chrome(g, s, 0),
			sheet.Follow(draw.Look{Chosen: p.FindTask("wall-core").Activity()}), draw.Shaded())
		golden(t, fmt.Sprintf("window-agreed-%dx%d", s.Width, s.Height), shaded(frame))
	}
	var lines []string
	for _, m := range draw.Lines(report.New(g.Case).Slipped(slipped, 1), 76, page.Rows) {
		lines = append(lines, m.String())
	}
	golden(t, "slip-80", strings.Join(lines, "\n"))
}
