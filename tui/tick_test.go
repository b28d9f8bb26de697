package tui

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/site/sitelog"
	"build.example/turflast/tui/gardentest"
)

// A tick is a key and a number; it says the margin before and after it, and one
// key takes it back.
func TestTicks(t *testing.T) {
	b, log := onSite(t)
	before := len(log.events)
	b.press("t")
	b.sees("Tick number: ▁ enter takes " + b.line(induction) + ", " + induction)
	b.press("esc")
	b.on("t", induction)
	b.sees(induction+" started, 08:00. ", " in hand", "u takes it back", "Started 08:00; ")
	b.press("down", "c", "C", "6", "?", "?")
	b.sees(induction+" started, 08:00. ", "u takes it back")
	b.press("esc")
	b.lacks("takes it back")
	log.now += 30
	b.on("t", induction)
	b.sees(induction+" finished, 08:30.", "not signed yet")
	b.on("t", induction)
	b.sees("signed 08:30", "✓ "+induction)
	b.on("t", induction)
	b.sees("it is ticked off already")
	b.press("u")
	b.sees("Taken back: "+induction+" signed", "not signed yet")
	b.on("x", induction)
	b.press("once more", "enter")
	b.sees("failed 08:30")
	want := []sitelog.Kind{sitelog.Started, sitelog.Finished, sitelog.Signed, sitelog.Undone, sitelog.Failed}
	if got := log.kinds(before); !slices.Equal(got, want) || log.events[before+4].Text != "once more" {
		t.Errorf("logged %v", got)
	}
	b.press("u", "u", "u", "u")
	if len(log.events) != before+8 {
		t.Errorf("taken back: %v", log.kinds(before))
	}
	b.sees("Nothing to take back")
}

// While the build is under way, the day shown is today until something else is
// chosen.
func TestTheDayIsToday(t *testing.T) {
	b := demo(t)
	log := b.log()
	log.built(b.file.plan)
	log.now = b.file.plan.Site.Opens.Plus(3 * calendars.Day)
	a := newApp(b.app().opts)
	a.wait = b.app().wait
	b.model = a
	b.send(tea.WindowSizeMsg{Width: 120, Height: 40})
	b.run(load(a.opts))
	b.press("2")
	b.sees("MON 3 MAY · everyone", "as at 07:00")
	b.press("1", "home", "2")
	b.sees("WED 28 APR · Joiners")
}

// A number that could get another digit chooses its line after a while, or with
// the other digit.
func TestLineNumbers(t *testing.T) {
	b, log := onSite(t)
	before := len(log.events)
	b.press("C") // everyone
	short, long := "", ""
	for _, x := range b.app().day.Lines() {
		for _, y := range b.app().day.Lines() {
			if x, y := fmt.Sprint(x.Number), fmt.Sprint(y.Number); len(y) == len(x)+1 && strings.HasPrefix(y, x) {
				short, long = x, y
			}
		}
	}
	if short == "" {
		t.Fatalf("no number begins another: %v", b.app().day.Lines())
	}
	ended := func() tea.Msg { return b.waits[len(b.waits)-1] }
	logged := func(want int, why string) {
		t.Helper()
		if n := len(log.events) - before; n != want {
			t.Fatalf("%s: %d ticks of %s and %s, want %d", why, n, short, long, want)
		}
	}
	b.press("t", short)
	logged(0, "it can become the longer one")
	early := ended()
	b.press(long[len(short):])
	logged(1, "the longer one is ticked at once")
	b.press("t", short)
	b.send(early)
	logged(1, "an old wait ends no new number")
	b.send(ended())
	logged(2, "after a while")
	b.press("t", short, "backspace")
	b.send(ended())
	b.press("esc", "t", short, "esc")
	b.send(ended())
	logged(2, "some are left again")
}

// What is left, pauses and notes take a text; a line is chosen by enter too, and
// anything else by its number.
func TestTicksWithText(t *testing.T) {
	b, log := onSite(t)
	before := len(log.events)
	b.press("e", "enter")
	b.sees("only work in hand has something left to enter")
	b.press("t", "enter", "e", "enter")
	b.sees("what is left, such as 3h or 2h30m: ▁")
	b.press("a lot", "enter")
	b.sees("! ", "a lot▁")
	b.press("ctrl+u", "12h30m", "enter")
	b.sees("12 h 30 left", " before it, now ")
	b.press("z", "enter", "rain", "enter")
	b.sees("paused; ")
	log.now++
	b.press("z", "enter")
	b.lacks("paused; ")
	log.said = "a line was torn"
	b.press("m", "0")
	b.press("gate code 4711", "enter")
	b.sees("a line was torn", "as at 08:01")
	b.sees("NOTED", "08:01 gate code 4711 (Ana)")
	b.press("g")
	b.sees("WHAT HAS BEEN LOGGED", "Fri 30 Apr", "08:01 Note: gate code 4711 (Ana)",
		"12 h 30 left (Ana)", "08:00 "+induction+" started (Ana)")
	b.press("g", "esc", "m", "enter", "esc")
	b.press("m", "0", "enter") // no text, no note
	b.press("T", "enter")
	b.sees("give the number and the time")
	b.press("T", "999 07:30", "enter")
	b.sees("Nothing has the number 999.")
	b.press("T", b.line(induction), " 07:30", "enter")
	b.sees("! Not logged: ")
	b.press("t", "x", "esc")
	b.lacks("Tick number")
	want := []sitelog.Kind{sitelog.Started, sitelog.Left, sitelog.Paused, sitelog.Resumed, sitelog.Note}
	if got := log.kinds(before); !slices.Equal(got, want) {
		t.Fatalf("logged %v", got)
	}
	if e := log.events[before+4]; e.Task != "" || e.Text != "gate code 4711" {
		t.Errorf("noted %+v", e)
	}
	b.press("T", b.line(induction), " 08:01", "enter")
	if e := log.events[len(log.events)-1]; e.What != sitelog.Finished || e.At != log.now {
		t.Errorf("finished: %+v", e)
	}
	b.press("C") // everyone: the lorries, too
	blocks := b.app().garden.Number(b.file.plan.Unload(b.file.plan.FindDelivery("blocks")))
	b.press("x", fmt.Sprint(blocks))
	if b.app().prompt.kind == linePrompt {
		b.press("enter")
	}
	b.press("enter")
	if e := log.events[len(log.events)-1]; e.What != sitelog.Refused || e.Text == "" {
		t.Errorf("refused: %+v", e)
	}
}

// What others log appears, with a message; so does a message about what can't
// be logged.
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
	other := func(e sitelog.Event) {
		t.Helper()
		if _, _, err := log.Append(p, e); err != nil {
			t.Fatal(err)
		}
	}
	other(sitelog.Event{What: sitelog.Started, Task: "induction", At: p.Site.Opens})
	other(sitelog.Event{What: sitelog.Finished, Task: "induction", At: p.Site.Opens.Plus(40)})
	look()
	b.sees("From the log: "+induction+" finished, 07:40 (Ana). And 1 more.", "not signed yet")
	log.now = p.Site.Opens.Plus(2 * calendars.Hour)
	other(sitelog.Event{What: sitelog.Arrived, Delivery: "blocks", At: p.Site.Opens.Plus(115)})
	look()
	b.sees("From the log: Wall blocks and sand came, 08:55 (Ana).")
	b.on("m", induction)
	b.press("mind the kerb", "enter")
	other(sitelog.Event{What: sitelog.Undone, Of: log.events[len(log.events)-1].ID, At: log.now})
	look()
	b.press("u")
	b.sees("Nothing to take back")
	log.fail = errors.New("the disk is full")
	b.on("t", induction)
	b.sees("! Not logged: the disk is full")
	b.lacks("takes it back")
	log.fail, log.broken = nil, errors.New("it is a folder")
	b.press("r")
	b.sees("! The log or a baseline can't be used: it is a folder", induction)
}

// A tick is taken though what was agreed can't be read from the start on.
func TestTickWithoutWhatWasAgreed(t *testing.T) {
	b := demo(t)
	log := b.log()
	log.built(b.file.plan)
	a := b.app()
	a.opts.Agreed = func(*schedule.Plan) (Agreed, error) { return Agreed{}, errors.New("plan.baseline-1.json is cut off") }
	b.model = a
	before := len(log.events)
	b.press("r", "/", induction, "enter", "2")
	b.on("t", induction)
	if got := log.kinds(before); len(got) != 1 {
		t.Errorf("logged %v", got)
	}
	b.sees("can't be used: plan.baseline-1.json is cut off")
}

// Leaving waits for a tick that is being written, unless the key is pressed
// twice; a tick that fails has a message.
func TestLeavingLosesNoTick(t *testing.T) {
	b, log := onSite(t)
	before := len(log.events)
	b.hold = true
	b.press("t", "6", "q")
	if b.release(); !b.quit || len(log.events) != before+1 {
		t.Errorf("left: %v, %d ticks", b.quit, len(log.events)-before)
	}
	b, log = onSite(t)
	log.fail = errors.New("nothing was logged: the disk is full")
	b.hold = true
	b.press("t", "6", "q")
	if b.release(); b.quit {
		t.Error("left though the tick isn't written")
	}
	b.sees("! Not logged: the disk is full")
	b.hold = true
	b.press("t", "6", "q", "q")
	if b.release(); !b.quit {
		t.Error("twice doesn't leave at once")
	}
}

// What was agreed is what the programme keeps to, and what its numbers are from.
func TestAgreed(t *testing.T) {
	b, _ := onSite(t)
	agreed := gardentest.Solve(t, b.file.plan).Programme
	turf := b.app().garden.Number(b.file.plan.FindTask("lay-turf").Activity())
	a := b.app()
	a.opts.Agreed = func(*schedule.Plan) (Agreed, error) {
		return Agreed{agreed, 1, []sheets.Agreed{{Tasks: []string{"once", "lay-turf"}}}}, nil
	}
	b.model = a
	b.press("r")
	if b.file.near != agreed {
		t.Error("the programme doesn't keep to what was agreed")
	}
	if now := b.app().garden.Number(b.file.plan.FindTask("lay-turf").Activity()); now != 2 || now == turf {
		t.Errorf("the turf has number %d, as agreed it is the second", now)
	}
	a = b.app()
	a.opts.Agreed = func(*schedule.Plan) (Agreed, error) { return Agreed{}, errors.New("plan.baseline-1.json is cut off") }
	b.model = a
	b.press("r")
	b.sees("can't be used: plan.baseline-1.json is cut off")
}

// Lines of the log that can't be used, and what went otherwise than planned,
// are among the problems.
func TestProblemsOfTheLog(t *testing.T) {
	b, log := onSite(t)
	p := b.file.plan
	log.aside = []sitelog.Aside{{Line: 7, Why: "the line has no end: its writing was cut off"}}
	at := p.Site.Opens.Plus(30)
	for i, e := range []sitelog.Event{
		{What: sitelog.Started, Task: "trackway", At: at},
		{What: sitelog.Started, Task: "trackway", At: at + 1}, {What: sitelog.Started, Task: "gone", At: at},
	} {
		e.ID, e.Written = sitelog.NewID(int64(100+i), 9), at
		log.events = append(log.events, e)
	}
	log.now = p.Site.Opens.Plus(5 * calendars.Hour)
	b.press("r", "p")
	b.sees("Line 7 of the log is set aside: the line has no end",
		"this doesn't count: Lay the trackway started, Fri 30 Apr 07:31.",
		"of something that isn't in the plan: gone started",
		"The lorry with wall blocks and sand hasn't come; it was booked for Fri 30 Apr 09:00",
		"Lay the trackway was started before "+induction+" was done.")
}

// The log is a page before its plan is solved, too.
func TestTheLogBeforeThePlanIsSolved(t *testing.T) {
	b := demo(t)
	log := b.log()
	log.built(b.file.plan)
	a := newApp(b.app().opts)
	a.wait = b.app().wait
	b.model = a
	b.send(tea.WindowSizeMsg{Width: 80, Height: 24})
	b.hold = true
	b.run(load(a.opts))
	b.send(b.next()) // the file
	b.send(b.next()) // the log
	b.press("g")
	b.sees("Nothing yet.")
	b.release()
	b.sees("Dry run of the frame signed (Bo)")
}

// Without a log the keys do nothing, and with one only in the day.
func TestNoLogNoTicks(t *testing.T) {
	b := demo(t)
	b.press("/", "Induction", "enter", "2", "t")
	b.sees("There is no site log to tick in")
	b.lacks("Tick number")
	b, _ = onSite(t)
	b.press("3", "t")
	b.lacks("Tick number")
	b.press("2", "C", "t")
	b.sees("Tick number: ▁")
}

// A plan as at a moment goes on: what is in hand has less left later.
func TestTimeGoesOn(t *testing.T) {
	b, log := onSite(t)
	b.press("t", "enter")
	log.now += 30
	a := b.app()
	next, cmd := a.logMessage(logStatMsg{a.site.stamp})
	if cmd == nil {
		t.Fatal("the log isn't looked at again")
	}
	b.model = next
	b.run(b.app().readLog())
	if got := b.app().shown.plan.Now(); got != log.now {
		t.Errorf("shown as at %d, %d wanted", got, log.now)
	}
}

// BenchmarkTick is a tick in the built-in garden, from its keys to the frame with
// the new margin: bar 300 ms.
func BenchmarkTick(b *testing.B) {
	bench := newBench(b, gardentest.Demo(b), 120, 40)
	log := bench.log()
	log.built(bench.file.plan)
	bench.file.crews = func(ctx context.Context, p *schedule.Plan, _ func(calendars.Instant)) (network.Case, error) {
		s, err := bench.file.solver(p)
		if err != nil {
			return network.Case{}, err
		}
		return s.Crews(ctx, solve.Options{}), nil
	}
	bench.press("r", "2", "c")
	before := len(log.events)
	for b.Loop() {
		bench.press("t", "6")
		bench.model.View()
		b.StopTimer()
		if len(log.events) != before+1 || !bench.app().settled() {
			b.Fatalf("%d events logged", len(log.events)-before)
		}
		bench.press("u")
		log.events = log.events[:before]
		bench.press("r")
		b.StartTimer()
	}
}
