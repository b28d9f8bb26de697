package main_test

import (
	"bufio"
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// longWalk is a plan of very many equal tasks for one person.
func longWalk() string {
	var b strings.Builder
	b.WriteString(`garden: Long Walk
site:
  timezone: Europe/London
  opens: 2027-04-05 07:00
  handover: 2027-08-03 15:00
  hours: {mon: 07:00-18:00, tue: 07:00-18:00, wed: 07:00-18:00, thu: 07:00-18:00, fri: 07:00-18:00}
zones:
  lawn: {name: Lawn}
crews:
  gang: {name: Gang, people: 1}
tasks:
`)
	for i := range 2000 {
		fmt.Fprintf(&b, "  t%d: {name: Bed %d, zone: lawn, stage: protection, crew: {gang: 1}, takes: 1h}\n", i+1, i+1)
	}
	return b.String()
}

// searching starts a command on a plan that takes very long, and returns once it tells on
// standard error that it searches.
func searching(t *testing.T, turflast string, args ...string) (cmd *exec.Cmd, stdout, stderr *bytes.Buffer, ended func() int) {
	t.Helper()
	file := filepath.Join(t.TempDir(), "plan.yaml")
	if err := os.WriteFile(file, []byte(longWalk()), 0o600); err != nil {
		t.Fatal(err)
	}
	stdout, stderr = &bytes.Buffer{}, &bytes.Buffer{}
	cmd = exec.Command(turflast, append(args, "--plan", file)...)
	cmd.Stdout = stdout
	pipe, err := cmd.StderrPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = cmd.Process.Kill() }) // it has ended in every test that passed
	lines := bufio.NewReader(pipe)
	first, err := lines.ReadString('\n')
	if err != nil || !strings.Contains(first, "Ctrl-C") {
		t.Fatalf("it doesn't tell that it searches: %q, %v", first, err)
	}
	return cmd, stdout, stderr, func() int {
		_, _ = stderr.ReadFrom(lines)
		_ = cmd.Wait() // the exit code says it
		return cmd.ProcessState.ExitCode()
	}
}

func TestAnInterruptShowsTheBestSoFar(t *testing.T) {
	turflast := binary(t)
	for _, test := range []struct {
		args []string
		want string // on standard output
	}{
		{[]string{"plan"}, "Interrupted: this is the best programme so far."},
		{[]string{"plan", "--json"}, `"crew_floats": true`},
		{[]string{"today"}, "Long Walk"},
		{[]string{"whatif", "t1 1h longer"}, "Hands over"},
		{[]string{"tolerance"}, "Long Walk"},
		{[]string{"recover"}, "Long Walk"},
	} {
		t.Run(strings.Join(test.args, " "), func(t *testing.T) {
			cmd, stdout, stderr, ended := searching(t, turflast, test.args...)
			if err := cmd.Process.Signal(os.Interrupt); err != nil {
				t.Fatal(err)
			}
			if code := ended(); code != 1 || !strings.Contains(stdout.String(), test.want) {
				t.Errorf("exit code %d, want 1 and %q in:\n%.600s", code, test.want, stdout)
			}
			if said := stderr.String(); !strings.Contains(said, "Left out: the rest of the search") {
				t.Errorf("what is left out isn't said: %q", said)
			}
		})
	}
}

// A tick is written and confirmed before anything is searched for: an interrupt ends only what
// it does to the margin.
func TestAnInterruptedTickIsWritten(t *testing.T) {
	cmd, stdout, stderr, ended := searching(t, binary(t), "log", "start", "t1")
	if err := cmd.Process.Signal(os.Interrupt); err != nil {
		t.Fatal(err)
	}
	if code := ended(); code != 0 || !strings.Contains(stdout.String(), "Bed 1 started. (no. 1)\n") {
		t.Errorf("exit code %d, want 0, and on standard output %q", code, stdout)
	}
	if said := stderr.String(); !strings.Contains(said, "Interrupted: what is logged stays") {
		t.Errorf("it says %q", said)
	}
	plan := cmd.Args[len(cmd.Args)-1]
	text, err := os.ReadFile(strings.TrimSuffix(plan, ".yaml") + ".log.jsonl")
	if err != nil || !bytes.Contains(text, []byte(`"task":"t1"`)) {
		t.Errorf("the log is %q, %v", text, err)
	}
}

func TestASecondInterruptShowsNothing(t *testing.T) {
	cmd, stdout, stderr, ended := searching(t, binary(t), "plan")
	go func() {
		for cmd.Process.Signal(os.Interrupt) == nil { // until it has ended
			time.Sleep(time.Millisecond) // two at once would be one
		}
	}()
	if code := ended(); code != 130 || stdout.Len() > 0 {
		t.Errorf("exit code %d, want 130, and on standard output %q", code, stdout)
	}
	if said := stderr.String(); !strings.Contains(said, "interrupted again; nothing is shown") {
		t.Errorf("it says %q", said)
	}
}
