package tui

import (
	"context"
	"strings"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/mend"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/ask/tolerance"
	"build.example/turflast/schedule/network"
	"build.example/turflast/tui/gardentest"
)

// rows lists the first characters of what the deliveries view shows, by row.
func (b *bench) rows() []string {
	var out []string
	for _, d := range b.app().deliveries.Order() {
		out = append(out, b.file.plan.Deliveries[d].ID)
	}
	return out
}

// release runs what is held, and holds nothing from then on.
func (b *bench) release() {
	b.hold = false
	held := b.held
	b.held = nil
	for _, cmd := range held {
		b.run(cmd)
	}
}

// The deliveries stand by booking until it is known which can hurt most. After
// that a trial moves no row, and what is known is about what is shown.
func TestWhatCanHurtMostComesFirst(t *testing.T) {
	b := demo(t)
	b.hold = true
	b.press("3")
	b.sees("By booking. As programmed; re-planning each: 0 of 12.", "As programmed, if it comes by")
	b.lacks("May come")
	booked := b.rows()
	asking := b.next()
	if asking != nil {
		t.Fatal("a study isn't begun beside a wait")
	}
	found := b.next()
	b.send(b.waits[len(b.waits)-1])
	b.sees("As programmed; re-planning each: 1 of 12.")
	b.send(found)
	b.sees("Hurts most first: the hand-over, then the least share in hand", "May come")
	b.lacks("3 h late: together")
	b.release()
	b.press("/", "wall blocks", "enter")
	b.sees("3 h late: together")
	hurt := b.rows()
	if strings.Join(hurt, " ") == strings.Join(booked, " ") {
		t.Error("what can hurt most doesn't come first")
	}
	b.press("/", "62 m2", "enter", ".")
	if got := b.rows(); strings.Join(got, " ") != strings.Join(hurt, " ") {
		t.Errorf("a trial moves rows: %v, then %v", hurt, got)
	}
	b.press("u", "l")
	b.sees("What could hurt most comes first.")
	b.lacks("May come")
	if b.file.asks != 2 && b.file.asks != 3 {
		t.Errorf("asked %d times", b.file.asks)
	}
}

// Tolerances are worked out while a date is broken too, and none while the view is not
// shown.
func TestTolerancesAreAskedOfWhatIsLookedAt(t *testing.T) {
	b := demo(t)
	b.press("2", "1", "4", "p", "esc")
	if b.file.asks != 0 {
		t.Errorf("asked %d times with no deliveries in sight", b.file.asks)
	}
	b.press("/", "62 m2", "enter", "3", ">")
	b.sees("a minute more and another", "date breaks or a broken one gets later.")
	if b.file.asks != 2 {
		t.Errorf("asked %d times, before the trial and after it", b.file.asks)
	}
}

// A newer programme stops the questions about the older one, and their answers
// aren't shown.
func TestNewestStudyWins(t *testing.T) {
	b := demo(t)
	b.hold = true
	var stopped []error
	first := b.file.tolerances
	b.file.tolerances = func(ctx context.Context, c network.Case, asked func()) []tolerance.Delivery {
		stopped = append(stopped, ctx.Err())
		return first(ctx, c, asked)
	}
	b.press("/", "62 m2", "enter", "3")
	b.next()
	study := b.held[0]
	b.held = nil
	b.press(".")
	b.send(b.next()) // the logic programme
	b.send(study())
	b.lacks("May come")
	b.release()
	b.sees("May come", "What if: turf 1h ")
	if len(stopped) != 2 || stopped[0] == nil || stopped[1] != nil {
		t.Errorf("stopped: %v", stopped)
	}
}

// The page of odds says what it waits for, and is built once for a programme.
func TestOdds(t *testing.T) {
	b := demo(t)
	b.press("5")
	b.sees("HOW LIKELY IT IS", "Hands over on time in", "the line, Sat 8 May 15:00", "●")
	for _, k := range []string{"down", "pgdown", "pgdown", "up"} {
		b.press(k)
	}
	b.press("1")
	b.sees("No build is on time")
	b.press("5")
	if b.file.builds != 1 {
		t.Errorf("built %d times", b.file.builds)
	}
	b.hold = true
	b.press("r")
	b.send(b.next())
	b.send(b.next())
	b.sees("The crew programme is looked for; then it is built many times over.")
	b.next()
	b.send(b.next())
	b.sees("Building the garden many times over")
	b.release()
	b.sees("Hands over on time in")
	b.press("l", "r")
	b.sees("Odds are those of the crew programme: l looks for it.")
}

// What costs most is found once for a programme, and only for the page of odds.
func TestWhatCostsMost(t *testing.T) {
	b := demo(t)
	app := b.app()
	asked := 0
	app.opts.Harms = func(_ context.Context, _ network.Case, known *odds.Result) (*odds.Result, error) {
		asked++
		out := *known
		out.Harmed = &odds.Harmed{
			Builds: 10, Late: 4, Harms: []odds.Harm{{Kind: odds.AllRain, Builds: 2, Cost: 120, Saved: 1}},
		}
		return &out, nil
	}
	b.model = app
	b.press("2", "1")
	if asked != 0 {
		t.Errorf("asked %d times before the page is shown", asked)
	}
	b.press("5")
	b.sees("What costs most builds the hand-over: Rain, all wet days together.")
	b.press("1", "5")
	if asked != 1 || b.file.builds != 1 {
		t.Errorf("asked %d times, built %d times", asked, b.file.builds)
	}
}

// BenchmarkOddsPage is a key press to a frame of the page of odds.
func BenchmarkOddsPage(b *testing.B) {
	bench := newBench(b, gardentest.Demo(b), 200, 60)
	bench.press("5")
	keys := [2]string{"down", "up"}
	b.ResetTimer()
	for i := 0; b.Loop(); i++ {
		bench.press(keys[i/40%2])
		bench.model.View()
	}
}

// mendable makes the bench's screen look for mends, with a stand-in that finds one.
func mendable(b *bench) *[]error {
	var asked []error
	a := b.app()
	a.opts.Mends = func(ctx context.Context, c network.Case, _ *schedule.Programme,
		_ []schedule.DeliveryID, _ func(*mend.Result)) *mend.Result {
		asked = append(asked, ctx.Err())
		more := schedule.Change{Kind: schedule.ChangeHeads, Name: "masons", Heads: 1,
			Dates: []calendars.Date{calendars.DateIn(c.Plan.Site.Opens, c.Plan.Site.Location)}}
		whole := *c.Programme
		whole.Handover, whole.Breaks = schedule.Margin{Time: 45}, nil
		return &mend.Result{Untried: 41, Mends: []*mend.Mend{
			{Act: mend.Act{Changes: []schedule.Change{more}, Measure: schedule.None}, Case: c.With(&whole), Moved: 1},
		}}
	}
	b.model = a
	return &asked
}

// What would mend a date that a trial breaks is worked out beside the screen and stands
// on the same screen, in the drawer, among the notes of a day and on the page of problems;
// once the trial is gone it is too.
func TestMends(t *testing.T) {
	const said = "1 more of Stone masons on Fri 30 Apr: 45 m in hand again, one task moves."
	b := demo(t)
	asked := mendable(b)
	if len(*asked) > 0 {
		t.Error("mends are looked for while every date is met")
	}
	b.press("/", "62 m2", "enter", "3", ">")
	if len(*asked) != 1 {
		t.Fatalf("mends were looked for %d times", len(*asked))
	}
	b.sees(said)
	b.press("w")
	b.sees(said)
	b.press("w", "p")
	b.sees("WHAT WOULD MEND IT", said, "41 others weren't tried.")
	b.press("esc", "2")
	b.sees("WHAT WOULD MEND IT")
	b.press("u")
	b.lacks("WHAT WOULD MEND IT")
	if len(*asked) != 1 {
		t.Errorf("mends were looked for %d times", len(*asked))
	}
}

// Mends are shown as they are found, with how far the search is; a key ends it, and what
// was found stays.
func TestMendsAreShownAsTheyAreFound(t *testing.T) {
	const said = "1 more of Stone masons on Fri 30 Apr: 45 m in hand again, one task moves."
	b := demo(t)
	mendable(b)
	a := b.app()
	whole := a.opts.Mends
	var ended []error
	a.opts.Mends = func(ctx context.Context, c network.Case, near *schedule.Programme, held []schedule.DeliveryID,
		soFar func(*mend.Result)) *mend.Result {
		r := whole(ctx, c, near, held, soFar)
		part := *r
		part.Tried, part.Of = 3, 8
		soFar(&part)
		ended = append(ended, ctx.Err())
		return r
	}
	b.model = a
	b.press("/", "62 m2", "enter", "3")
	b.hold = true
	b.press(">")
	for b.app().mending == nil {
		b.send(b.next())
	}
	b.lacks(said)
	for {
		if msg, found := b.next().(mendedMsg); found {
			b.send(studyMsg{b.app().mending})
			b.press("p")
			b.sees("WHAT WOULD MEND IT", said, "Looking for what would mend it: 3 of 8 tried. i ends the search.")
			b.lacks("41 others weren't tried.")
			b.press("i")
			b.lacks("Nothing that was tried")
			msg.stopped = true // as the search says once it has been ended
			b.send(msg)
			break
		}
	}
	b.sees(said, "41 others weren't tried.")
	b.lacks("Looking for what would mend it")
	if b.app().mending != nil || len(ended) != 1 || ended[0] != nil {
		t.Errorf("the search for mends goes on: %v", ended)
	}
}
