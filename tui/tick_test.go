package tui

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"turflast/calendars"
	"turflast/schedule"
)

// memory is a site log of its own, without a file.
type memory struct {
	ticks  []Tick
	undone []int
	fail   error
	broken error // of reading
}

func (m *memory) Stamp() string { return fmt.Sprint(len(m.ticks), len(m.undone)) }

func (m *memory) AsAt(p *schedule.Plan, at calendars.Instant) (*schedule.Plan, []Logged, error) {
	if m.broken != nil || len(m.ticks) == 0 {
		return p, nil, m.broken
	}
	q := *p
	q.Progress = &schedule.Progress{At: at, Tasks: make([]schedule.TaskProgress, len(p.Tasks)), Deliveries: make([]schedule.DeliveryProgress, len(p.Deliveries))}
	m.builtBefore(&q)
	var all []Logged
	for i, t := range m.ticks {
		all = append(all, m.logged(p, i))
		if !slices.Contains(m.undone, i) {
			m.replay(&q, t, at)
		}
	}
	for _, i := range m.undone {
		all = append(all, Logged{fmt.Sprint("undo ", i), "took back: " + m.logged(p, i).Text})
	}
	return &q, all, nil
}

// builtBefore has all work off site done before the gate opened.
func (m *memory) builtBefore(p *schedule.Plan) {
	at := p.Site.Opens.Plus(-calendars.Day)
	for i := range p.Tasks {
		if p.Zones[p.Tasks[i].Zones[0]].OffSite {
			p.Progress.Tasks[i] = schedule.TaskProgress{Start: at, Finish: at, Signed: at, Heads: make([]int, len(p.Tasks[i].Crew))}
		}
	}
}

func (m *memory) replay(p *schedule.Plan, t Tick, at calendars.Instant) {
	if t.Delivery >= 0 {
		p.Progress.Deliveries[t.Delivery] = schedule.DeliveryProgress{Arrived: true, Start: t.At, Finish: t.At}
		return
	}
	if t.Task < 0 {
		return
	}
	x := &p.Progress.Tasks[t.Task]
	switch t.Kind {
	case TickStarted:
		x.Start, x.Left = t.At, p.Tasks[t.Task].Effort
		for _, n := range p.Tasks[t.Task].Crew {
			x.Heads = append(x.Heads, n.Least)
		}
	case TickFinished:
		x.Finish, x.Worked = t.At, []calendars.Span{{Start: x.Start, End: t.At}}
	case TickSigned:
		x.Signed = t.At
	case TickFailed:
		x.Failed = t.At
	case TickLeft:
		left, err := calendars.ParseWork(t.Text)
		if err != nil {
			panic(err)
		}
		x.Left = schedule.Effort{Takes: left}
	case TickPaused, TickResumed:
		x.Paused = t.Kind == TickPaused
	}
	if x.Finish == 0 {
		x.Worked = []calendars.Span{{Start: x.Start, End: at}}
	}
}

func (m *memory) logged(p *schedule.Plan, i int) Logged {
	t, name := m.ticks[i], "the garden"
	switch {
	case t.Task >= 0:
		name = p.Tasks[t.Task].Name
	case t.Delivery >= 0:
		name = p.Deliveries[t.Delivery].What
	}
	words := map[TickKind]string{TickStarted: "started", TickFinished: "finished", TickArrived: "came", TickSigned: "signed", TickFailed: "failed",
		TickRefused: "refused", TickLeft: "left", TickPaused: "paused", TickResumed: "goes on", TickNote: "note"}[t.Kind]
	return Logged{fmt.Sprint(i), strings.TrimSpace(name + ": " + words + " " + t.Text)}
}

func (m *memory) Add(p *schedule.Plan, t Tick) (Logged, error) {
	if m.fail != nil {
		return Logged{}, m.fail
	}
	m.ticks = append(m.ticks, t)
	return m.logged(p, len(m.ticks)-1), nil
}

func (m *memory) Undo(p *schedule.Plan, id string) (Logged, error) {
	if m.fail != nil {
		return Logged{}, m.fail
	}
	for i := range m.ticks {
		if fmt.Sprint(i) == id {
			m.undone = append(m.undone, i)
			return Logged{fmt.Sprint("undo ", i), "took back: " + m.logged(p, i).Text}, nil
		}
	}
	return Logged{}, errors.New("no such event")
}

// log gives the bench a log, at the end of the first hour on site.
func (b *bench) log() *memory {
	a, log := b.app(), &memory{}
	a.opts.Log = log
	a.opts.Now = func() calendars.Instant { return b.file.plan.Site.Opens.Plus(calendars.Hour) }
	b.model = a
	return log
}

// onSite is a bench with a log that shows the first day of the ground crew.
func onSite(t *testing.T) (*bench, *memory) {
	b := demo(t)
	log := b.log()
	b.press("r", "/", "Induction", "enter", "2")
	return b, log
}

func (b *bench) line(name string) string {
	for i, t := range b.app().day.Lines() {
		if b.app().garden.Name(t) == name {
			return fmt.Sprint(i + 1)
		}
	}
	b.t.Fatalf("no line %q:\n%s", name, b.model.View())
	return ""
}

// on presses a key of the day and the number of a line, which enter ends where a
// further digit could follow.
func (b *bench) on(key, name string) {
	b.press(key, b.line(name))
	if b.app().prompt.kind == linePrompt {
		b.press("enter")
	}
}

// A tick is two keys; it says the margin before and after it, and one key takes
// it back.
func TestTicks(t *testing.T) {
	b, log := onSite(t)
	const induction = "Induction and services marked"
	b.press("t")
	b.sees("Tick line: ▁ enter takes 1, " + induction)
	b.press("esc")
	b.on("t", induction)
	b.sees("Induction and services marked: started. Still 6 h 28 in hand.", "u takes the last one back", "Started 08:00; ")
	b.press("down")
	b.lacks("Still")
	b.on("t", induction)
	b.sees("Induction and services marked: finished.", "not signed yet")
	b.on("t", induction)
	b.sees("signed 08:00", "✓ Induction and services marked")
	b.on("t", induction)
	b.sees("it is ticked off already")
	b.press("u")
	b.sees("Took back: Induction and services marked: signed", "not signed yet")
	b.on("x", induction)
	b.press("once more", "enter")
	b.sees("failed 08:00")
	kinds := []TickKind{}
	for _, x := range log.ticks {
		kinds = append(kinds, x.Kind)
	}
	if !slices.Equal(kinds, []TickKind{TickStarted, TickFinished, TickSigned, TickFailed}) || log.ticks[3].Text != "once more" {
		t.Errorf("logged %+v", log.ticks)
	}
	b.press("u", "u", "u", "u")
	if len(log.undone) != 4 {
		t.Errorf("taken back: %v", log.undone)
	}
	b.sees("Nothing to take back")
}

// A number that may get another digit is a line's after a while, or with it.
func TestLineNumbers(t *testing.T) {
	b, log := onSite(t)
	if n := len(b.app().day.Lines()); n < 10 {
		t.Fatalf("%d lines", n)
	}
	ended := func() tea.Msg { return b.waits[len(b.waits)-1] }
	b.press("t", "1")
	if len(log.ticks) != 0 {
		t.Fatal("1 can't become 10")
	}
	early := ended()
	b.press("0")
	if len(log.ticks) != 1 {
		t.Fatal("10 isn't ticked at once")
	}
	b.press("t", "1")
	b.send(early)
	if len(log.ticks) != 1 {
		t.Fatal("an old wait ends a new number")
	}
	b.send(ended())
	b.press("t", "2")
	if len(log.ticks) != 3 {
		t.Fatalf("%d ticks", len(log.ticks))
	}
	b.press("t", "1", "backspace")
	b.send(ended())
	b.press("esc", "t", "1", "esc")
	b.send(ended())
	if len(log.ticks) != 3 {
		t.Fatalf("%d ticks, some of them taken back", len(log.ticks))
	}
}

// What is left, pauses and notes take a text; a line is chosen by enter too.
func TestTicksWithText(t *testing.T) {
	b, log := onSite(t)
	b.press("e", "enter")
	b.sees("only work in hand has something left to enter")
	b.press("t", "enter", "e", "enter")
	b.sees("what is left, such as 3h or 2h30m: ▁")
	b.press("12h30m", "enter")
	b.sees("12 h 30 left", "6 h 28 in hand before it, now ")
	b.press("z", "enter", "rain", "enter")
	b.sees("paused; ")
	b.press("z", "enter")
	b.lacks("paused; ")
	b.press("n", "0")
	b.press("gate code 4711", "enter")
	b.press("n", "enter", "esc")
	b.press("n", "0", "enter") // no text, no note
	b.press("T", "enter")
	b.sees("give the line and the time")
	b.press("T", "9", "9", " ", "0", "7", ":", "3", "0", "enter")
	b.sees("There is no line 99 here")
	b.press("T", fmt.Sprint(b.app().day.Line()), " 07:30", "enter")
	b.press("t", "x", "esc")
	b.lacks("Tick line")
	kinds := []TickKind{}
	for _, x := range log.ticks {
		kinds = append(kinds, x.Kind)
	}
	if !slices.Equal(kinds, []TickKind{TickStarted, TickLeft, TickPaused, TickResumed, TickNote, TickFinished}) {
		t.Errorf("logged %+v", log.ticks)
	}
	if note := log.ticks[4]; note.Task != schedule.None || note.Text != "gate code 4711" {
		t.Errorf("noted %+v", note)
	}
	if at := log.ticks[5].At; at != b.file.plan.Site.Opens.Plus(30) {
		t.Errorf("finished at %d minutes after the opening", at-b.file.plan.Site.Opens)
	}
}

// What others log appears, and is said; what can't be logged is said too.
func TestOthersTick(t *testing.T) {
	b, log := onSite(t)
	look := func() {
		next, cmd := b.app().logMessage(logStatMsg{log.Stamp()})
		b.model = next
		if cmd != nil && b.app().site.stamp != log.Stamp() {
			b.run(b.app().readLog())
		}
	}
	look()
	b.lacks("From the log")
	p := b.file.plan
	induction, blocks := p.FindTask("induction"), p.FindDelivery("blocks")
	for _, kind := range []TickKind{TickStarted, TickFinished} {
		if _, err := log.Add(p, Tick{Kind: kind, Task: induction, Delivery: schedule.None, At: p.Site.Opens.Plus(30)}); err != nil {
			t.Fatal(err)
		}
	}
	look()
	b.sees("From the log: Induction and services marked: finished. And 1 before it.", "not signed yet")
	if _, err := log.Add(p, Tick{Kind: TickArrived, Task: schedule.None, Delivery: blocks, At: p.Site.Opens.Plus(60)}); err != nil {
		t.Fatal(err)
	}
	look()
	b.sees("From the log: wall blocks and sand: came.")
	log.fail = errors.New("the disk is full")
	b.on("t", "Induction and services marked")
	b.sees("! Not logged: the disk is full")
	b.lacks("Still")
	log.fail, log.broken = nil, errors.New("line 3 is torn")
	b.press("r")
	b.sees("! The log can't be used: line 3 is torn", "Induction and services marked")
}

// Without a log the keys do nothing, and with one only in the day.
func TestNoLogNoTicks(t *testing.T) {
	b := demo(t)
	b.press("/", "Induction", "enter", "2", "t", "1", "n", "e")
	b.lacks("Tick line")
	b, _ = onSite(t)
	b.press("3", "t")
	b.lacks("Tick line")
	b.press("2", "[", "[", "[", "t")
	b.sees("1 ")
}

// A plan as at a moment goes on: what is in hand has less left later.
func TestTimeGoesOn(t *testing.T) {
	b, _ := onSite(t)
	b.press("t", "enter")
	a := b.app()
	now := b.file.plan.Site.Opens.Plus(90)
	a.opts.Now = func() calendars.Instant { return now }
	b.model = a
	next, cmd := a.logMessage(logStatMsg{a.site.stamp})
	if cmd == nil {
		t.Fatal("the log isn't looked at again")
	}
	b.model = next
	b.run(b.app().readLog())
	if got := b.app().shown.plan.Now(); got != now {
		t.Errorf("shown as at %d, %d wanted", got, now)
	}
}
