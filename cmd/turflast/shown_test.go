package main

import (
	"bytes"
	"flag"
	"io/fs"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/spf13/cobra"
)

var runsShown = flag.Bool("shown", false, "run every command line that a page shows, which takes minutes")

// shownAt is when the lines of a page are run: before all there is to order.
const shownAt = "2026-10-05T09:00:00+01:00"

// staged are lines that need something to have happened first, and the moment from which
// on the page is then told.
var staged = map[string]struct {
	at    string
	lines []string
}{
	"log start set-out --at 08:00": {"2027-04-30T09:00:00+01:00", []string{"baseline set", "log start wall-face"}},
	"log unloaded slate --at 9:40": {"2027-04-30T18:00:00+01:00", nil},
	"log set-out done 10am":        {"2027-04-30T18:00:00+01:00", nil},
	"rates":                        {"2027-04-30T18:10:00+01:00", []string{"log start set-out", "log finish set-out"}},
}

// shownLines are the command lines of a text, without "turflast".
func shownLines(text string) (out []string) {
	for line := range strings.Lines(text) {
		if rest, is := strings.CutPrefix(line, "    $ turflast "); is {
			rest, _, _ = strings.Cut(rest, "  #")
			out = append(out, strings.TrimSpace(rest))
		}
	}
	return out
}

// arguments splits a line as a shell does: words, and what stands in quotes.
func arguments(line string) (out []string) {
	word, in, begun := "", rune(0), false
	for _, r := range line + " " {
		switch {
		case r == in:
			in = 0
		case in == 0 && (r == '"' || r == '\''):
			in, begun = r, true
		case in == 0 && r == ' ':
			if begun {
				out = append(out, word)
			}
			word, begun = "", false
		default:
			word, begun = word+string(r), true
		}
	}
	return out
}

// Every command line that a page shows is one that turflast understands, and with -shown it
// runs: the page's lines in order, beside the built-in garden in a folder of their own.
func TestShownCommandLines(t *testing.T) {
	pages := map[string]string{}
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	pages["README.md"] = string(readme)
	names, err := fs.Glob(guides, "guide/*.md")
	if err != nil || len(names) < 4 {
		t.Fatal(names, err)
	}
	for _, name := range names {
		text, err := guides.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		pages[name] = string(text)
	}
	for name, text := range pages {
		lines := shownLines(text)
		if len(lines) == 0 {
			t.Errorf("%s shows no command line", name)
		}
		for _, line := range lines {
			if err := understood(arguments(line)); err != nil {
				t.Errorf("%s shows %q: %v", name, line, err)
			}
		}
		if *runsShown {
			t.Run(name, func(t *testing.T) { runShown(t, lines) })
		}
	}
}

// understood is what is wrong with a command line's command or options.
func understood(args []string) error {
	p := &program{env: environment{Getenv: func(string) string { return "" }}, out: &output{}}
	c, rest, err := p.root().Find(args)
	if err != nil {
		return err
	}
	return c.ParseFlags(rest)
}

// fewer makes lines quicker whose work is counted.
var fewer = map[string]string{"odds": " --builds 200", "sturdier": " --builds 200"}

func runShown(t *testing.T, lines []string) {
	t.Chdir(t.TempDir())
	now := shownAt
	do := func(line string, mayFail bool) {
		t.Helper()
		var out, said bytes.Buffer
		at, err := time.Parse(time.RFC3339, now)
		if err != nil {
			t.Fatal(err)
		}
		env := environment{Getenv: func(string) string { return "" }, Now: func() time.Time { return at }}
		code := run(arguments(line+fewer[line]), strings.NewReader(""), &out, &said, env)
		if code > exitBreak && !mayFail && !strings.Contains(line, "broken") {
			t.Errorf("turflast %s: code %d: %s", line, code, said.String())
		}
		if out.Len()+said.Len() == 0 {
			t.Errorf("turflast %s says nothing", line)
		}
	}
	do("demo", false)
	for _, line := range lines {
		if first, needs := staged[line]; needs {
			now = first.at
			for _, l := range first.lines {
				do(l, true) // the page may have done it already
			}
		}
		do(line, false)
	}
}

// Every example in help is a command line that turflast understands.
func TestExamplesOfHelp(t *testing.T) {
	p := &program{env: environment{Getenv: func(string) string { return "" }}, out: &output{}}
	seen := 0
	err := eachCommand(p.root(), func(c *cobra.Command) error {
		for line := range strings.Lines(c.Example) {
			rest, is := strings.CutPrefix(strings.TrimRight(line, "\n"), "  turflast ")
			if !is {
				continue
			}
			rest, _, _ = strings.Cut(rest, " | ")
			rest, _, _ = strings.Cut(rest, " > ")
			rest, _, _ = strings.Cut(rest, "   ")
			seen++
			if err := understood(arguments(rest)); err != nil {
				t.Errorf("%s shows %q: %v", c.CommandPath(), rest, err)
			}
		}
		return nil
	})
	if err != nil || seen < 30 {
		t.Errorf("%d examples, %v", seen, err)
	}
}
