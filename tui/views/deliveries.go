package views

import (
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/schedule"
	"build.example/turflast/tui/draw"
)

// Deliveries is the view's state.
type Deliveries struct {
	moves  Moves
	garden *draw.Garden
	size   draw.Size
	page   *draw.Lorries
	chosen schedule.DeliveryID // or None
	top    int
}

// NewDeliveries returns the view before anything is known.
func NewDeliveries() Deliveries {
	return Deliveries{moves: DefaultMoves(), chosen: schedule.None}
}

// SetGarden shows another garden, or the same one solved again.
func (m Deliveries) SetGarden(g *draw.Garden) Deliveries {
	m.garden = g
	return m.layOut()
}

// SetSize fits the view to the terminal.
func (m Deliveries) SetSize(s draw.Size) Deliveries {
	m.size = s
	return m.layOut()
}

func (m Deliveries) layOut() Deliveries {
	if m.garden == nil || m.size.Width == 0 {
		return m
	}
	m.page = draw.NewLorries(m.garden, m.size)
	list := m.page.List()
	if len(list) == 0 {
		m.chosen = schedule.None
	} else if !slices.Contains(list, m.chosen) {
		m.chosen = list[0]
		coming := func(d schedule.DeliveryID) bool { return !m.garden.Plan.Arrived(d) }
		if i := slices.IndexFunc(list, coming); i >= 0 {
			m.chosen = list[i]
		}
	}
	return m.follow()
}

// follow scrolls so that the chosen delivery and the lines about it are in sight.
func (m Deliveries) follow() Deliveries {
	if at := slices.Index(m.page.List(), m.chosen); at >= 0 {
		m.top = m.page.Follow(at, m.top)
	}
	return m
}

// Chosen returns the unloading of the delivery that the keys act on.
func (m Deliveries) Chosen() schedule.Activity {
	if m.garden == nil || m.chosen < 0 {
		return schedule.Nothing
	}
	return m.garden.Plan.Unload(m.chosen)
}

// Choose chooses a delivery, or the first one that a task uses.
func (m Deliveries) Choose(t schedule.Activity) Deliveries {
	if m.page == nil {
		return m
	}
	d, _ := m.garden.Plan.Delivery(t)
	if task, ok := m.garden.Plan.Task(t); ok {
		for _, u := range m.garden.Plan.Tasks[task].Uses {
			d = u
			break
		}
	}
	if d >= 0 && slices.Contains(m.page.List(), d) {
		m.chosen = d
		return m.follow()
	}
	return m
}

// Click chooses what stands at a line of a frame; did is false where nothing does.
func (m Deliveries) Click(c draw.Chrome, y int) (next Deliveries, did bool) {
	if m.page == nil {
		return m, false
	}
	at := m.page.At(c, m.chosen, m.top, y)
	if at == schedule.None {
		return m, false
	}
	m.chosen = at
	return m.follow(), true
}

// Update handles the view's keys; did is false where a key does nothing.
func (m Deliveries) Update(press tea.KeyMsg) (next Deliveries, did bool) {
	if m.page == nil || m.chosen < 0 {
		return m, false
	}
	list, was := m.page.List(), m.chosen
	by, ok := m.moves.Lines(press, m.size.Height/2, len(list))
	if !ok {
		return m, false
	}
	at := slices.Index(list, m.chosen) + by
	m.chosen = list[min(max(at, 0), len(list)-1)]
	return m.follow(), m.chosen != was
}

// View draws a frame.
func (m Deliveries) View(c draw.Chrome, th draw.Theme) string {
	if m.page == nil {
		return draw.Page(c, "", nil, 0, m.size, th)
	}
	return m.page.Draw(c, m.chosen, m.top, th)
}

// Order lists the deliveries by row.
func (m Deliveries) Order() []schedule.DeliveryID {
	if m.page == nil {
		return nil
	}
	return m.page.List()
}
