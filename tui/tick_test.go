package tui

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/site/issue"
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
	b.sees("Taken back: \""+induction+" signed\"", "not signed yet")
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

// A number that another one begins with waits for enter, however slow the next digit is,
// and says what enter would log; one that none begins with is taken at once. No key that
// follows wipes what the tick did.
func TestNumbersWaitForEnter(t *testing.T) {
	b, log := onSite(t)
	before := len(log.events)
	logged := func(want int, why string) {
		t.Helper()
		if n := len(log.events) - before; n != want {
			t.Fatalf("%s: %d ticks, want %d", why, n, want)
		}
	}
	short := b.line(induction) // of one digit, with which others begin
	b.press("t", short)
	logged(0, "it waits")
	b.sees("Tick number: " + short + "▁ enter takes " + short + ", " + induction + ": started")
	b.press("backspace", "8", "9")
	b.sees("Tick number: 89▁")
	b.press("enter")
	b.sees("Nothing has the number 89.", "Tick number: ▁")
	b.press(short, "enter")
	logged(1, "enter takes it")
	for _, k := range []string{"j", "7", "?", "pgdown", "?", "Q", "3", "1", "2"} {
		b.press(k)
		b.sees(induction + " started, 08:00. ")
	}
	b.press("t", "75")
	logged(2, "a number that none begins with is taken at once")
	b.press("t", short, "esc")
	logged(2, "one is left again")
	b.press("1", "/", induction, "enter", "2", "t", "x", "enter")
	logged(3, "enter takes the chosen line, and no letter is a number")
}

// What the day's keys log beside ticks: a lorry booked anew, who turned up, rain, what
// others give, faults and their end.
func TestTheRestOfTheDay(t *testing.T) {
	b, log := onSite(t)
	p, before := b.file.plan, len(log.events)
	last := func() sitelog.Event { return log.events[len(log.events)-1] }
	slate := fmt.Sprint(b.app().garden.Number(p.Unload(p.FindDelivery("slate"))))
	b.press("B", slate)
	b.sees("15 m2 slate and copings, to when, such as 14:00 or tomorrow 9:00: ▁")
	b.press("sometime", "enter")
	b.sees("! ", "sometime▁")
	b.press("ctrl+u", "2027-05-04 09:30", "enter")
	if e := last(); e.What != sitelog.Rebooked || e.Delivery != "slate" ||
		e.To.In(p.Site.Location).Format("01-02 15:04") != "05-04 09:30" {
		t.Errorf("booked anew: %+v", e)
	}
	b.press("B", b.line(induction), "enter")
	b.sees("only a lorry that hasn't come is booked anew")
	b.press("P")
	b.sees("Ground crew on Fri 30 Apr, how many turned up, and when if not all day, such as 2 from 12:00: ▁")
	b.press("some", "enter")
	b.sees(`! "people ground" is understood, but not "some"`)
	b.press("ctrl+u", "2 from 7:00 to 7:30", "enter")
	if e := last(); e.What != sitelog.People || e.Crew != "ground" || e.People != 2 || e.From != p.Site.Opens ||
		e.Until != p.Site.Opens.Plus(30) {
		t.Errorf("there for half an hour: %+v", e)
	}
	b.press("P", "4", "enter")
	if e := last(); e.What != sitelog.People || e.Crew != "ground" || e.People != 4 {
		t.Errorf("turned up: %+v", e)
	}
	b.press("C", "P")
	b.sees("Which crew: ▁ 1 Ground crew, 2 Stone masons")
	b.press("2", "3", "enter")
	if e := last(); e.What != sitelog.People || e.Crew != p.Crews[1].ID || e.People != 3 {
		t.Errorf("turned up: %+v", e)
	}
	b.press("W")
	b.sees("Fri 30 Apr, enter if it was wet all day, or hours such as 10:00-14:00, or windy, frost, heat 13:00-15:00: ▁")
	b.press("windy 7:10-7:20", "enter")
	if e := last(); e.What != sitelog.Windy || e.From != p.Site.Opens.Plus(10) || e.Until != p.Site.Opens.Plus(20) {
		t.Errorf("windy: %+v", e)
	}
	b.press("W", "07:00-07:30", "enter")
	if e := last(); e.What != sitelog.Wet || e.From != p.Site.Opens || e.Until != p.Site.Opens.Plus(30) {
		t.Errorf("wet: %+v", e)
	}
	b.press("G")
	b.sees("What is there: ▁")
	b.press("1")
	if b.app().prompt.kind == pickPrompt {
		b.press("enter")
	}
	if e := last(); e.What != sitelog.Given {
		t.Errorf("given: %+v", e)
	}
	b.press("R")
	b.sees("No fault is open.")
	b.press("F", "0", "enter")
	b.sees("! say what is to be put right")
	b.press("a kerb is loose", "enter", "R")
	b.sees("What has been put right: ▁ 1 a kerb is loose; enter takes it")
	b.press("enter")
	if e := last(); e.What != sitelog.SnagClosed || log.events[len(log.events)-2].What != sitelog.SnagOpened {
		t.Errorf("put right: %+v", e)
	}
	b.press("Y")
	b.sees("What happened, such as \"cut-frame started\": ▁")
	b.press("some nonsense", "enter")
	b.sees("! ")
	b.press("ctrl+u", "windy 7:00-7:10 and near miss: a plank fell", "enter")
	if k := log.kinds(len(log.events) - 2); !slices.Equal(k, []sitelog.Kind{sitelog.Windy, sitelog.NearMiss}) {
		t.Errorf("said in words: %v", k)
	}
	b.sees("make the place safe")
	b.press("w", "W")
	if len(b.changes()) != 1 || len(log.events)-before != 11 {
		t.Errorf("in the what-if a wet day is tried: %v, %d logged", b.changes(), len(log.events)-before)
	}
	for k := range b.app().ticks.list() {
		if verb(k) == tickRight {
			return
		}
	}
	t.Error("a key without a verb")
}

// Taking back finds the last event of the same writer after the screen is opened again,
// and asks first; events are called by day and number.
func TestUndoAfterReopening(t *testing.T) {
	b, log := onSite(t)
	b.on("t", induction)
	a := newApp(b.app().opts)
	a.wait = b.app().wait
	b.model = a
	b.send(tea.WindowSizeMsg{Width: 120, Height: 40})
	b.run(load(a.opts))
	before := len(log.events)
	b.press("g")
	b.sees("WHAT HAS BEEN LOGGED", "08:00 no. 1 "+induction+" started (Ana)")
	b.press("g", "2", "u")
	b.sees("Fri 30 Apr no. 1: "+induction+" started", "enter takes it back, esc leaves it")
	b.press("esc")
	if len(log.events) != before {
		t.Error("esc takes it back")
	}
	b.press("u", "enter")
	if e := log.events[len(log.events)-1]; e.What != sitelog.Undone || len(log.events) != before+1 {
		t.Errorf("taken back: %+v", e)
	}
	b.sees("Taken back: ", "Taken back: \""+induction+" started")
	b.press("u")
	b.sees("Nothing to take back")
}

// What is left, pauses and notes take a text; a line is chosen by enter too, and
// anything else by its number.
func TestTicksWithText(t *testing.T) {
	b, log := onSite(t)
	before := len(log.events)
	b.press("e", "enter")
	b.sees("only work in hand has something left to enter")
	b.press("t", "enter", "e", "enter")
	b.sees("what is left, such as 3h or 90 min: ▁")
	b.press("a lot", "enter")
	b.sees("! ", "a lot▁")
	b.press("ctrl+u", "12h30m", "enter")
	b.sees("12 h 30 left", " before, ", " now.")
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
	b.sees("WHAT HAS BEEN LOGGED", "Fri 30 Apr", "08:01 no. 5 Note: gate code 4711 (Ana)",
		"12 h 30 left (Ana)", "08:00 no. 1 "+induction+" started (Ana)")
	b.press("g", "esc", "m", "enter", "esc")
	b.press("m", "0", "enter") // no text, no note
	b.press("T", "enter")
	b.sees("give the number and the time")
	b.press("T", "999 07:30", "enter")
	b.sees("Nothing has the number 999.")
	b.press("esc")
	b.press("T", b.line(induction), " 07:30", "enter")
	b.sees("! Not logged: ")
	b.press("T", b.line(induction), " 4pm", "enter") // asked back, since it is 08:01
	b.sees("! that time of today is still to come; say ")
	b.press("t", "x", "esc")
	b.lacks("Tick number")
	want := []sitelog.Kind{sitelog.Started, sitelog.Left, sitelog.Paused, sitelog.Resumed, sitelog.Note}
	if got := log.kinds(before); !slices.Equal(got, want) {
		t.Fatalf("logged %v", got)
	}
	if e := log.events[before+4]; e.Task != "" || e.Text != "gate code 4711" {
		t.Errorf("noted %+v", e)
	}
	b.press("T", b.line(induction), " now", "enter")
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
		e.By = "Bo"
		if _, _, err := log.Append(p, e); err != nil {
			t.Fatal(err)
		}
	}
	other(sitelog.Event{What: sitelog.Started, Task: "induction", At: p.Site.Opens})
	other(sitelog.Event{What: sitelog.Finished, Task: "induction", At: p.Site.Opens.Plus(40)})
	look()
	b.sees("From the log: "+induction+" finished, 07:40 (Bo). And 1 more.", "not signed yet")
	log.now = p.Site.Opens.Plus(2 * calendars.Hour)
	other(sitelog.Event{What: sitelog.Arrived, Delivery: "blocks", At: p.Site.Opens.Plus(115)})
	look()
	b.sees("From the log: Wall blocks and sand came, 08:55 (Bo).")
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
	b.press("t", "6", "enter", "q")
	if b.release(); !b.quit || len(log.events) != before+1 {
		t.Errorf("left: %v, %d ticks", b.quit, len(log.events)-before)
	}
	b, log = onSite(t)
	log.fail = errors.New("nothing was logged: the disk is full")
	b.hold = true
	b.press("t", "6", "enter", "q")
	if b.release(); b.quit {
		t.Error("left though the tick isn't written")
	}
	b.sees("! Not logged: the disk is full")
	b.hold = true
	b.press("t", "6", "enter", "q", "q")
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
		once := sheets.InOrder([]string{"once", "lay-turf"}, nil)
		return Agreed{Programme: agreed, Number: 1, Numbered: []sheets.Record{once}}, nil
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

// A number that no issue or baseline has given is asked back with the name; the second enter
// takes it.
func TestTickByANumberOfNoIssue(t *testing.T) {
	b, log := onSite(t)
	a := b.app()
	a.opts.Agreed = func(p *schedule.Plan) (Agreed, error) {
		all := sheets.RecordOf(p)
		task := p.FindTask("induction")
		return Agreed{Numbered: []sheets.Record{append(all[:task:task], all[task+1:]...)}}, nil
	}
	b.model = a
	b.press("r")
	before := len(log.events)
	b.press("t", b.line(induction))
	b.sees("may be " + induction + ", but no issue or baseline has given it that number: enter takes it")
	if got := log.kinds(before); len(got) != 0 {
		t.Errorf("logged %v", got)
	}
	b.press("enter")
	if got := log.kinds(before); len(got) != 1 {
		t.Errorf("logged %v", got)
	}
}

// The day says which issue its sheet is of, and that it is of none once it differs.
func TestDaySaysItsIssue(t *testing.T) {
	b, _ := onSite(t)
	b.lacks("issue")
	a := b.app()
	x := issue.Freeze(a.garden.Case, nil, nil)
	x.Number, x.At, x.By = 4, a.garden.Now, "Ann"
	a.opts.Agreed = func(*schedule.Plan) (Agreed, error) { return Agreed{Issues: []*issue.Issue{x}}, nil }
	b.model = a
	b.press("r")
	b.sees(" · issue 4")
	x.Told[b.file.plan.FindTask("induction")].Finish++
	b.press("r")
	b.sees(" · not issued")
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

// A lorry is ticked twice: it came, and it is unloaded, though by the plan it may be already.
func TestTickLorry(t *testing.T) {
	b, log := onSite(t)
	b.press("C") // everyone: the lorries, too
	blocks := fmt.Sprint(b.app().garden.Number(b.file.plan.Unload(b.file.plan.FindDelivery("blocks"))))
	tick := func() sitelog.Kind {
		before := len(log.events)
		if b.press("t", blocks); b.app().prompt.kind == linePrompt {
			b.press("enter")
		}
		if len(log.events) == before {
			return ""
		}
		return log.events[len(log.events)-1].What
	}
	log.now = b.file.plan.Site.Opens.Plus(9 * calendars.Hour)
	for _, want := range []sitelog.Kind{sitelog.Arrived, sitelog.Unloaded, ""} {
		if got := tick(); got != want {
			t.Fatalf("ticked %q, want %q", got, want)
		}
	}
	b.sees("it is ticked off already")
}
