package main_test

import (
	"strings"
	"testing"
)

// TestDriveUI drives the built program through a pseudo-terminal as a user
// would: through the views, both scopes, a trial and back, another size, and out.
func TestDriveUI(t *testing.T) {
	s := open(t, 80, 24, nil, binary(t))
	s.shows("Tidewall Court", "1 WINDOW", "TIDE WALL", "GATE", "Hands over Sat 8 May 14:32, 28 m before the line · proven best")
	s.types("l")
	s.shows("Logic only: hands over Sat 8 May 08:32, 6 h 28 before the line")
	s.types("l")
	s.shows("proven best")
	s.types("2")
	s.shows("2 DAY", "SAT 8 MAY", "Gravel the margins")
	s.types("3")
	s.shows("3 DELIVERIES", "> ▼")
	before := s.look()
	s.types("]") // the chosen lorry a day later
	s.shows("Trial: arrives", "24 h later")
	s.types("u")
	if after := s.changes(before); strings.Contains(after, "(trial)") {
		s.shows("Hands over Sat 8 May 14:32")
	}
	s.types("w")
	s.shows("WHAT IF", "No change yet")
	s.types("apots 1h longer\r")
	s.shows("> pots 1h longer", "as before")
	s.types("m")
	s.shows("WHAT THE CHANGES DO", "Pots on the deck")
	s.types("mu")
	s.shows("No change yet")
	s.types("w?")
	s.shows("HELP", "take the last change back")
	s.types("\x1b")
	s.shows("3 DELIVERIES")
	s.resize(200, 60)
	s.shows("after the aim")
	s.resize(40, 10)
	s.shows("Too small")
	s.resize(80, 24)
	s.shows("3 DELIVERIES")
	s.types("q")
	raw, code := s.ends()
	if code != 0 {
		t.Errorf("exit code %d", code)
	}
	if found := asked(raw); found != nil {
		t.Errorf("the terminal is asked %q", found)
	}
}
