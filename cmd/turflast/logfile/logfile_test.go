package logfile_test

import (
	"bufio"
	"bytes"
	"errors"
	"flag"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"build.example/turflast/cmd/turflast/logfile"
)

var (
	runs  = flag.Int("runs", 25, "writers killed at a random moment")
	lines = flag.Int("lines", 400, "lines that several writers append in all")
)

// never says that a line without an end is none.
func never([]byte) bool { return false }

// The test binary also serves as the writer; see writer.
const asWriter, asName = "TURFLAST_LOG_WRITER", "TURFLAST_LOG_NAME"

func TestMain(m *testing.M) {
	if path := os.Getenv(asWriter); path != "" {
		writer(path, os.Getenv(asName))
		return
	}
	os.Exit(m.Run())
}

// writer appends numbered lines for ever, or up to a count after the name, and
// prints the number of each once it is confirmed.
func writer(path, name string) {
	name, most, _ := strings.Cut(name, " ")
	last, _ := strconv.Atoi(most)
	for k := 1; last == 0 || k <= last; k++ {
		line := fmt.Appendf(nil, "%s %d %s\n", name, k, strings.Repeat("x", k%300))
		if _, err := logfile.Append(path, never, func(io.ReadSeeker) ([]byte, error) { return line, nil }); err != nil {
			fmt.Println("failed", err)
			os.Exit(1)
		}
		fmt.Println(k)
	}
}

// start starts a writer; confirmed is the last number that it printed, once it has
// ended.
func start(t *testing.T, path, name string) (w *exec.Cmd, confirmed func() int) {
	t.Helper()
	w = exec.Command(os.Args[0])
	w.Env = append(os.Environ(), asWriter+"="+path, asName+"="+name)
	w.Stderr = os.Stderr
	out, err := w.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := w.Start(); err != nil {
		t.Fatal(err)
	}
	last := make(chan int, 1)
	go func() {
		n := 0
		for in := bufio.NewScanner(out); in.Scan(); {
			k, err := strconv.Atoi(in.Text())
			if err != nil {
				n = -1
				break
			}
			n = k
		}
		last <- n
	}()
	return w, func() int { n := <-last; _ = w.Wait(); return n }
}

// written are the numbers of each writer's lines in a log; each line must be as
// it was made.
func written(t *testing.T, path string) map[string][]int {
	t.Helper()
	var text []byte
	if err := logfile.Read(path, func(r io.ReadSeeker) (err error) { text, err = io.ReadAll(r); return err }); err != nil {
		t.Fatal(err)
	}
	out := make(map[string][]int)
	for line := range bytes.Lines(text) {
		f := strings.Split(string(line), " ")
		if line[len(line)-1] != '\n' {
			continue // torn: nobody was told that it is in the log
		}
		k, err := strconv.Atoi(f[1])
		if err != nil || len(f) != 3 || f[2] != strings.Repeat("x", k%300)+"\n" {
			t.Fatalf("nobody wrote %q", line)
		}
		out[f[0]] = append(out[f[0]], k)
	}
	return out
}

// TestKill kills a writer at a random moment: all that it had confirmed is
// there, in order, and at most one more line.
func TestKill(t *testing.T) {
	kept := 0
	for run := range *runs {
		path := filepath.Join(t.TempDir(), "log")
		w, confirmed := start(t, path, "w")
		time.Sleep(time.Duration(5+rand.IntN(60)) * time.Millisecond)
		if err := w.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		n := confirmed()
		if n < 0 {
			t.Fatalf("run %d: the writer failed", run)
		}
		got := written(t, path)["w"]
		for k, number := range got {
			if number != k+1 {
				t.Fatalf("run %d: line %d is number %d", run, k+1, number)
			}
		}
		if len(got) < n || len(got) > n+1 {
			t.Fatalf("run %d: %d lines are there, %d were confirmed", run, len(got), n)
		}
		kept += n
	}
	if kept < *runs {
		t.Errorf("only %d lines were confirmed in %d runs", kept, *runs)
	}
	t.Logf("%d runs, %d lines confirmed, none lost", *runs, kept)
}

// TestSeveral lets two and eight writers append at once: no line is lost, and each
// writer's own stay in order.
func TestSeveral(t *testing.T) {
	for _, writers := range []int{2, 8} {
		path, each := filepath.Join(t.TempDir(), "log"), *lines/writers
		var all []func() int
		for w := range writers {
			_, confirmed := start(t, path, fmt.Sprintf("w%d %d", w, each))
			all = append(all, confirmed)
		}
		for w, confirmed := range all {
			if n := confirmed(); n != each {
				t.Fatalf("writer %d of %d confirmed %d of %d", w, writers, n, each)
			}
		}
		got := written(t, path)
		for w := range writers {
			list := got[fmt.Sprint("w", w)]
			if len(list) != each {
				t.Fatalf("%d of %d lines of writer %d of %d are there", len(list), each, w, writers)
			}
			for k, number := range list {
				if number != k+1 {
					t.Fatalf("writer %d: line %d is number %d", w, k+1, number)
				}
			}
		}
	}
}

func appendText(path, text string) (logfile.Torn, error) {
	return logfile.Append(path, never, func(io.ReadSeeker) ([]byte, error) { return []byte(text), nil })
}

// all is the text of a reader.
func all(t *testing.T, text io.Reader) string {
	t.Helper()
	out, err := io.ReadAll(text)
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}

func content(t *testing.T, path string) string {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// TestTorn appends after a write that was cut off: what it left is set aside.
func TestTorn(t *testing.T) {
	path := filepath.Join(t.TempDir(), "log")
	if err := os.WriteFile(path, []byte("one\ntw"), 0o644); err != nil {
		t.Fatal(err)
	}
	seen := ""
	torn, err := logfile.Append(path, never,
		func(text io.ReadSeeker) ([]byte, error) { seen = all(t, text); return []byte("three\n"), nil })
	if err != nil || seen != "one\n" || string(torn) != path+".torn" {
		t.Fatalf("saw %q, torn %q, %v", seen, torn, err)
	}
	if got := content(t, path); got != "one\nthree\n" {
		t.Errorf("the log is %q", got)
	}
	if got := content(t, path+".torn"); got != "tw\n" {
		t.Errorf("set aside is %q", got)
	}
}

// TestRefused checks that an error of make leaves the log as it is, and creates
// none.
func TestRefused(t *testing.T) {
	path := filepath.Join(t.TempDir(), "log")
	no := errors.New("no")
	if _, err := logfile.Append(path, never, func(io.ReadSeeker) ([]byte, error) { return nil, no }); !errors.Is(err, no) {
		t.Errorf("error %v", err)
	}
	if logfile.Stamp(path) != "" {
		t.Error("an empty log was made")
	}
	if _, err := appendText(path, "one\n"); err != nil {
		t.Fatal(err)
	}
	if _, err := logfile.Append(path, never, func(io.ReadSeeker) ([]byte, error) { return nil, no }); !errors.Is(err, no) {
		t.Errorf("error %v", err)
	}
	if _, err := appendText(path, "no end"); err == nil {
		t.Error("a line without an end was taken")
	}
	if got := content(t, path); got != "one\n" {
		t.Errorf("the log is %q", got)
	}
}

// A last line that only lacks its end is kept, and given one; nothing is set aside.
func TestALineWithoutEnd(t *testing.T) {
	path := filepath.Join(t.TempDir(), "log")
	if err := os.WriteFile(path, []byte("one\ntwo"), 0o644); err != nil {
		t.Fatal(err)
	}
	whole := func(line []byte) bool { return string(line) == "two" }
	var seen string
	torn, err := logfile.Append(path, whole, func(text io.ReadSeeker) ([]byte, error) {
		seen = all(t, text)
		return []byte("three\n"), nil
	})
	if err != nil || torn != "" || seen != "one\ntwo" {
		t.Errorf("%v, torn %q, seen %q", err, torn, seen)
	}
	if got := content(t, path); got != "one\ntwo\nthree\n" {
		t.Errorf("the log is %q", got)
	}
}
