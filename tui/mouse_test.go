package tui

import (
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
)

// clicks sends a click of the left button on the first place of a frame that has a text.
func (b *bench) clicks(text string) {
	b.t.Helper()
	for y, line := range strings.Split(b.model.View(), "\n") {
		if at := strings.Index(line, text); at >= 0 {
			b.mouse(tea.MouseButtonLeft, len([]rune(line[:at])), y)
			return
		}
	}
	b.t.Fatalf("nothing to click has %q:\n%s", text, b.model.View())
}

func (b *bench) mouse(button tea.MouseButton, x, y int) {
	b.send(tea.MouseMsg{X: x, Y: y, Button: button, Action: tea.MouseActionPress})
	b.send(tea.MouseMsg{X: x, Y: y, Button: button, Action: tea.MouseActionRelease})
}

// A click chooses what it is on in every view and list, and the name of a view shows it.
func TestAClickChooses(t *testing.T) {
	b := demo(t)
	b.clicks("rake lawn")
	b.chooses("rake-lawn")
	b.press("esc")
	b.clicks("▼turf")
	b.chooses("turf")
	b.clicks("3 deliveries")
	b.sees("3 DELIVERIES")
	b.clicks("900 potted plants")
	b.chooses("plants")
	b.clicks("62 m2 turf")
	b.chooses("turf")
	b.clicks("4 people")
	b.sees("4 PEOPLE")
	b.clicks("Joiners")
	b.sees("> Joiners")
	b.clicks("2 day")
	b.sees("FRI 7 MAY") // of the turf
	b.press("c")
	b.clicks("Lift the trackway")
	if got := b.app().chosen(); !strings.HasPrefix(b.app().garden.Name(got), "Lift the trackway") {
		t.Errorf("chosen: %v", got)
	}
	for b.app().day.Crew() >= 0 {
		b.press("C")
	}
	b.clicks("Lay the turf")
	b.chooses("lay-turf")
	b.sees("Planting crew")
	b.press("a")
	b.clicks("Plant the court beds")
	b.press("enter")
	b.chooses("plant-court")
	b.press(" ")
	b.clicks("the deliveries")
	b.press("enter")
	b.sees("3 DELIVERIES")
}

// The wheel scrolls a page and walks a list, stops at the ends without a word, and
// changes nothing; nor does a click on nothing, another button or one while something is
// typed.
func TestTheMouseChangesNothing(t *testing.T) {
	b := demo(t)
	for _, view := range []string{"1", "2", "3", "4", "5", "?", "a", "d", " ", "1/tu"} {
		b.press("esc")
		b.play(view[:1])
		b.press(view[1:])
		for _, button := range []tea.MouseButton{
			tea.MouseButtonWheelDown, tea.MouseButtonWheelDown, tea.MouseButtonWheelUp, tea.MouseButtonWheelUp,
			tea.MouseButtonWheelUp, tea.MouseButtonWheelUp, tea.MouseButtonRight, tea.MouseButtonMiddle,
		} {
			b.mouse(button, 60, 20)
		}
		b.lacks("did nothing")
		for y := 1; y < 42; y += 5 {
			for x := 0; x < 121; x += 40 {
				b.mouse(tea.MouseButtonLeft, x, y)
			}
		}
		b.press("esc")
		if len(b.changes()) != 0 || b.app().prompt.kind != noPrompt || b.quit {
			t.Fatalf("in %q the mouse changes something", view)
		}
	}
	b.press("?")
	b.mouse(tea.MouseButtonWheelDown, 5, 5)
	if got := b.app().page.top; got != wheelLines {
		t.Errorf("a notch scrolls %d lines", got)
	}
	b.press("?", "3", "home")
	first := b.app().chosen()
	b.mouse(tea.MouseButtonWheelDown, 5, 5)
	if b.app().chosen() == first {
		t.Error("the wheel doesn't walk a list")
	}
}
