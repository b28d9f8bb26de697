package draw_test

import (
	"strings"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/mend"
	"build.example/turflast/tui/draw"
	"build.example/turflast/tui/gardentest"
)

// TestTheCauseComesFirst draws a garden whose turf comes a day late: the rows under the chain
// name the lorry, not the last victim, then how far it runs and what would mend it, and the
// chosen task takes their place.
func TestTheCauseComesFirst(t *testing.T) {
	p := gardentest.Demo(t)
	d := p.FindDelivery("turf")
	g := gardentest.Solve(t, p.Rebooked(d, p.Deliveries[d].Arrives.Plus(calendars.Day)))
	g.Filed = p
	for _, s := range sizes {
		sheet := draw.NewSheet(g, s, draw.Scale{})
		look := draw.Look{Chosen: schedule.Nothing}
		lines := strings.Split(sheet.Draw(chrome(g, s, 0), look, draw.Theme{}), "\n")
		under := strings.Join(lines[sheet.StripLine()+1:sheet.StripLine()+4], "\n")
		for _, want := range []string{"! Cause: the lorry with 62 m2 turf comes Sat 8 May 07:00.",
			"Snag walk is done Tue 11 May 08:57, 2 h 57 after the hand-over; 3 more break"} {
			if !strings.Contains(under, want) {
				t.Errorf("at %v the rows under the chain lack %q:\n%s", s, want, under)
			}
		}
		few := *g
		few.Mends = &mend.Result{Tried: 1, Of: 2}
		frame := draw.NewSheet(&few, s, draw.Scale{}).Draw(chrome(g, s, 0), look, draw.Theme{})
		if !strings.Contains(frame, "1 of 2") {
			t.Errorf("at %v nothing says that what mends it is looked for:\n%s", s, frame)
		}
		look.Chosen = p.FindTask("roof").Activity()
		if frame := sheet.Draw(chrome(g, s, 0), look, draw.Theme{}); strings.Contains(frame, "Cause:") ||
			!strings.Contains(frame, "> Board and cover the roof starts") {
			t.Errorf("at %v the chosen task doesn't take the cause's place:\n%s", s, frame)
		}
	}
}

// TestTheLogIsTheCause draws a build in which a task finished late: what the log says of it
// is the cause, not where the chain of the forecast begins.
func TestTheLogIsTheCause(t *testing.T) {
	p := gardentest.Driven(t)
	at, _ := calendars.At(p.Site.Location, calendars.DateOf(2027, 5, 4), 6*60)
	g, slipped := gardentest.Underway(t, p, at, map[string]calendars.Minutes{"wall-core": 96 * calendars.Hour})
	if len(g.Programme.Breaks) == 0 || len(slipped.Traces) == 0 {
		t.Fatalf("%v break, %d traces", g.Programme.Breaks, len(slipped.Traces))
	}
	s := sizes[1]
	sheet := draw.NewSheet(g, s, draw.Scale{})
	frame := sheet.Draw(chrome(g, s, 0), draw.Look{Chosen: schedule.Nothing}, draw.Theme{})
	under := strings.Split(frame, "\n")[sheet.StripLine()+1]
	if !strings.Contains(under, "Build the core of the wall") {
		t.Errorf("the cause is told as %q:\n%s", under, frame)
	}
}
