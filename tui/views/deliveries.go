package views

import (
	"slices"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/tui/draw"
)

// Moved asks for a trial: to move a delivery from its present booking, trials included,
// by some minutes on the clock and by whole days at the same time of day.
type Moved struct {
	Delivery schedule.DeliveryID
	By       calendars.Minutes
	Days     calendars.Date
}

// deliveriesKeys is what the view's keys do.
type deliveriesKeys struct {
	Up, Down            key.Binding
	Earlier, Later      key.Binding
	DayBefore, DayAfter key.Binding
}

// defaultDeliveriesKeys returns the view's keys.
func defaultDeliveriesKeys() deliveriesKeys {
	return deliveriesKeys{
		Up:        key.NewBinding(key.WithKeys("up"), key.WithHelp("↑", "choose the one above")),
		Down:      key.NewBinding(key.WithKeys("down"), key.WithHelp("↓", "choose the one below")),
		Earlier:   key.NewBinding(key.WithKeys("left"), key.WithHelp("←", "try it an hour earlier")),
		Later:     key.NewBinding(key.WithKeys("right"), key.WithHelp("→", "try it an hour later")),
		DayBefore: key.NewBinding(key.WithKeys("["), key.WithHelp("[", "try it a day earlier")),
		DayAfter:  key.NewBinding(key.WithKeys("]"), key.WithHelp("]", "try it a day later")),
	}
}

// list returns the keys in the order of the help.
func (k deliveriesKeys) list() []key.Binding {
	return []key.Binding{k.Up, k.Down, k.Earlier, k.Later, k.DayBefore, k.DayAfter}
}

// Hint returns the main keys in a few words.
func (m Deliveries) Hint() string {
	k := m.keys
	return "Try it: " + k.Earlier.Help().Key + " " + k.Later.Help().Key + " by an hour, " +
		k.DayBefore.Help().Key + " " + k.DayAfter.Help().Key + " by a day"
}

// Deliveries is the view's state.
type Deliveries struct {
	keys   deliveriesKeys
	garden *draw.Garden
	size   draw.Size
	page   *draw.Lorries
	chosen schedule.DeliveryID // or None
	top    int
}

// NewDeliveries returns the view before anything is known.
func NewDeliveries() Deliveries {
	return Deliveries{keys: defaultDeliveriesKeys(), chosen: schedule.None}
}

// Keys returns the view's keys.
func (m Deliveries) Keys() []key.Binding { return m.keys.list() }

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

// Update handles the view's keys; moved is nil unless one asks for a trial.
func (m Deliveries) Update(press tea.KeyMsg) (next Deliveries, moved *Moved) {
	if m.page == nil || m.chosen < 0 {
		return m, nil
	}
	switch k := m.keys; {
	case key.Matches(press, k.Up):
		return m.turn(-1), nil
	case key.Matches(press, k.Down):
		return m.turn(1), nil
	case m.garden.Plan.Arrived(m.chosen): // a delivery that has come can't be moved
	case key.Matches(press, k.Earlier):
		return m, &Moved{Delivery: m.chosen, By: -calendars.Hour}
	case key.Matches(press, k.Later):
		return m, &Moved{Delivery: m.chosen, By: calendars.Hour}
	case key.Matches(press, k.DayBefore):
		return m, &Moved{Delivery: m.chosen, Days: -1}
	case key.Matches(press, k.DayAfter):
		return m, &Moved{Delivery: m.chosen, Days: 1}
	}
	return m, nil
}

func (m Deliveries) turn(by int) Deliveries {
	list := m.page.List()
	at := slices.Index(list, m.chosen) + by
	m.chosen = list[min(max(at, 0), len(list)-1)]
	return m.follow()
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
