package tui

import (
	"context"
	"errors"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/recovery"
	"build.example/turflast/schedule/network"
)

// chooses fails unless an activity is chosen.
func (b *bench) chooses(id string) {
	b.t.Helper()
	if got := b.app().chosen(); got < 0 || b.app().garden.Plan.ActivityID(got) != id {
		b.t.Errorf("%v is chosen, want %s:\n%s", got, id, b.model.View())
	}
}

// The list of pages leads to every view and page, each of which closes again.
func TestEveryPageIsInTheList(t *testing.T) {
	b := demo(t)
	lines := b.app().index()
	for i, x := range lines {
		b.press("1", " ")
		b.sees("VIEWS AND PAGES", "1   the window")
		for range i {
			b.press("j")
		}
		b.press("enter")
		a := b.app()
		if a.page.kind != x.page || x.page == noPage && a.tab != x.view {
			t.Errorf("line %d leads to page %d of view %d, want %d, %d", i, a.page.kind, a.tab, x.page, x.view)
		}
		if a.page.kind != noPage && (a.heading() == "" || len(a.pageLines()) == 0) {
			t.Errorf("page %d is empty", a.page.kind)
		}
		b.press("esc")
		if b.app().page.kind != noPage {
			t.Errorf("esc doesn't close page %d", a.page.kind)
		}
	}
	if len(lines) < 20 {
		t.Errorf("only %d lines", len(lines))
	}
}

// Of all tasks those that may slip least come first; enter goes to one in the window.
func TestTheTightestTask(t *testing.T) {
	b := demo(t)
	b.press("2", "a")
	b.sees("ALL TASKS, THE TIGHTEST FIRST")
	g, last := b.app().garden, 0
	for i, task := range g.Tightest() {
		slip := int(g.Programme.Tasks[task].CrewFloat)
		if slip < last {
			t.Errorf("line %d may slip %d min, less than the one before", i, slip)
		}
		last = slip
	}
	b.press("end", "home", "down", "down", "enter")
	b.sees("1 WINDOW")
	b.chooses(g.Plan.Tasks[g.Tightest()[2]].ID)
	b.press("a", "/", "pots", "enter", "enter")
	b.chooses("pots")
}

// Enter opens or goes to what is chosen, in every view.
func TestEnter(t *testing.T) {
	b := demo(t)
	b.press("/", "Lay the turf", "enter", "enter")
	b.sees("LAY THE TURF", "HOW IT CAME TO THAT")
	b.press("[")
	b.lacks("LAY THE TURF")
	b.press("]", "enter")
	b.sees("1 WINDOW")
	b.press("/", "concrete", "enter", "3", "enter")
	b.sees("1 WINDOW")
	b.chooses("concrete")
	b.press("4", "down", "enter")
	b.sees("2 DAY", "Stone masons")
	b.press("4", "end", "enter")
	b.sees("4 PEOPLE", "Nothing is chosen here that could be opened.")
	b.press("1", "/", "pots", "enter", "2", "enter")
	b.sees("1 WINDOW")
	b.chooses("pots")
	b.press("5", "enter")
	b.sees("Nothing is chosen here")
	b.press(".")
	b.sees("Choose a delivery or a task first.")
	b.press("1")
	b.chooses("pots")
}

// The keys that follow what waits for what do so in every view.
func TestFollowing(t *testing.T) {
	b := demo(t)
	for _, view := range []string{"1", "2"} {
		b.press("1", "/", "Gravel the margins", "enter", view, "[")
		b.chooses("lift-front")
		b.press("]")
		b.chooses("gravel")
	}
	b.press("1", "/", "Snag walk", "enter", "]")
	b.sees("Nothing that is shown waits for it.")
	b.press("esc", "[")
	b.sees("Choose a task or a lorry first.")
	b.press("/", "900 potted", "enter", "3", "]")
	b.sees("isn't in this view; 1 shows the window.")
	b.press("p", "[")
	b.sees("That works in a view")
}

// After a find n and N go round what was found, in a view and on a page.
func TestTheNextHit(t *testing.T) {
	b := demo(t)
	b.press("n")
	b.sees("Nothing was looked for yet: / finds.")
	b.press("/", "lights", "enter")
	first := b.app().chosen()
	b.press("n")
	b.sees(`"lights": 2 of 5.`)
	if b.app().chosen() == first {
		t.Error("n stays")
	}
	b.press("N")
	b.sees(`"lights": 1 of 5.`)
	b.press("N")
	b.sees(`"lights": 5 of 5.`)
	b.press("n")
	if b.app().chosen() != first {
		t.Error("n doesn't go round")
	}
	b.press("/", "no such thing", "enter", "n")
	b.sees(`Nothing has "no such thing".`)

	b.press("?", "/", "what", "enter")
	top := b.app().page.hit
	b.press("n")
	if b.app().page.hit == top || b.app().page.kind != helpPage {
		t.Errorf("n stays at line %d of the page", top)
	}
	b.sees(`"what": 2 of `)
	b.press("n", "n", "n", "n", "n", "n", "n", "n", "n", "n", "n")
	if !strings.Contains(strings.ToLower(b.app().pageLines()[b.app().page.hit].String()), "what") {
		t.Error("a hit without the word")
	}
}

// A page is copied whole, of anything else the sentence of what is chosen; what became of
// it is said.
func TestCopy(t *testing.T) {
	b := demo(t)
	b.press("end", "y")
	b.sees("There is no clipboard to copy to.")
	var got []string
	a, fail := b.app(), error(nil)
	a.opts.Copy = func(text string) error { got = append(got, text); return fail }
	b.model = a
	b.press("/", "Lay the turf", "enter", "y")
	b.sees("Given to the terminal's clipboard: Lay the turf starts")
	b.press("d", "y")
	b.sees("The page was given to the terminal's clipboard.")
	b.press("esc", "a", "down", "y", "esc", "esc", "y")

	b.sees("Nothing is chosen that could be copied.")
	fail = errors.New("no room")
	b.press("4", "y")
	b.sees("! Not copied: no room.")
	lines := func(text string) int { return strings.Count(text, "\n") }
	if len(got) != 4 || lines(got[0]) > 0 || lines(got[1]) < 3 || lines(got[2]) > 0 {
		t.Errorf("copied %q", got)
	}
}

// A key that does nothing says so; so does a paste where nothing is typed. In a prompt a
// paste is text, on one line.
func TestNothingIsSilent(t *testing.T) {
	b := demo(t)
	for _, c := range []struct{ keys, says string }{
		{"1 home home", "home did nothing: there is nothing further that way."},
		{"2 Q", "Q did nothing: it has no meaning here; ? lists the keys."},
		{"3 home up", "up did nothing: there is nothing further"},
		{"4 up", "up did nothing"}, {"p pgdown", "pgdown did nothing"}, {"? x", "x did nothing"},
		{"esc esc esc esc", "There is nothing to close."},
	} {
		b.press("esc")
		b.play(c.keys)
		b.sees(c.says)
	}
	paste := tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("lay\r\n\tthe \x1bturf"), Paste: true}
	b.press("1")
	b.send(paste)
	b.sees("Pasted text is taken where something is typed")
	b.press("/")
	b.send(paste)
	b.sees("Find: lay the turf▁")
	b.press("enter")
	b.chooses("lay-turf")
}

// A key pressed right after esc counts, and so does the esc.
func TestEscAndAKeyAtOnce(t *testing.T) {
	b := demo(t)
	b.press("d")
	b.send(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("3"), Alt: true})
	b.sees("3 DELIVERIES")
	b.press("p")
	b.send(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("Q"), Alt: true})
	b.sees("3 DELIVERIES", "Q did nothing")
	b.press("/", "turf")
	b.send(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("q"), Alt: true})
	if !b.quit {
		t.Error("esc and q in a prompt don't quit")
	}
}

// Suspending is the terminal library's; the frame is as it was when it comes back.
func TestSuspend(t *testing.T) {
	b := demo(t)
	before := b.model.View()
	next, cmd := b.model.Update(tea.KeyMsg{Type: tea.KeyCtrlZ})
	if cmd == nil {
		t.Fatal("ctrl-z does nothing")
	}
	suspends := false
	var run func(tea.Cmd)
	run = func(c tea.Cmd) {
		switch msg := c().(type) {
		case tea.SuspendMsg:
			suspends = true
		case tea.BatchMsg:
			for _, c := range msg {
				if c != nil {
					run(c)
				}
			}
		}
	}
	run(cmd)
	b.model = next
	b.send(tea.ResumeMsg{})
	if !suspends || b.model.View() != before {
		t.Errorf("suspends: %v", suspends)
	}
}

// What a page works out is worked out once for a programme, and told of no other.
func TestInquiries(t *testing.T) {
	b := demo(t)
	b.press(" ", "/", "cheapest", "enter", "enter")
	b.sees("WHAT TO BUY", "That isn't worked out here.")
	a, asked := b.app(), 0
	var fail error
	a.opts.Recover = func(_ context.Context, _ network.Case, _ *schedule.Programme) (*recovery.Result, error) {
		asked++
		return &recovery.Result{Proven: true}, fail
	}
	b.model = a
	open := func() { b.press("esc", "esc", "1", " ", "/", "cheapest", "enter", "enter") }
	open()
	open()
	b.sees("WHAT TO BUY")
	b.lacks("Looking for the cheapest")
	if asked != 1 {
		t.Errorf("asked %d times", asked)
	}
	fail = errors.New("no")
	b.press("esc", "1", "end", ".")
	open()
	b.sees("! no")
	b.hold = true
	b.press("esc", "1", "end", ".")
	b.sees("1 WINDOW")
	b.press("l")
	open()
	b.sees("That is told of the crew programme: l shows it.")
}
