package deliveries_test

import (
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/google/go-cmp/cmp"

	"turflast/calendars"
	"turflast/tui/deliveries"
	"turflast/tui/draw"
	"turflast/tui/gardentest"
)

func TestMoves(t *testing.T) {
	g := gardentest.Solve(t, gardentest.Demo(t))
	turf := g.Plan.FindDelivery("turf")
	m := deliveries.New().SetSize(draw.Size{Width: 100, Height: 30}).SetGarden(g).Choose(draw.LorryThing(turf))
	for _, c := range []struct {
		key  tea.KeyMsg
		want *deliveries.Moved
	}{
		{tea.KeyMsg{Type: tea.KeyLeft}, &deliveries.Moved{Delivery: turf, By: -calendars.Hour}},
		{tea.KeyMsg{Type: tea.KeyRight}, &deliveries.Moved{Delivery: turf, By: calendars.Hour}},
		{tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{'['}}, &deliveries.Moved{Delivery: turf, Days: -1}},
		{tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{']'}}, &deliveries.Moved{Delivery: turf, Days: 1}},
		{tea.KeyMsg{Type: tea.KeyUp}, nil},
		{tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{'z'}}, nil},
	} {
		if _, got := m.Update(c.key); !cmp.Equal(got, c.want) {
			t.Errorf("%s asks for %+v, want %+v", c.key, got, c.want)
		}
	}
}

// TestRowsKeepTheirOrder walks down the list: by the bookings of the file,
// though a trial has moved the first behind the last.
func TestRowsKeepTheirOrder(t *testing.T) {
	p := gardentest.Demo(t)
	blocks := p.FindDelivery("blocks")
	g := gardentest.Solve(t, p.Rebooked(blocks, p.Site.Handover.Plus(-calendars.Hour)))
	g.Filed = p
	m := deliveries.New().SetSize(draw.Size{Width: 100, Height: 30}).SetGarden(g)
	last := calendars.Past
	for range p.Deliveries {
		at := p.Deliveries[m.Chosen().Delivery].Arrives
		if at < last {
			t.Errorf("%s stands after a later one", p.Deliveries[m.Chosen().Delivery].ID)
		}
		last = at
		m, _ = m.Update(tea.KeyMsg{Type: tea.KeyDown})
	}
	if last != p.Deliveries[m.Chosen().Delivery].Arrives {
		t.Error("down goes beyond the last row")
	}
}
