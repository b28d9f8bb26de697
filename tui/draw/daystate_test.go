package draw_test

import (
	"strings"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/tui/draw"
	"build.example/turflast/tui/gardentest"
)

// underway is the built-in garden as at the first noon: some work is finished,
// some in hand, a lorry has come.
func underway(t *testing.T) *draw.Garden {
	p := *gardentest.Demo(t)
	opens := p.Site.Opens
	now := opens.Plus(4 * calendars.Hour)
	p.Progress = &schedule.Progress{
		At: now, Tasks: make([]schedule.TaskProgress, len(p.Tasks)),
		Deliveries: make([]schedule.DeliveryProgress, len(p.Deliveries)),
	}
	for i := range p.Tasks {
		x := &p.Progress.Tasks[i]
		for _, n := range p.Tasks[i].Crew {
			x.Heads = append(x.Heads, n.Least)
		}
		heads := 0
		for _, n := range x.Heads {
			heads += n
		}
		switch p.Tasks[i].ID {
		case "dry-run", "induction": // finished, with hold points signed and not
			x.Start, x.Finish = opens, opens.Plus(calendars.Hour)
			x.Worked = []calendars.Span{{Start: x.Start, End: x.Finish}}
			if p.Tasks[i].ID == "induction" {
				x.Signed = x.Finish + 5
			}
		case "set-out", "trackway":
			x.Start = opens.Plus(calendars.Hour)
			x.Worked = []calendars.Span{{Start: x.Start, End: now}}
			x.Left = schedule.Effort{Takes: 45}
			x.Paused = p.Tasks[i].ID == "trackway"
		default:
			x.Heads = nil
		}
	}
	blocks := p.FindDelivery("blocks")
	p.Progress.Deliveries[blocks] = schedule.DeliveryProgress{
		Arrived: true,
		Start:   p.Deliveries[blocks].Arrives, Finish: p.Deliveries[blocks].Arrives + 30,
	}
	return gardentest.Solve(t, &p)
}

// The day says what has happened: what is ticked off is small, what is in hand
// says since when and what is left.
func TestDayOfProgress(t *testing.T) {
	g := underway(t)
	var all strings.Builder
	for c := range g.Plan.Crews {
		look := draw.DayLook{Date: g.Date(g.Plan.Site.Opens), Crew: schedule.CrewID(c)}
		all.WriteString(draw.Day(g, draw.Chrome{}, look, draw.Size{Width: 120, Height: 200}, draw.Theme{}))
	}
	for _, want := range []string{
		"✓ Induction", " · 07:00 to 08:00, signed 08:05",
		"Started 08:00; 45 m left.", "Started 08:00, paused; 45 m left.",
		"✓ wall blocks and sand", "came 09:00, by the plan unloaded by 09:30",
	} {
		if !strings.Contains(all.String(), want) {
			t.Errorf("the day lacks %q:\n%s", want, all.String())
		}
	}
	blocks := g.Plan.FindDelivery("blocks")
	lorries := draw.NewLorries(g, draw.Size{Width: 120, Height: 60})
	for _, chosen := range []schedule.DeliveryID{blocks, blocks + 1} {
		frame := lorries.Draw(draw.Chrome{Keys: "Try it"}, chosen, 0, draw.Theme{})
		if !strings.Contains(frame, "✓ 09:00 wall blocks and sand  ") ||
			strings.Contains(frame, "Try it") == (chosen == blocks) {
			t.Errorf("a lorry that has come isn't said to:\n%s", frame)
		}
	}
	states := map[sheets.State]int{}
	for i := range g.Plan.Tasks {
		states[g.State(schedule.Activity(i))]++
	}
	if states[sheets.Ticked] != 1 || states[sheets.Unsigned] != 1 || states[sheets.InHand] != 2 {
		t.Errorf("states %v", states)
	}
	if g.State(g.Plan.Unload(g.Plan.FindDelivery("blocks"))) != sheets.Ticked ||
		g.State(g.Plan.Unload(g.Plan.FindDelivery("turf"))) != sheets.Ahead {
		t.Error("a lorry's state is wrong")
	}
}
