package views

import (
	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/schedule"
	"build.example/turflast/tui/draw"
)

// People is the state of the view of people and machines.
type People struct {
	moves  Moves
	garden *draw.Garden
	size   draw.Size
	page   *draw.Hands
	chosen int // a row
	top    int
}

// NewPeople returns the view before anything is known.
func NewPeople() People { return People{moves: DefaultMoves()} }

// SetGarden shows another garden, or the same one solved again.
func (m People) SetGarden(g *draw.Garden) People {
	if m.garden != nil && m.page != nil && m.garden.Programme == g.Programme {
		m.garden = g
		return m
	}
	m.garden = g
	return m.layOut()
}

// SetSize fits the view to the terminal.
func (m People) SetSize(s draw.Size) People {
	m.size = s
	return m.layOut()
}

func (m People) layOut() People {
	if m.garden == nil || m.size.Width == 0 {
		return m
	}
	m.page = draw.NewHands(m.garden, m.size)
	return m.choose(m.chosen)
}

// choose chooses a row, or the nearest to it.
func (m People) choose(row int) People {
	m.chosen = max(min(row, m.page.Len()-1), 0)
	if m.page.Len() > 0 {
		m.top = m.page.Follow(m.chosen, m.top)
	}
	return m
}

// Crew returns the crew that is chosen, None where a machine is.
func (m People) Crew() schedule.CrewID {
	if m.page == nil {
		return schedule.None
	}
	return m.page.Crew(m.chosen)
}

// Click chooses what stands at a line of a frame; did is false where nothing does.
func (m People) Click(c draw.Chrome, y int) (next People, did bool) {
	if m.page == nil {
		return m, false
	}
	row := m.page.At(c, m.chosen, m.top, y)
	if row < 0 {
		return m, false
	}
	return m.choose(row), true
}

// Sentence tells the chosen row: how much its crew or machine works, and what clashes.
func (m People) Sentence() string {
	if m.page == nil || m.page.Len() == 0 {
		return ""
	}
	return m.page.Sentence(m.chosen)
}

// Update handles the view's keys; did is false where a key does nothing.
func (m People) Update(press tea.KeyMsg) (next People, did bool) {
	if m.page == nil || m.page.Len() == 0 {
		return m, false
	}
	by, ok := m.moves.Lines(press, m.size.Height/3, m.page.Len())
	if !ok {
		return m, false
	}
	was := m.chosen
	next = m.choose(m.chosen + by)
	return next, next.chosen != was
}

// View draws a frame.
func (m People) View(c draw.Chrome, th draw.Theme) string {
	if m.page == nil {
		return draw.Page(c, "", nil, 0, m.size, th)
	}
	return m.page.Draw(c, m.chosen, m.top, th)
}
