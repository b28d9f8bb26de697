package main

import (
	"archive/tar"
	"bytes"
	"compress/gzip"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// instance writes an invented .sm file of n jobs between two dummies.
func instance(n int, seed uint64) string {
	r := rand.New(rand.NewPCG(seed, 8))
	var after, needs strings.Builder
	for i := 1; i <= n+2; i++ {
		var next []string
		for j := i + 1; j <= n+2; j++ {
			if i == 1 && j < n+2 || j == n+2 || r.IntN(6) == 0 {
				next = append(next, fmt.Sprint(j))
			}
		}
		fmt.Fprintf(&after, "%d 1 %d %s\n", i, len(next), strings.Join(next, " "))
		takes, a, b := 1+r.IntN(9), r.IntN(5), r.IntN(4)
		if i == 1 || i == n+2 {
			takes, a, b = 0, 0, 0
		}
		fmt.Fprintf(&needs, "%d 1 %d %d %d\n", i, takes, a, b)
	}
	return "PRECEDENCE RELATIONS:\njobnr.    #modes  #successors   successors\n" + after.String() +
		"****\nREQUESTS/DURATIONS:\njobnr. mode duration  R 1  R 2\n----\n" + needs.String() +
		"****\nRESOURCEAVAILABILITIES:\n  R 1  R 2\n 6 4\n****\n"
}

// packed is a file of a set.
type packed struct{ name, text string }

// pack writes a set.
func pack(path string, files []packed) error {
	var b bytes.Buffer
	z := gzip.NewWriter(&b)
	w := tar.NewWriter(z)
	for _, f := range files {
		if err := w.WriteHeader(&tar.Header{Name: f.name, Mode: 0o644, Size: int64(len(f.text))}); err != nil {
			return err
		}
		if _, err := w.Write([]byte(f.text)); err != nil {
			return err
		}
	}
	if err := errors.Join(w.Close(), z.Close()); err != nil {
		return err
	}
	return os.WriteFile(path, b.Bytes(), 0o644)
}

func writeSet(t *testing.T, dir string, files ...packed) string {
	t.Helper()
	path := filepath.Join(dir, "set.tar.gz")
	if err := pack(path, files); err != nil {
		t.Fatal(err)
	}
	return path
}

var seconds = regexp.MustCompile(`\d+\.\d+ s`)

// TestRun checks that the result is the same on one core and two, and that the
// table counts what the rows say.
func TestRun(t *testing.T) {
	dir := t.TempDir()
	set := writeSet(t, dir, packed{"a.sm", instance(12, 1)}, packed{"b.sm", instance(14, 2)},
		packed{"c.sm", instance(10, 3)}, packed{"notes.txt", "x"})
	best := filepath.Join(dir, "best.csv")
	const known = "set,instance,lower_bound,upper_bound,proven\nset,a,1,1,0\nset,b,1,999,0\nother,c,1,1,1\n"
	if err := os.WriteFile(best, []byte(known), 0o644); err != nil {
		t.Fatal(err)
	}
	var outs []string
	for _, workers := range []string{"1", "2"} {
		var out bytes.Buffer
		starts := filepath.Join(dir, "starts.csv")
		args := []string{"--set", set, "--best", best, "--schedules", "300", "--workers", workers, "--starts", starts}
		if err := run(args, &out); err != nil {
			t.Fatal(err)
		}
		text, err := os.ReadFile(starts)
		if err != nil || strings.Count(string(text), "\n") != 3 {
			t.Errorf("starts: %v\n%s", err, text)
		}
		outs = append(outs, seconds.ReplaceAllString(out.String(), "T s")+string(text))
	}
	if diff := cmp.Diff(outs[0], outs[1]); diff != "" {
		t.Errorf("one worker and two (-1 +2):\n%s", diff)
	}
	for _, want := range []string{"below the best known                            50.0 %  1 of 2\n",
		"found sound                 100.0 %  3 of 3\n", "of 2\n"} {
		if !strings.Contains(outs[0], want) {
			t.Errorf("%q is not in\n%s", want, outs[0])
		}
	}
}

func TestEvery(t *testing.T) {
	set := writeSet(t, t.TempDir(), packed{"a.sm", instance(5, 1)},
		packed{"b.sm", instance(5, 2)}, packed{"c.sm", instance(5, 3)})
	var out bytes.Buffer
	if err := run([]string{"--set", set, "--every", "2", "--schedules", "20"}, &out); err != nil {
		t.Fatal(err)
	}
	if got := out.String(); !strings.Contains(got, "a  ") ||
		strings.Contains(got, "b  ") || !strings.Contains(got, "c  ") {
		t.Errorf("every second is\n%s", got)
	}
}

// TestSingle prints each better schedule, and the proof when the critical path
// is reached.
func TestSingle(t *testing.T) {
	path := filepath.Join(t.TempDir(), "one.sm")
	text := strings.Replace(instance(8, 4), " 6 4\n", " 600 400\n", 1) // nothing to wait for
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := run([]string{"--single", path, "--schedules", "50"}, &out); err != nil {
		t.Fatal(err)
	}
	if !regexp.MustCompile(`^(s=\[0(,\d+){9}\]\n)+==========\n$`).MatchString(out.String()) {
		t.Errorf("it prints\n%s", out.String())
	}
}

// TestTogether: with seconds only, the search and the solver that learns take turns
// until the best is proven.
func TestTogether(t *testing.T) {
	path := filepath.Join(t.TempDir(), "one.sm")
	if err := os.WriteFile(path, []byte(instance(20, 6)), 0o644); err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := run([]string{"--single", path, "--seconds", "600"}, &out); err != nil {
		t.Fatal(err)
	}
	if !regexp.MustCompile(`^(s=\[0(,\d+){21}\]\n)+==========\n$`).MatchString(out.String()) {
		t.Errorf("it prints\n%s", out.String())
	}
}

// TestUnsound checks that a schedule that breaks the raw instance is the
// solver's fault, and no result.
func TestUnsound(t *testing.T) {
	it, err := readItem("one.sm", strings.NewReader(instance(4, 1)))
	if err != nil {
		t.Fatal(err)
	}
	told := 0
	b := &board{x: it.instance, better: func([]int) { told++ }, done: func() {}}
	b.found(make([]int, 6)) // all at once
	var ours *unsound
	if !errors.As(b.fault, &ours) || b.row.starts != nil || told > 0 {
		t.Errorf("%v, %v, told %d times", b.fault, b.row.starts, told)
	}
	b = &board{x: it.instance, done: func() {}}
	b.raise(10_000)
	b.found([]int{0, 0, 20, 40, 60, 80})
	if !errors.As(b.fault, &ours) {
		t.Errorf("a makespan of %d is sound with a bound of 10000: %v", b.row.makespan, b.fault)
	}
	var errs bytes.Buffer
	if got := code(b.fault, &errs); got != 3 || !strings.Contains(errs.String(), "below the bound of 10000") {
		t.Errorf("exit code %d, %q", got, errs.String())
	}
}
