package main_test

import (
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// questions are sequences that ask a terminal for its colours, the cursor's
// place or its kind. A terminal that doesn't answer leaves the program waiting.
var questions = []string{"\x1b]10;?", "\x1b]11;?", "\x1b]4;",
	"\x1b[6n", "\x1b[5n", "\x1b[c", "\x1b[0c", "\x1b[>", "\x1bP"}

func asked(raw string) []string {
	var found []string
	for _, q := range questions {
		if strings.Contains(raw, q) {
			found = append(found, q)
		}
	}
	return found
}

// No command but the terminal UI has anything to ask, in a terminal that never answers.
func TestTerminalIsNotAsked(t *testing.T) {
	turflast := binary(t)
	tests := []struct {
		args []string
		want string // in what it writes
	}{
		{[]string{"--help"}, "turflast"},
		{[]string{"--version"}, "turflast"},
		{[]string{"check"}, ""},
		{[]string{"plan"}, "Tidewall Court"},
		{[]string{"plan", "--logic"}, "Tidewall Court"},
		{[]string{"plan", "--json"}, "{"},
		{[]string{"holidays", "GB-SCT", "2026"}, "World Cup"},
	}
	for _, test := range tests {
		t.Run(strings.Join(test.args, " "), func(t *testing.T) {
			s := open(t, 80, 24, nil, append([]string{turflast}, test.args...)...)
			raw, code := s.ends()
			if found := asked(raw); found != nil {
				t.Errorf("it asks the terminal %q", found)
			}
			if code != 0 || !strings.Contains(raw, test.want) {
				t.Errorf("exit code %d, want 0 and %q in:\n%s", code, test.want, raw)
			}
		})
	}
}

// The control of the test above: without the guard, this terminal is asked.
func TestLibraryAsksWithoutTheGuard(t *testing.T) {
	asks := filepath.Join(t.TempDir(), "asks")
	if out, err := exec.Command("go", "build", "-o", asks, "./testdata/asks").CombinedOutput(); err != nil {
		t.Fatalf("go build: %v\n%s", err, out)
	}
	s := open(t, 80, 24, nil, asks)
	s.await("a question", func() bool { return asked(s.raw.String()) != nil })
}

// The screen asks for the background, starts without an answer, and is drawn for the one that
// comes in time.
func TestTheScreenAsksForTheBackground(t *testing.T) {
	turflast := binary(t)
	const dark, light = "\x1b[38;5;246m", "\x1b[38;5;241m" // quiet words
	for _, test := range []struct{ answer, want, not string }{
		{"", dark, light},
		{"\x1b]11;rgb:fdfd/f6f6/e3e3\x1b\\\x1b[?62;22c", light, dark},
		{"\x1b]11;rgb:1e1e/1e1e/1e1e\x07\x1b[?6c", dark, light},
	} {
		s := open(t, 80, 24, nil, turflast)
		s.await("the question", func() bool { return strings.Contains(s.raw.String(), "\x1b]11;?") })
		s.types(test.answer)
		s.shows("Tidewall Court", "Hands over Sat 8 May 14:32")
		s.types("q")
		raw, code := s.ends()
		if code != 0 || !strings.Contains(raw, test.want) || strings.Contains(raw, test.not) {
			t.Errorf("answer %q: exit code %d, quiet words in %q: %v, in %q: %v", test.answer, code,
				test.want, strings.Contains(raw, test.want), test.not, strings.Contains(raw, test.not))
		}
	}
}
