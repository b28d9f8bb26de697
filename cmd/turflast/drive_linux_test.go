package main_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// TestDriveUI drives the built program through a pseudo-terminal as a user
// would: through the views, both scopes, a trial and back, another size, and out.
func TestDriveUI(t *testing.T) {
	s := open(t, 80, 24, []string{"COLORFGBG=15;0"}, binary(t))
	s.shows("Tidewall Court", "1 WINDOW", "TIDE WALL", "GATE",
		"Hands over Sat 8 May 14:32, 28 m before the line · proven best")
	s.types("l")
	s.shows("Logic only: hands over Sat 8 May 09:50, 5 h 10 before the line")
	s.types("l")
	s.shows("proven best")
	s.types("\x1b[F") // end
	s.shows("> Snag walk")
	s.types("2")
	s.shows("2 DAY", "SAT 8 MAY", "Gravel the margins")
	s.types("3")
	s.shows("3 DELIVERIES", "> ▼")
	before := s.look()
	s.types(">") // the chosen lorry a day later
	s.shows("Trial: arrives", "24 h later")
	s.types("u")
	if after := s.changes(before); strings.Contains(after, "(trial)") {
		s.shows("Hands over Sat 8 May 14:32")
	}
	s.types("w")
	s.shows("WHAT IF", "No change yet")
	s.types(":pots 1h longer\r")
	s.shows("> pots 1h longer", "as before")
	s.types("M")
	s.shows("WHAT THE CHANGES DO", "Pots on the deck")
	s.types("Mu")
	s.shows("No change yet")
	s.types("w?")
	s.shows("KEYS", "open or go to what is chosen")
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

// TestNoScreenWhereNoneCanBe opens the built-in garden on a terminal that can't place text:
// it prints the report, without a single escape, and ends.
func TestNoScreenWhereNoneCanBe(t *testing.T) {
	s := open(t, 80, 24, []string{"TERM=dumb"}, binary(t))
	raw, code := s.ends()
	if code != 0 || strings.Contains(raw, "\x1b") {
		t.Errorf("exit code %d, escapes: %v", code, strings.Contains(raw, "\x1b"))
	}
	for _, want := range []string{"Hands over Sat 8 May 14:32, 28 m before the line.", "Meets it"} {
		if !strings.Contains(raw, want) {
			t.Errorf("no %q in the report:\n%s", want, raw)
		}
	}
}

// TestDriveByHand clicks, pastes and goes to the list of pages and back in a terminal.
func TestDriveByHand(t *testing.T) {
	s := open(t, 120, 40, nil, binary(t))
	s.shows("1 WINDOW", "proven best")
	s.types("3")
	s.shows("3 DELIVERIES")
	s.types("\x1b[<0;20;1M\x1b[<0;20;1m") // the name of another view
	s.shows("1 WINDOW", "3 deliveries")
	s.types(" ")
	s.shows("VIEWS AND PAGES", "the gate list: what comes and goes, by slot")
	s.types("\x1b[<65;9;9M\x1b[<0;9;8M\x1b[<0;9;8m\r")
	s.types("\x1b[200~quit\x1b[201~")
	s.shows("Pasted text is taken where something is typed")
	s.types("1a")
	s.shows("ALL TASKS, THE TIGHTEST FIRST", ">  28 m chain")
	s.types("j\r")
	s.shows("1 WINDOW")
	s.types("y")
	s.shows("Given to the terminal's clipboard")
	s.types("q")
	raw, code := s.ends()
	if code != 0 || !strings.Contains(raw, "\x1b]52;c;") {
		t.Errorf("exit code %d, a clipboard: %v", code, strings.Contains(raw, "\x1b]52;c;"))
	}
}

// TestDriveTicks drives two programs on one plan at once: what one of them or a
// command logs is on the disk, and the other program shows it.
func TestDriveTicks(t *testing.T) {
	program, garden := binary(t), t.TempDir()
	run := func(args ...string) {
		t.Helper()
		c := exec.Command(program, args...)
		c.Dir, c.Env = garden, append(environment(), "TURFLAST_NOW=2027-04-14T08:20:00+01:00", "USER=Cy")
		if out, err := c.CombinedOutput(); err != nil {
			t.Fatalf("%v: %v\n%s", args, err, out)
		}
	}
	run("demo", garden)
	run("log", "note", "the yard is open")
	var both [2]*session
	for i, user := range []string{"Ana", "Bo"} {
		both[i] = open(t, 80, 24, []string{"TURFLAST_NOW=2027-04-14T08:20:00+01:00", "USER=" + user}, program, garden)
		both[i].shows("1 WINDOW", "Hands over")
		both[i].types("2")
		both[i].shows("WED 14 APR", "as at 08:20", "Cut the larch frame", "08:20 the yard is open (Cy)")
	}
	ana, bo := both[0], both[1]
	ana.types("t")
	ana.shows("Tick number:")
	ana.types("1\r")
	ana.shows("Cut the larch frame started, 08:20.", "u takes it back")
	bo.shows("From the log: Cut the larch frame started, 08:20 (Ana).", "▸ Cut the larch frame")
	run("log", "left", "cut-frame", "20h")
	ana.shows("Cut the larch frame has 20 h left, 08:20 (Cy).")
	ana.types("u")
	ana.shows("! Not logged: ") // what is left would then be of nothing
	bo.types("q")
	ana.types("q")
	for _, s := range both {
		if _, code := s.ends(); code != 0 {
			t.Errorf("exit code %d", code)
		}
	}
	log, err := os.ReadFile(filepath.Join(garden, "plan.log.jsonl"))
	if err != nil || strings.Count(string(log), "\n") != 3 ||
		!strings.Contains(string(log), `"by":"Ana","task":"cut-frame"`) {
		t.Errorf("%v, the log:\n%s", err, log)
	}
}
