package views

import (
	"slices"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/tui/draw"
)

// dayKeys is what the view's own keys do.
type dayKeys struct{ CrewTo, CrewBefore, Slips key.Binding }

// defaultDayKeys returns the view's own keys.
func defaultDayKeys() dayKeys {
	return dayKeys{
		CrewTo:     key.NewBinding(key.WithKeys("c"), key.WithHelp("c", "the next crew")),
		CrewBefore: key.NewBinding(key.WithKeys("C"), key.WithHelp("C", "the crew before")),
		Slips:      key.NewBinding(key.WithKeys("V"), key.WithHelp("V", "how far each may slip; again: not")),
	}
}

// list returns the keys in the order of the help.
func (k dayKeys) list() []key.Binding { return []key.Binding{k.CrewTo, k.CrewBefore, k.Slips} }

// Hint returns the main keys in a few words.
func (m Day) Hint() string {
	k := m.moves
	return k.Left.Help().Key + " " + k.Right.Help().Key + " day   " + m.keys.CrewTo.Help().Key + " crew"
}

// Day is the view's state.
type Day struct {
	keys   dayKeys
	moves  Moves
	garden *draw.Garden
	size   draw.Size
	look   draw.DayLook
	chosen schedule.Activity // the last one chosen by another view
	line   schedule.Activity // the line that is chosen; Nothing when there is none
}

// NewDay returns the view before anything is known.
func NewDay() Day {
	look := draw.DayLook{Crew: draw.Everyone}
	return Day{keys: defaultDayKeys(), moves: DefaultMoves(), look: look, chosen: schedule.Nothing, line: schedule.Nothing}
}

// Keys returns the view's own keys.
func (m Day) Keys() []key.Binding { return m.keys.list() }

// SetGarden shows another garden, or the same one solved again. The first is shown on
// today's date, or on the opening day before the build and on the last day after it.
func (m Day) SetGarden(g *draw.Garden) Day {
	first := m.garden == nil
	m.garden = g
	if int(m.look.Crew) >= len(g.Plan.Crews) {
		m.look.Crew = draw.Everyone
	}
	if first {
		m.look.Date = g.Date(g.Now)
	}
	return m.within()
}

// within keeps the date among the days with something to show.
func (m Day) within() Day {
	from, to := m.garden.Days()
	if m.look.Date < from || m.look.Date > to {
		m.look.Date = min(max(m.look.Date, m.garden.Date(m.garden.Plan.Site.Opens)), to)
	}
	return m.hold()
}

// hold keeps the choice on the activity that was chosen, whose place in the day may be
// another now.
func (m Day) hold() Day {
	top := m.look.Top
	m.look = m.garden.ChooseActivity(m.look, m.line, m.size)
	m.look.Top = min(max(top, m.look.Top), m.garden.LastTop(m.look, m.size))
	return m.mark()
}

// mark remembers what is chosen.
func (m Day) mark() Day {
	m.line = schedule.Nothing
	if s, ok := m.garden.Chosen(m.look); ok {
		m.line = s.Activity
	}
	return m
}

// SetSize fits the view to the terminal.
func (m Day) SetSize(s draw.Size) Day {
	m.size = s
	if m.garden == nil {
		return m
	}
	return m.within()
}

// Chosen returns the activity of the chosen line, else what another view chose last.
func (m Day) Chosen() schedule.Activity {
	if m.line != schedule.Nothing {
		return m.line
	}
	return m.chosen
}

// Choose shows the day on which an activity starts, for its first crew.
func (m Day) Choose(t schedule.Activity) Day {
	if m.garden == nil || t == m.Chosen() {
		return m
	}
	m.chosen = t
	at, crew := calendars.Never, draw.Everyone
	p, g := m.garden.Plan, m.garden.Programme
	if task, ok := p.Task(t); ok {
		at = g.Tasks[task].Start
		if needs := p.Tasks[task].Crew; len(needs) > 0 {
			crew = needs[0].Crew
		}
	} else if d, ok := p.Delivery(t); ok {
		at = g.Unloads[d].Arrives
	}
	if at.IsReal() {
		m.look, m.line = m.at(m.garden.Date(at), crew), t
		return m.hold()
	}
	return m
}

// at looks at a crew's day from its top.
func (m Day) at(on calendars.Date, crew schedule.CrewID) draw.DayLook {
	return draw.DayLook{Date: on, Crew: crew, Slips: m.look.Slips}
}

// Click chooses what stands at a line of a frame: in the list of everyone it shows the day
// of its crew. did is false where nothing does.
func (m Day) Click(c draw.Chrome, y int) (next Day, did bool) {
	if m.garden == nil {
		return m, false
	}
	at, crew, ok := draw.DayAt(m.garden, c, m.look, m.size, y)
	if !ok {
		return m, false
	}
	if crew != m.look.Crew {
		m.look = m.at(m.look.Date, crew)
	}
	m.line = at
	return m.hold(), true
}

// ChooseCrew shows the day of a crew.
func (m Day) ChooseCrew(c schedule.CrewID) Day {
	if m.garden == nil {
		return m
	}
	m.look, m.line = m.at(m.look.Date, c), schedule.Nothing
	return m.hold()
}

// Update handles the view's keys; did is false where a key does nothing.
func (m Day) Update(press tea.KeyMsg) (next Day, did bool) {
	if m.garden == nil {
		return m, false
	}
	was := m.look
	next = m.turned(press)
	return next, next.look != was
}

// turned returns the view after a key.
func (m Day) turned(press tea.KeyMsg) Day {
	from, to := m.garden.Days()
	switch {
	case key.Matches(press, m.moves.Left):
		return m.onDate(max(m.look.Date-1, from))
	case key.Matches(press, m.moves.Right):
		return m.onDate(min(m.look.Date+1, to))
	case key.Matches(press, m.keys.CrewTo):
		return m.turnCrew(1)
	case key.Matches(press, m.keys.CrewBefore):
		return m.turnCrew(-1)
	case key.Matches(press, m.keys.Slips) && m.look.Crew != draw.Everyone:
		m.look.Slips = !m.look.Slips
		return m.hold()
	}
	by, ok := m.moves.Lines(press, m.size.Height/4, m.length())
	if !ok {
		return m
	}
	m.look = m.garden.Choose(m.look, by, m.size)
	return m.mark()
}

// length is more steps than there are from one end of the day to the other.
func (m Day) length() int {
	return 2 * (len(m.garden.Shifts(m.look)) + m.garden.LastTop(m.look, m.size) + 1)
}

// onDate shows another day, and chooses its first line that isn't ticked off.
func (m Day) onDate(d calendars.Date) Day {
	if d != m.look.Date {
		m.look, m.line = m.at(d, m.look.Crew), schedule.Nothing
	}
	return m.hold()
}

// Lines returns the day's lines, and what comes through the gate, with their numbers.
func (m Day) Lines() []draw.Numbered {
	if m.garden == nil {
		return nil
	}
	var out []draw.Numbered
	for _, s := range m.garden.Shifts(m.look) {
		out = append(out, draw.Numbered{Activity: s.Activity, Number: m.garden.Number(s.Activity)})
	}
	for _, d := range m.garden.Gate(m.look.Date) {
		t := m.garden.Plan.Unload(d)
		if n := (draw.Numbered{Activity: t, Number: m.garden.Number(t)}); !slices.Contains(out, n) {
			out = append(out, n)
		}
	}
	return out
}

// Line returns the chosen line; its number is 0 for none.
func (m Day) Line() draw.Numbered {
	if m.line == schedule.Nothing {
		return draw.Numbered{Activity: schedule.Nothing}
	}
	return draw.Numbered{Activity: m.line, Number: m.garden.Number(m.line)}
}

// Date returns the day that is shown.
func (m Day) Date() calendars.Date { return m.look.Date }

// Crew returns the crew that is shown, or draw.Everyone.
func (m Day) Crew() schedule.CrewID { return m.look.Crew }

// turnCrew goes round the crews, with everyone between the last and the first.
func (m Day) turnCrew(by int) Day {
	n := len(m.garden.Plan.Crews) + 1
	m.look = m.at(m.look.Date, schedule.CrewID((int(m.look.Crew)+1+by+n)%n-1))
	m.line = schedule.Nothing
	return m.hold()
}

// View draws a frame.
func (m Day) View(c draw.Chrome, th draw.Theme) string {
	if m.garden == nil {
		return draw.Page(c, "", nil, 0, m.size, th)
	}
	return draw.Day(m.garden, c, m.look, m.size, th)
}
