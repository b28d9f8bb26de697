package tui

import (
	"context"
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/ask/tolerance"
	front "build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/network"
	"build.example/turflast/tui/gardentest"
)

// bench drives the root model without a terminal: commands run at once, in the
// order in which they come, except waits, which a test ends itself.
type bench struct {
	t     testing.TB
	model tea.Model
	file  *file
	quit  bool
	waits []tea.Msg // what is sent after a while, by the test
	held  []tea.Cmd // commands kept back while hold is set
	hold  bool
}

// file is the plan's file as the test wants it.
type file struct {
	plan       *schedule.Plan
	problems   schedule.Problems
	stamp      string
	solves     int // logic programmes made
	searches   int // crew programmes looked for
	asks       int // programmes whose tolerances were asked for
	builds     int // programmes that odds were asked for
	tolerances func(context.Context, network.Case, func()) []tolerance.Delivery
	crews      func(context.Context, *schedule.Plan, func(calendars.Instant)) (network.Case, error)
	fail       error
	last       *front.Solver
	near       *schedule.Programme // which the last search was to keep to
}

// solver rebooks the last plan's solver where only arrivals differ.
func (f *file) solver(p *schedule.Plan) (*front.Solver, error) {
	if f.last != nil && f.last.Plan().SameButBookings(p) {
		return f.last.Rebook(p), nil
	}
	s, err := front.New(p)
	f.last = s
	return s, err
}

func newBench(t testing.TB, p *schedule.Plan, w, h int) *bench {
	t.Helper()
	f := &file{plan: p, stamp: "1"}
	b := &bench{t: t, file: f}
	f.crews = f.likeLogic
	f.tolerances = func(_ context.Context, c network.Case, asked func()) []tolerance.Delivery {
		asked()
		return gardentest.Tolerances(c)
	}
	a := newApp(Options{
		Name: "plan.yaml",
		Load: func() (*schedule.Plan, schedule.Problems) { return f.plan, f.problems },
		Stat: func() string { return f.stamp },
		Logic: func(p *schedule.Plan) (network.Case, error) {
			f.solves++
			if f.fail != nil {
				return network.Case{}, f.fail
			}
			s, err := f.solver(p)
			if err != nil {
				return network.Case{}, err
			}
			return s.Logic(), nil
		},
		Crews: func(ctx context.Context, p *schedule.Plan, near *schedule.Programme,
			better func(calendars.Instant)) (network.Case, error) {
			f.near = near
			f.searches++
			return f.crews(ctx, p, better)
		},
		Tolerances: func(ctx context.Context, c network.Case, asked func()) []tolerance.Delivery {
			f.asks++
			return f.tolerances(ctx, c, asked)
		},
		Pairs: func(context.Context, network.Case) []tolerance.Pair {
			return []tolerance.Pair{{First: 0, Second: 1, Proven: true}}
		},
		Words: understood,
		Odds: func(ctx context.Context, c network.Case) (*odds.Result, error) {
			f.builds++
			return odds.Run(ctx, c, odds.Options{Builds: 100, Seed: 1, Pace: odds.UsualPace})
		},
		Now: func() calendars.Instant { return p.Site.Opens.Plus(-30 * calendars.Day) },
	})
	a.wait = func(_ time.Duration, msg tea.Msg) tea.Cmd {
		b.waits = append(b.waits, msg)
		return func() tea.Msg { return nil }
	}
	b.model = a
	b.send(tea.WindowSizeMsg{Width: w, Height: h})
	b.run(load(b.app().opts))
	return b
}

// likeLogic stands in for a crew programme where a test doesn't look at it: the
// logic programme, with half of the float really there.
func (f *file) likeLogic(_ context.Context, p *schedule.Plan, _ func(calendars.Instant)) (network.Case, error) {
	s, err := f.solver(p)
	if err != nil {
		return network.Case{}, err
	}
	c := s.Logic()
	g := c.Programme
	g.Scope, g.Bound = schedule.Crews, min(g.Finish, p.Site.Handover)
	if g.Blocked != nil {
		g.Bound = calendars.Never
	}
	for i := range g.Tasks {
		g.Tasks[i].CrewFloat = g.Tasks[i].TotalFloat / 2
	}
	return c, nil
}

// real is the crew programme that is found.
func (f *file) real(_ context.Context, p *schedule.Plan, _ func(calendars.Instant)) (network.Case, error) {
	s, err := f.solver(p)
	if err != nil {
		return network.Case{}, err
	}
	return gardentest.Crews(s, f.near), nil
}

func (b *bench) app() app { return b.model.(app) }

func (b *bench) send(msg tea.Msg) {
	next, cmd := b.model.Update(msg)
	b.model = next
	b.run(cmd)
}

func (b *bench) run(cmd tea.Cmd) {
	if cmd == nil {
		return
	}
	if b.hold {
		b.held = append(b.held, cmd)
		return
	}
	switch msg := cmd().(type) {
	case tea.BatchMsg:
		for _, c := range msg {
			b.run(c)
		}
	case tea.QuitMsg:
		b.quit = true
	default:
		b.send(msg)
	}
}

// look ends the wait for the next look at the file. The wait that follows is
// not begun: it would sleep.
func (b *bench) look() {
	next, cmd := b.app().statted(statMsg{b.file.stamp})
	b.model = next
	if b.app().garden != nil && b.app().stamp == b.file.stamp && cmd != nil {
		b.run(load(b.app().opts))
	}
}

// press sends keys by the names that they have in the help, text as typed.
func (b *bench) press(keys ...string) {
	special := map[string]tea.KeyType{"up": tea.KeyUp, "down": tea.KeyDown, "left": tea.KeyLeft, "right": tea.KeyRight,
		"enter": tea.KeyEnter, "esc": tea.KeyEsc, "tab": tea.KeyTab, "home": tea.KeyHome, "end": tea.KeyEnd,
		"backspace": tea.KeyBackspace, "ctrl+c": tea.KeyCtrlC,
		"pgdown": tea.KeyPgDown, "pgup": tea.KeyPgUp, "ctrl+u": tea.KeyCtrlU,
		"shift+tab": tea.KeyShiftTab, "ctrl+z": tea.KeyCtrlZ}
	for _, k := range keys {
		if typ, ok := special[k]; ok {
			b.send(tea.KeyMsg{Type: typ})
			continue
		}
		for _, r := range k {
			b.send(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}})
		}
	}
}

func (b *bench) sees(want ...string) {
	b.t.Helper()
	frame := b.model.View()
	for _, w := range want {
		if !strings.Contains(frame, w) {
			b.t.Errorf("the frame lacks %q:\n%s", w, frame)
		}
	}
}

func (b *bench) lacks(what string) {
	b.t.Helper()
	if frame := b.model.View(); strings.Contains(frame, what) {
		b.t.Errorf("the frame has %q:\n%s", what, frame)
	}
}

func demo(t testing.TB) *bench { return newBench(t, gardentest.Demo(t), 120, 40) }
