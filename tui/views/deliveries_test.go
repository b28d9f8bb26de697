package views_test

import (
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/tui/draw"
	"build.example/turflast/tui/gardentest"
	"build.example/turflast/tui/views"
)

func TestMoves(t *testing.T) {
	g := gardentest.Solve(t, gardentest.Demo(t))
	turf := g.Plan.FindDelivery("turf")
	m := views.NewDeliveries().SetSize(draw.Size{Width: 100, Height: 30}).SetGarden(g).Choose(g.Plan.Unload(turf))
	for _, c := range []struct {
		key  tea.KeyMsg
		want *views.Moved
	}{
		{tea.KeyMsg{Type: tea.KeyLeft}, &views.Moved{Delivery: turf, By: -calendars.Hour}},
		{tea.KeyMsg{Type: tea.KeyRight}, &views.Moved{Delivery: turf, By: calendars.Hour}},
		{tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{'['}}, &views.Moved{Delivery: turf, Days: -1}},
		{tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{']'}}, &views.Moved{Delivery: turf, Days: 1}},
		{tea.KeyMsg{Type: tea.KeyUp}, nil},
		{tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{'z'}}, nil},
	} {
		if _, got := m.Update(c.key); !cmp.Equal(got, c.want) {
			t.Errorf("%s asks for %+v, want %+v", c.key, got, c.want)
		}
	}
}

// TestWhatHasComeStays chooses the first lorry that is still to come, and lets
// nothing be tried with one that has come.
func TestWhatHasComeStays(t *testing.T) {
	p := *gardentest.Demo(t)
	blocks, concrete := p.FindDelivery("blocks"), p.FindDelivery("concrete")
	at := p.Deliveries[blocks].Arrives
	p.Progress = &schedule.Progress{
		At: at.Plus(calendars.Hour), Tasks: make([]schedule.TaskProgress, len(p.Tasks)),
		Deliveries: make([]schedule.DeliveryProgress, len(p.Deliveries)),
	}
	p.Progress.Deliveries[blocks] = schedule.DeliveryProgress{Arrived: true, Start: at, Finish: at.Plus(30)}
	m := views.NewDeliveries().SetSize(draw.Size{Width: 100, Height: 30}).SetGarden(gardentest.Solve(t, &p))
	if got := m.Chosen(); got != p.Unload(concrete) {
		t.Errorf("%s is chosen first", p.ActivityID(got))
	}
	m = m.Choose(p.Unload(blocks))
	if _, moved := m.Update(tea.KeyMsg{Type: tea.KeyRight}); moved != nil || m.Chosen() != p.Unload(blocks) {
		t.Errorf("a trial of what has come: %+v", moved)
	}
}

// TestRowsKeepTheirOrder walks down the list: by the bookings of the file,
// though a trial has moved the first behind the last.
func TestRowsKeepTheirOrder(t *testing.T) {
	p := gardentest.Demo(t)
	blocks := p.FindDelivery("blocks")
	g := gardentest.Solve(t, p.Rebooked(blocks, p.Site.Handover.Plus(-calendars.Hour)))
	g.Filed = p
	m := views.NewDeliveries().SetSize(draw.Size{Width: 100, Height: 30}).SetGarden(g)
	last := calendars.Past
	for range p.Deliveries {
		at := p.Deliveries[chosen(p, m)].Arrives
		if at < last {
			t.Errorf("%s stands after a later one", p.Deliveries[chosen(p, m)].ID)
		}
		last = at
		m, _ = m.Update(tea.KeyMsg{Type: tea.KeyDown})
	}
	if last != p.Deliveries[chosen(p, m)].Arrives {
		t.Error("down goes beyond the last row")
	}
}

// chosen is the delivery that is chosen.
func chosen(p *schedule.Plan, m views.Deliveries) schedule.DeliveryID {
	d, _ := p.Delivery(m.Chosen())
	return d
}
