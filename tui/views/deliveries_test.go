package views_test

import (
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/tui/draw"
	"build.example/turflast/tui/gardentest"
	"build.example/turflast/tui/views"
)

// TestTheListIsWalked presses the keys that go about in the list: none goes beyond its
// ends, and one that does nothing says so.
func TestTheListIsWalked(t *testing.T) {
	g := gardentest.Solve(t, gardentest.Demo(t))
	m := views.NewDeliveries().SetSize(draw.Size{Width: 100, Height: 30}).SetGarden(g)
	list, at := m.Order(), 0
	for _, c := range []struct {
		key  tea.KeyMsg
		want int
	}{
		{keys["up"], 0}, {keys["down"], 1}, {rune1('j'), 2}, {rune1('k'), 1}, {keys["end"], len(list) - 1},
		{keys["down"], len(list) - 1}, {keys["pgup"], 0}, {keys["pgdown"], len(list) - 1}, {keys["home"], 0},
		{keys["left"], 0}, {rune1('z'), 0},
	} {
		next, did := m.Update(c.key)
		if next.Chosen() != g.Plan.Unload(list[c.want]) || did != (c.want != at) {
			t.Errorf("%s from row %d leads to %v, did %v; want row %d", c.key, at, next.Chosen(), did, c.want)
		}
		m, at = next, c.want
	}
}

// TestWhatHasComeIsPassedOver chooses the first lorry that is still to come.
func TestWhatHasComeIsPassedOver(t *testing.T) {
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
