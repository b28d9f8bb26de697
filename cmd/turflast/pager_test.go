package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// paged runs the program as on a terminal with so many rows and this PAGER.
func paged(t *testing.T, rows int, pager string, args ...string) (stdout string, code int) {
	t.Helper()
	var out, fault bytes.Buffer
	env := environment{
		Getenv: func(name string) string { return map[string]string{"PAGER": pager}[name] },
		Now:    time.Now, Rows: func() int { return rows },
	}
	code = run(args, strings.NewReader(""), &out, &fault, env)
	if fault.Len() > 0 && code == exitMet {
		t.Errorf("%v: %s", args, fault.String())
	}
	return out.String(), code
}

// Long output goes through the pager, with the command's own exit code; all else doesn't.
func TestPager(t *testing.T) {
	if _, err := exec.LookPath("sed"); err != nil {
		t.Skip("there is no sed to page with")
	}
	plain, _ := paged(t, 1000, "sed s/^/+/", "holidays")
	lines := strings.Count(plain, "\n")
	through := "+" + strings.ReplaceAll(strings.TrimSuffix(plain, "\n"), "\n", "\n+") + "\n"
	if lines < 10 || strings.Contains(plain, "+Regions") {
		t.Fatalf("what fits on the screen is paged: %q", plain)
	}
	for _, c := range []struct {
		rows  int
		pager string
		args  []string
		want  string
	}{
		{lines + 1, "sed s/^/+/", []string{"holidays"}, plain},
		{lines, "sed s/^/+/", []string{"holidays"}, through},
		{3, "sed s/^/+/", []string{"holidays", "--no-pager"}, plain},
		{3, "cat", []string{"holidays"}, plain},
		{3, "no-such-pager", []string{"holidays"}, plain},
		{3, "false", []string{"holidays"}, ""}, // what the pager leaves out is its own choice
	} {
		if got, code := paged(t, c.rows, c.pager, c.args...); got != c.want || code != exitMet {
			t.Errorf("%d rows, PAGER=%q, %v: code %d, %q", c.rows, c.pager, c.args, code, got)
		}
	}
	bad := filepath.Join(t.TempDir(), "bad.yaml")
	if err := os.WriteFile(bad, []byte("garden: One\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	got, code := paged(t, 3, "sed s/^/+/", "check", bad, "--json")
	if code != exitInput || !strings.HasPrefix(got, "+{\n+") {
		t.Errorf("a plan that is refused: code %d, %q", code, got)
	}
}
