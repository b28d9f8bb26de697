package said_test

import (
	"errors"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/said"
	"build.example/turflast/testdata"
)

// phrase is a line of a table: what is said, and what it must mean.
type phrase struct {
	line           int
	kind, said, is string
}

func phrases(t testing.TB, name string) []phrase {
	t.Helper()
	text, err := os.ReadFile("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	var out []phrase
	for i, line := range strings.Split(string(text), "\n") {
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		kind, rest, _ := strings.Cut(line, ": ")
		saying, is, ok := strings.Cut(rest, " => ")
		if !ok {
			t.Fatalf("%s:%d: no meaning", name, i+1)
		}
		out = append(out, phrase{i + 1, kind, saying, is})
	}
	return out
}

// garden is the built-in garden at Tue 4 May 2027 17:30, numbered in the plan's order.
func garden(t testing.TB) *said.Garden {
	t.Helper()
	p, problems := planfile.Read(strings.NewReader(testdata.Demo))
	if problems.Fatal() {
		t.Fatal(problems)
	}
	now := time.Date(2027, time.May, 4, 17, 30, 0, 0, p.Site.Location)
	return at(p, now)
}

func at(p *schedule.Plan, now time.Time) *said.Garden {
	return said.New(p, calendars.InstantOf(now), func(n int) schedule.Activity {
		if a := schedule.Activity(n - 1); a >= 0 && a < p.Activities() {
			return a
		}
		return schedule.Nothing
	})
}

// meaning is what a text of a kind means, in its normal form.
func meaning(g *said.Garden, kind, text string) (string, error) {
	switch kind {
	case "tick":
		return joined(g.Ticks(text))
	case "whatif":
		return joined(g.Changes(text))
	}
	q, err := g.Question(text)
	return q.String(), err
}

func joined[T fmt.Stringer](list []T, err error) (string, error) {
	var parts []string
	for _, x := range list {
		parts = append(parts, x.String())
	}
	return strings.Join(parts, "; "), err
}

// wrong says what is wrong with the answer to a phrase; guessed, that it is understood as
// something else, or where it should be asked.
func (p phrase) wrong(g *said.Garden) (why string, guessed bool) {
	got, err := meaning(g, p.kind, p.said)
	var doubt *said.Doubt
	switch asked := strings.HasPrefix(p.is, "?") || p.is == "!"; {
	case err == nil && (asked || got != p.is):
		return fmt.Sprintf("understood as %q, want %q", got, p.is), true
	case err == nil:
		return "", false
	case !errors.As(err, &doubt):
		return fmt.Sprintf("no doubt: %v", err), true
	case !asked:
		return fmt.Sprintf("asked %v, want %q", err, p.is), false
	}
	choices, _ := strings.CutPrefix(p.is, "? ")
	for _, c := range strings.Split(choices, " | ") {
		if len(choices) > 1 && !slices.Contains(doubt.Choices, c) {
			return fmt.Sprintf("%v lacks the choice %q", err, c), false
		}
	}
	return "", false
}

func TestPhrases(t *testing.T) {
	g := garden(t)
	for _, p := range phrases(t, "phrases.txt") {
		if why, _ := p.wrong(g); why != "" {
			t.Errorf("line %d, %s %q: %s", p.line, p.kind, p.said, why)
		}
	}
}
