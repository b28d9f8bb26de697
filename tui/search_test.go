package tui

import (
	"context"
	"errors"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
	"build.example/turflast/tui/draw"
	"build.example/turflast/tui/gardentest"
)

// next runs the command that has been held longest, alone, and holds what
// follows.
func (b *bench) next() tea.Msg {
	b.t.Helper()
	if len(b.held) == 0 {
		b.t.Fatal("nothing is held")
	}
	cmd := b.held[0]
	b.held = b.held[1:]
	msg := cmd()
	if batch, ok := msg.(tea.BatchMsg); ok {
		for _, c := range batch {
			if c != nil {
				b.held = append(b.held, c)
			}
		}
		return nil
	}
	return msg
}

// holding is a bench whose plan is read and whose commands are held back from
// then on; nobody asks how late deliveries may come.
func holding(t *testing.T) *bench {
	b := demo(t)
	a := b.app()
	a.opts.Tolerances = nil
	b.model = a
	b.hold = true
	b.press("/", "62 m2", "enter", "3")
	return b
}

func TestLogicUntilTheCrewProgrammeIsThere(t *testing.T) {
	b := holding(t)
	b.sees("proven best")
	b.press(".")
	b.sees("proven best") // the last one is shown until there is another
	b.send(b.next())
	b.sees("proven best", " in hand … ") // greyed, with a sign of work; no figure is that of logic
	b.lacks("Logic only")
	b.next() // begins the search and the wait
	b.send(b.next())
	b.sees("proven best", "What if: turf 1h ")
	b.lacks(" in hand … ")
	b.lacks("Logic only")
}

func TestScopeIsSwitched(t *testing.T) {
	b := demo(t)
	b.press("/", "cables front", "enter")
	b.sees("⋅ ⋅")
	b.press("l")
	b.sees("Logic only: hands over")
	b.lacks("⋅ ⋅")
	b.press("l")
	b.sees("proven best")
	if b.file.searches != 1 {
		t.Errorf("%d searches", b.file.searches)
	}
	// What is found while the logic programme is shown is there at once.
	b.press("l", "/", "62 m2", "enter", "3", ".")
	b.sees("Logic only: hands over")
	if b.file.searches != 1 {
		t.Errorf("%d searches where none is wanted", b.file.searches)
	}
	b.press("l")
	b.sees("proven best")
}

func TestSlowSearchIsTold(t *testing.T) {
	b := holding(t)
	best := func(calendars.Instant) {}
	b.file.crews = func(_ context.Context, p *schedule.Plan, better func(calendars.Instant)) (network.Case, error) {
		best = better
		return b.file.likeLogic(context.Background(), p, nil)
	}
	b.press(".")
	b.send(b.next())
	b.next()
	found := b.next()
	b.lacks("Looking for")
	b.send(b.waits[len(b.waits)-1])
	b.sees("Looking for the crew programme · the programme before is shown")
	best(b.file.plan.Site.Handover)
	b.send(b.waits[len(b.waits)-1])
	b.sees("Looking for better: Sat 8 May 15:00 so far · the programme before is shown")
	for range 6 {
		b.send(b.waits[len(b.waits)-1])
	}
	b.sees("so far, 2 s · the programme before")
	for _, k := range []string{"1", "2", "3", "d", "p", "?", "esc"} { // no key waits for it
		b.press(k)
	}
	b.send(found)
	b.lacks("Looking for")
	b.sees("proven best")
	waits := len(b.waits)
	b.send(b.waits[waits-1])
	if len(b.waits) != waits {
		t.Error("it is told of after its end")
	}
}

// A newer booking stops the search for the older one, which ends before another
// begins; what it found is not shown.
func TestNewestSearchWins(t *testing.T) {
	b := holding(t)
	var stopped []error
	b.file.crews = func(ctx context.Context, p *schedule.Plan, _ func(calendars.Instant)) (network.Case, error) {
		stopped = append(stopped, ctx.Err())
		return b.file.likeLogic(context.Background(), p, nil)
	}
	b.press(".")
	b.send(b.next())
	b.next()
	search := b.held[0]
	b.held = nil
	b.press(".") // while the search runs
	b.send(b.next())
	b.sees(" in hand … ")
	if len(b.held) != 0 {
		t.Fatal("two searches at once")
	}
	b.send(search())
	b.sees(" in hand … ")
	b.next()
	b.send(b.next())
	b.sees("proven best")
	if len(stopped) != 2 || stopped[0] == nil || stopped[1] != nil {
		t.Errorf("stopped: %v", stopped)
	}
}

func TestRefusedCrewProgramme(t *testing.T) {
	b := demo(t)
	b.file.crews = func(context.Context, *schedule.Plan, func(calendars.Instant)) (network.Case, error) {
		return network.Case{}, errors.New("the programme failed its own check")
	}
	b.press("r")
	b.sees("the programme failed its own check", "The last good plan is shown", "proven best")
}

// What the programme chose is said in every view: a booking that it moves, a
// task that it leaves out. A trial of a booking starts where it is shown, and
// holds.
func TestChoicesAreShown(t *testing.T) {
	b := demo(t)
	p := b.file.plan
	trees, pots := p.FindDelivery("trees"), p.FindTask("pots")
	if p.Deliveries[trees].Movable == nil {
		t.Fatal("the trees can't be moved")
	}
	b.file.crews = func(_ context.Context, q *schedule.Plan, _ func(calendars.Instant)) (network.Case, error) {
		s, err := b.file.likeLogic(context.Background(), q, nil)
		if q.Deliveries[trees].Movable != nil {
			s.Programme.Unloads[trees].Arrives -= 60
		}
		s.Programme.Tasks[pots] = schedule.TaskDates{
			Dates: schedule.Dates{Start: calendars.Never, Finish: calendars.Never},
			Done:  calendars.Never, Dropped: true, Heads: []int{0},
		}
		return s, err
	}
	b.press("r")
	for _, view := range []string{"1", "2", "3"} {
		b.press(view)
		b.sees("Left out for the sake of the dates: Pots on the deck.",
			"Book two pines, three hawthorns, a tamarisk for Wed 5 May 06:00, 1 h earlier")
	}
	b.press("/", "two pines", "enter")
	b.sees("(moved)")
	b.press(".", ".")
	b.sees("(trial)", "Trial: arrives Wed 5 May 08:00, 1 h later")
	b.lacks("Book two pines")
	if at := b.app().shown.plan.Deliveries[trees].Arrives; at != p.Deliveries[trees].Arrives+60 {
		t.Errorf("two hours later than the programme's is %d minutes later than the file's", at-p.Deliveries[trees].Arrives)
	}
}

// The day of a crew tells what the programme leaves out of it.
func TestTheDaySaysWhatIsLeftOut(t *testing.T) {
	g := gardentest.Solve(t, gardentest.Demo(t))
	pots := g.Plan.FindTask("pots")
	day := g.Date(g.Programme.Tasks[pots].Start)
	g.Programme.Tasks[pots] = schedule.TaskDates{Dates: schedule.Dates{Start: calendars.Never}, Dropped: true}
	frame := draw.Day(g, draw.Chrome{}, draw.DayLook{Date: day, Crew: g.Plan.Tasks[pots].Crew[0].Crew},
		draw.Size{Width: 120, Height: 100}, draw.Theme{})
	if !strings.Contains(frame, "LEFT OUT") ||
		!strings.Contains(frame, "Pots on the deck is left out for the sake of the dates.") {
		t.Errorf("not said:\n%s", frame)
	}
}

// Every view tells what proves that the hand-over can't be met.
func TestImpossibleIsLoud(t *testing.T) {
	b := demo(t)
	p := b.file.plan
	b.file.crews = func(_ context.Context, q *schedule.Plan, _ func(calendars.Instant)) (network.Case, error) {
		s, err := b.file.likeLogic(context.Background(), q, nil)
		g := s.Programme
		g.Finish, g.Bound, g.Handover = p.Site.Handover+180, p.Site.Handover+180, schedule.Margin{Time: -180}
		g.Overfull = &schedule.Overfull{
			Crew: 0, Machine: schedule.None, Zone: schedule.None, Alone: schedule.None,
			Span: calendars.Span{Start: p.Site.Opens, End: p.Site.Handover}, Needed: 120,
			There: 60, Until: p.Site.Handover, Work: []schedule.Activity{0},
		}
		return s, err
	}
	b.press("r")
	const why = "needs 2 h of people between Fri 30 Apr 07:00 and Sat 8 May 15:00; only 1 h are there."
	for _, view := range []string{"1", "2", "3"} {
		b.press(view)
		b.sees("! Impossible: the work for ", "Sat 8 May 18:00, 3 h after the line · impossible")
	}
	b.press("d")
	if text := strings.Join(strings.Fields(b.model.View()), " "); !strings.Contains(text, why) {
		t.Errorf("the chain doesn't say why:\n%s", b.model.View())
	}
}
