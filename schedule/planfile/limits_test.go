package planfile_test

import (
	"fmt"
	"strings"
	"testing"
)

type limitCase struct{ name, text, want string }

// repeat writes n entries, numbered, with commas between.
func repeat(n int, format string) string {
	var b strings.Builder
	for i := range n {
		if i > 0 {
			b.WriteString(", ")
		}
		fmt.Fprintf(&b, format, i)
	}
	return b.String()
}

// limitCases are plans just beyond a limit, each with a line of what is
// reported.
func limitCases() []limitCase {
	task := "t%d: {zone: lawn, stage: soil, crew: {gang: 1}, takes: 1h}"
	long := strings.Repeat("é", 2001)
	return []limitCase{
		{"file", baseText + strings.Repeat("#\n", 2<<20), `1:1: the file is larger than 4 MiB; one file holds one plan`},
		{"tasks", "tasks: {" + repeat(10_001, task) + "}\n", `tasks has more than 10000 entries`},
		{"zones", "zones: {lawn: {}, " + repeat(1000, "z%d: {}") + "}\n", `zones has more than 1000 entries`},
		{"crews", "crews: {gang: {people: 3}, " + repeat(1000, "c%d: {people: 1}") + "}\n",
			`crews has more than 1000 entries`},
		{"stages", "stages: [" + repeat(1001, "s%d") + "]\n", `stages has more than 1000 entries`},
		{"a list",
			"crews: {gang: {people: 3, closed: [" +
				repeat(1001, "{from: 2027-05-03 08:00, to: 2027-05-03 09:00, why: %d}") + "]}}\n",
			`closed of crew gang has more than 1000 entries`},
		{"a text", "tasks: {dig: {zone: lawn, stage: soil, crew: {gang: 1}, takes: 1h, note: " + long + "}}\n",
			`2000 characters are the most`},
	}
}

func TestLimits(t *testing.T) {
	for _, c := range limitCases() {
		if got := problemsOf(complete(c.text)); !strings.Contains(got, c.want) {
			t.Errorf("%s: %.500q, want %q in it", c.name, got, c.want)
		}
	}
}

// TestWithinLimits reads plans that reach the limits and not further.
func TestWithinLimits(t *testing.T) {
	task := "t%d: {zone: lawn, stage: soil, crew: {gang: 1}, takes: 1h}"
	for name, text := range map[string]string{
		"tasks": "tasks: {" + repeat(10_000, task) + "}\n",
		"zones": "zones: {lawn: {}, " + repeat(999, "z%d: {way_in: [lawn]}") + "}\n",
		"text": "tasks: {dig: {zone: lawn, stage: soil, crew: {gang: 1}, takes: 1h, note: " +
			strings.Repeat("é", 2000) + "}}\n",
		"name": "garden: " + strings.Repeat("木", 120) + "\n",
		"id":   "tasks: {" + strings.Repeat("d", 64) + ": {zone: lawn, stage: soil, crew: {gang: 1}, takes: 4368h}}\n",
	} {
		if got := problemsOf(complete(text)); got != "" {
			t.Errorf("%s: %.500q", name, got)
		}
	}
}

// TestManyProblems checks that problems beyond 200 are counted, and that
// warnings give way to errors.
func TestManyProblems(t *testing.T) {
	wrong := repeat(200, "t%d: {zone: lwan, stage: soil, crew: {gang: 1}, takes: 1h}")
	few := problemsOf(complete("tasks: {" + wrong + "}\n"))
	if n := strings.Count(few, "\n"); n != 200 || strings.Contains(few, "more") {
		t.Errorf("200 problems became %d", n)
	}
	many := problemsOf(complete("tasks: {" + repeat(5000, "t%d: {zone: lwan, stage: sole, takes: 1h}") + "}\n"))
	lines := strings.Split(strings.TrimSpace(many), "\n")
	if len(lines) != 201 || !strings.HasSuffix(lines[200], ": and 9800 more; put these right first") ||
		strings.Contains(many, "warning") {
		t.Errorf("%d lines, the last %q", len(lines), lines[len(lines)-1])
	}
	nobody := repeat(300, "t%d: {zone: lawn, stage: soil, takes: 1h}")
	warned := problemsOf(complete("tasks: {" + nobody + ", t: {zone: lawn, stage: soil, crew: {gang: 1}, takes: 1h}}\n"))
	if !strings.HasSuffix(warned, "warning: and 100 more; put these right first\n") {
		t.Errorf("the last of 300 warnings: %q", warned[len(warned)-60:])
	}
	flood := problemsOf(complete("tasks: {" + repeat(9000, "t%d: {zone: lwan, stage: sole}") + "}\n"))
	if !strings.HasSuffix(flood, ": and 26800 more; put these right first\n") {
		t.Errorf("the last of a flood: %q", flood[len(flood)-60:])
	}
}
