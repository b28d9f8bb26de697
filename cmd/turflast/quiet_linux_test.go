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

// No command but the terminal UI has anything to ask, in a terminal that never
// answers; and the terminal UI starts without asking.
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
