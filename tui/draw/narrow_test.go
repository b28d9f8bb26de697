package draw_test

import (
	"strconv"
	"strings"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/tui/draw"
	"build.example/turflast/tui/gardentest"
)

// TestTheDayIsNarrow draws every day of every crew at the least width of a day and a few
// more: each line fits, each shift that is in sight has its time and its number.
func TestTheDayIsNarrow(t *testing.T) {
	g := gardentest.SolveCrews(t, gardentest.Demo(t))
	from, to := g.Days()
	for _, width := range []int{40, 47, 59} {
		s := draw.Size{Width: width, Height: 60}
		for on := from; on <= to; on++ {
			for c := -1; c < len(g.Plan.Crews); c++ {
				look := draw.DayLook{Date: on, Crew: schedule.CrewID(c)}
				frame := draw.Day(g, draw.Chrome{Garden: "G"}, look, s, draw.Theme{})
				for _, line := range strings.Split(frame, "\n") {
					if draw.Columns(line) > width {
						t.Fatalf("%d columns: %q", width, line)
					}
				}
				shifts := g.Shifts(look)
				if len(shifts) == 0 || c < 0 {
					continue
				}
				at := shifts[0].Span.Start.In(g.Plan.Site.Location).Format("15:04")
				if want := at + "  " + strconv.Itoa(g.Number(shifts[0].Activity)) + "  "; !strings.Contains(frame, want) {
					t.Fatalf("the day lacks %q:\n%s", want, frame)
				}
			}
		}
	}
}

// TestWhatIsPressingComesFirst ticks a few tasks of a day: what isn't signed and what is in
// hand stand before what is only due, and that before what is to come.
func TestWhatIsPressingComesFirst(t *testing.T) {
	p := *gardentest.Demo(t)
	opens := p.Site.Opens
	p.Progress = &schedule.Progress{
		At: opens.Plus(4 * calendars.Hour), Tasks: make([]schedule.TaskProgress, len(p.Tasks)),
		Deliveries: make([]schedule.DeliveryProgress, len(p.Deliveries)),
	}
	signed, inHand := p.FindTask("induction"), p.FindTask("dig-wall")
	p.Progress.Tasks[signed] = schedule.TaskProgress{Start: opens, Finish: opens.Plus(45), Failed: opens.Plus(50)}
	p.Progress.Tasks[inHand] = schedule.TaskProgress{Start: opens.Plus(60), Left: p.Tasks[inHand].Effort}
	g := gardentest.Solve(t, &p)
	shifts := g.Shifts(draw.DayLook{Date: g.Date(opens), Crew: draw.Everyone})
	if len(shifts) < 3 || shifts[0].Activity != signed.Activity() || shifts[1].Activity != inHand.Activity() {
		for _, s := range shifts {
			t.Log(g.Name(s.Activity), s.Span.Start)
		}
		t.Error("what failed and what is in hand don't come first")
	}
}

// TestDayAt clicks on every line of a day: a line with the name of a shift is that shift.
func TestDayAt(t *testing.T) {
	g := gardentest.SolveCrews(t, gardentest.Demo(t))
	s, c := draw.Size{Width: 100, Height: 50}, draw.Chrome{Garden: "G"}
	for _, crew := range []schedule.CrewID{draw.Everyone, 0, 1} {
		look := draw.DayLook{Date: g.Date(g.Plan.Site.Opens), Crew: crew}
		hits := 0
		for y, line := range strings.Split(draw.Day(g, c, look, s, draw.Theme{}), "\n") {
			at, of, ok := draw.DayAt(g, c, look, s, y)
			for _, x := range g.Shifts(look) {
				head := " " + strconv.Itoa(g.Number(x.Activity)) + "  " + g.Name(x.Activity)
				if crew == draw.Everyone {
					head = " " + strconv.Itoa(g.Number(x.Activity)) + "   " + g.Name(x.Activity)
				}
				if !strings.Contains(line, head) {
					continue
				}
				hits++
				if !ok || at != x.Activity || crew != draw.Everyone && of != crew {
					t.Errorf("line %d, %q, is %v of crew %d", y, line, at, of)
				}
			}
		}
		if hits < 2 {
			t.Errorf("only %d shifts were found", hits)
		}
		if _, _, ok := draw.DayAt(g, c, look, s, 1); ok {
			t.Error("the head of the day is a shift")
		}
	}
}
