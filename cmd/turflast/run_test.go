package main

import (
	"bytes"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"build.example/turflast/schedule/verify"
	"build.example/turflast/testdata"
	"build.example/turflast/tui/draw"
)

// outside is an environment with the variables given as "NAME=value".
func outside(vars ...string) environment {
	return environment{
		Getenv: func(name string) string {
			for _, v := range vars {
				if value, ok := strings.CutPrefix(v, name+"="); ok {
					return value
				}
			}
			return ""
		},
		Now: func() time.Time { return time.Date(2027, 5, 4, 10, 30, 0, 0, time.UTC) },
	}
}

type panicking struct{}

func (panicking) Read([]byte) (int, error) { panic("out of turf") }

func TestAPanicIsReportedAsOurFault(t *testing.T) {
	var stdout, stderr bytes.Buffer
	if code := run([]string{"check", "-"}, panicking{}, &stdout, &stderr, outside()); code != exitFault {
		t.Errorf("exit code %d", code)
	}
	for _, want := range []string{
		"turflast: this is our fault, not yours: out of turf\n", "command  turflast check\n", "plan     none read\n",
		"turflast.panicking.Read run_test.go:",
	} {
		if !strings.Contains(stderr.String(), want) {
			t.Errorf("no %q in:\n%s", want, stderr.String())
		}
	}
	if strings.Contains(stderr.String(), "/run_test.go") {
		t.Errorf("a path of this machine in:\n%s", stderr.String())
	}
	if stdout.Len() > 0 {
		t.Errorf("printed %q", stdout.String())
	}
}

func TestARefusedProgrammeIsReportedWithoutThePlansWords(t *testing.T) {
	var stderr bytes.Buffer
	p := &program{stderr: &stderr, command: "turflast plan", digest: "sha256 abc"}
	code := p.fail(refused([]verify.Fault{{Rule: "link", Activity: 7, Text: "secret-task starts too early"}}))
	if code != exitFault {
		t.Errorf("exit code %d", code)
	}
	got := stderr.String()
	for _, want := range []string{"failed its own check (1 rule)", "rule link, activity 7", "plan     sha256 abc"} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in:\n%s", want, got)
		}
	}
	if strings.Contains(got, "secret") {
		t.Errorf("the plan's own words in:\n%s", got)
	}
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("no space left") }

func TestAFailingOutputIsAnError(t *testing.T) {
	for _, args := range [][]string{{"plan"}, {"plan", "--json"},
		{"why", "lay-turf"}, {"version"}, {"check"}, {"holidays"}, {"holidays", "NZ"}} {
		var stderr bytes.Buffer
		if code := run(args, strings.NewReader(""), full{}, &stderr, outside()); code != exitInput {
			t.Errorf("%v: exit code %d", args, code)
		}
		if got := stderr.String(); !strings.HasSuffix(got, "turflast: can't write the output: no space left\n") {
			t.Errorf("%v: %q", args, got)
		}
	}
}

func TestColours(t *testing.T) {
	coloured := func(p *program) bool {
		return draw.Print(draw.Legend(), page80, p.theme(appearance{})) !=
			draw.Print(draw.Legend(), page80, draw.NewTheme(draw.Mono, false))
	}
	t.Setenv("TERM", "xterm-256color")
	t.Setenv("CLICOLOR_FORCE", "1")
	t.Setenv("NO_COLOR", "")
	if !coloured(&program{env: outside()}) {
		t.Error("no colours where nothing speaks against them")
	}
	if coloured(&program{env: outside("NO_COLOR=1")}) {
		t.Error("colours with NO_COLOR set")
	}
	if coloured(&program{env: outside(), noColor: true}) {
		t.Error("colours with --no-color")
	}
}

func TestTheScreenReadsAFileAnew(t *testing.T) {
	path := filepath.Join(t.TempDir(), planName)
	write := func(text string) {
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	write(testdata.Demo)
	src, err := file(path)
	if err != nil {
		t.Fatal(err)
	}
	opts := (&program{stdin: strings.NewReader(""), stdout: io.Discard, stderr: io.Discard, env: outside()}).screen(src)
	plan, problems := opts.Load()
	if plan == nil {
		t.Fatalf("not read: %v", problems)
	}
	before := opts.Stat()
	first, err := opts.Logic(plan)
	if err != nil {
		t.Fatal(err)
	}
	turf := plan.FindDelivery("turf")
	later, err := opts.Logic(plan.Rebooked(turf, plan.Deliveries[turf].Arrives+180))
	if err != nil {
		t.Fatal(err)
	}
	if a, b := first.Programme.Unloads[turf].Start, later.Programme.Unloads[turf].Start; b != a+180 {
		t.Errorf("booked three hours later, unloading starts %d minutes later", b-a)
	}
	write(testdata.Broken)
	if opts.Stat() == before {
		t.Error("the stamp of a changed file is the same")
	}
	if plan, problems := opts.Load(); plan != nil || !problems.Fatal() {
		t.Error("the broken garden reads")
	}
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	if plan, problems := opts.Load(); plan != nil || len(problems) != 1 || opts.Stat() != "" {
		t.Errorf("a file that is gone: %v", problems)
	}
}
