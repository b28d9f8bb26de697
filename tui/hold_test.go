package tui

import (
	"context"
	"io"
	"runtime/debug"
	"slices"
	"sync"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	front "build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/said"
	"build.example/turflast/schedule/verify"
	"build.example/turflast/tui/draw"
	"build.example/turflast/tui/gardentest"
)

// held is the root model in a real program, with searches that really run. It
// takes the time of every key: from when it was pressed until the frame after it
// is drawn, and of every frame: from when its message came.
type held struct {
	app
	log *keyLog
}

// keyLog is what is taken down of keys and frames.
type keyLog struct {
	mu      sync.Mutex
	pressed []time.Time // that have no frame yet
	strokes int         // that there will be
	asked   int         // keys that the model was given
	waits   []time.Duration
	frames  []time.Duration
	began   time.Time // of the message that the next frame is for
	ready   chan struct{}
	settled chan struct{}
	final   app
}

func (h held) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	h.log.mu.Lock()
	defer h.log.mu.Unlock()
	h.log.began = time.Now()
	if k, ok := msg.(tea.KeyMsg); ok {
		h.log.asked += max(len(k.Runes), 1)
	}
	m, cmd := h.app.Update(msg)
	h.app = m.(app)
	if h.garden != nil && h.crews != nil {
		h.log.open(&h.log.ready)
	}
	return h, cmd
}

// open closes a channel once.
func (l *keyLog) open(c *chan struct{}) {
	if *c != nil {
		close(*c)
		*c = nil
	}
}

func (h held) View() string {
	frame := h.app.View()
	h.log.mu.Lock()
	defer h.log.mu.Unlock()
	now := time.Now()
	h.log.frames = append(h.log.frames, now.Sub(h.log.began))
	for range h.log.asked {
		if len(h.log.pressed) > 0 {
			h.log.waits = append(h.log.waits, now.Sub(h.log.pressed[0]))
			h.log.pressed = h.log.pressed[1:]
		}
	}
	h.log.asked = 0
	if h.settled() && len(h.log.waits) >= h.log.strokes {
		h.log.final = h.app
		h.log.open(&h.log.settled)
	}
	return frame
}

// searching solves as commands do: both scopes, checked.
func searching(p *schedule.Plan) Options {
	solver := func(p *schedule.Plan) (*front.Solver, error) { return front.New(p) }
	checked := func(c network.Case) (network.Case, error) {
		if found := verify.Check(c.Plan, c.Programme, c.Programme.Scope); len(found.Rules) > 0 {
			panic(found.Rules)
		}
		return c, nil
	}
	return Options{
		Name: "plan.yaml",
		Load: func() (*schedule.Plan, schedule.Problems) { return p, nil },
		Logic: func(p *schedule.Plan) (network.Case, error) {
			s, err := solver(p)
			if err != nil {
				return network.Case{}, err
			}
			return checked(s.Logic())
		},
		Crews: func(ctx context.Context, p *schedule.Plan, near *schedule.Programme,
			better func(calendars.Instant)) (network.Case, error) {
			s, err := solver(p)
			if err != nil {
				return network.Case{}, err
			}
			return checked(s.Crews(ctx, front.Options{Reference: near, Progress: func(q front.Progress) { better(q.Finish) }}))
		},
		Words: understood,
		Now:   func() calendars.Instant { return p.Site.Opens.Plus(-calendars.Day) },
		Theme: draw.NewTheme(draw.True, false),
	}
}

// hold opens a plan at 200 by 60, opens the what-if and, once there is a crew
// programme, holds a key down for a number of strokes, one every so often. It
// waits until nothing is being solved.
func hold(t testing.TB, p *schedule.Plan, key string, strokes int, every time.Duration) *keyLog {
	t.Helper()
	log := &keyLog{strokes: strokes + 1, ready: make(chan struct{}), settled: make(chan struct{})}
	ready, settled := log.ready, log.settled
	keys, typed := io.Pipe()
	program := tea.NewProgram(held{newApp(searching(p)), log},
		tea.WithInput(keys), tea.WithOutput(io.Discard), tea.WithoutSignalHandler())
	ended := make(chan error, 1)
	go func() {
		_, err := program.Run()
		ended <- err
	}()
	program.Send(tea.WindowSizeMsg{Width: 200, Height: 60})
	<-ready
	press := func(k string) {
		log.mu.Lock()
		log.pressed = append(log.pressed, time.Now())
		log.mu.Unlock()
		if _, err := typed.Write([]byte(k)); err != nil {
			t.Error(err)
		}
	}
	press("\x1b[F") // end
	press("w")
	log.mu.Lock()
	log.frames = nil // of those before the key is held
	log.mu.Unlock()
	tick := time.NewTicker(every)
	defer tick.Stop()
	for range strokes {
		<-tick.C
		press(key)
	}
	<-settled
	program.Quit()
	if err := <-ended; err != nil {
		t.Fatal(err)
	}
	return log
}

// TestAHeldKeyLosesNone holds a key down over searches that really run: every
// stroke counts, and in the end the newest changes are solved.
func TestAHeldKeyLosesNone(t *testing.T) {
	const strokes = 40
	log := hold(t, gardentest.Big(200), ">", strokes, 5*time.Millisecond)
	a := log.final
	list := a.want.trials.List()
	if len(list) != 1 || list[0].Change.Length != strokes*calendars.Hour {
		t.Errorf("after %d strokes: %v", strokes, list)
	}
	if a.shown.plan != a.want.plan || a.crews == nil || a.garden.Trial == nil {
		t.Error("the newest changes aren't shown")
	}
}

// BenchmarkHeldKey holds a key down on 1,000 tasks at 200 by 60, thirty strokes a
// second as a keyboard does, while each stroke has the plan solved again. What it
// tells: from a message to its frame, and from a stroke to the frame that shows it.
func BenchmarkHeldKey(b *testing.B) {
	defer debug.SetGCPercent(debug.SetGCPercent(400)) // as the command does
	var frames, waits []time.Duration
	for b.Loop() {
		log := hold(b, gardentest.Big(1000), ".", 150, time.Second/30)
		frames, waits = append(frames, log.frames...), append(waits, log.waits...)
	}
	tell := func(what string, d []time.Duration) {
		slices.Sort(d)
		for _, at := range []struct {
			name  string
			share int
		}{{"median", 50}, {"p99", 99}, {"worst", 100}} {
			b.ReportMetric(float64(d[(len(d)-1)*at.share/100].Microseconds())/1000, at.name+"-"+what+"-ms")
		}
	}
	tell("frame", frames)
	tell("stroke", waits)
	b.ReportMetric(0, "ns/op")
}

// understood understands what is typed, as the commands do.
func understood(p *schedule.Plan, numbers func(int) schedule.Activity, now calendars.Instant) Words {
	return said.New(p, now, numbers)
}
