package swapfile_test

import (
	"bufio"
	"errors"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"build.example/turflast/cmd/turflast/swapfile"
)

var runs = flag.Int("runs", 8, "how many times a writer is killed")

// The test binary also serves as the writer.
const asWriter, asMost = "TURFLAST_SWAPS", "TURFLAST_SWAPS_MOST"

func TestMain(m *testing.M) {
	if path := os.Getenv(asWriter); path != "" {
		most, _ := strconv.Atoi(os.Getenv(asMost))
		writer(path, most)
		return
	}
	os.Exit(m.Run())
}

// text is the file after so many swaps: long, so that it isn't written in one go.
func text(n int) []byte {
	return []byte(fmt.Sprintf("%d\n%s%d\n", n, strings.Repeat("x", 100_000), n))
}

// number is how many swaps made a text; -1 for none that was ever written.
func number(data []byte) int {
	first, _, _ := strings.Cut(string(data), "\n")
	n, err := strconv.Atoi(first)
	if err != nil || string(text(n)) != string(data) {
		return -1
	}
	return n
}

// writer swaps the file for the next, for ever or so many times, and prints the number of each
// once it is confirmed. Where another was quicker it reads again.
func writer(path string, most int) {
	for done := 0; most == 0 || done < most; {
		was, err := os.ReadFile(path)
		if err != nil {
			fmt.Println("failed", err)
			os.Exit(1)
		}
		n := number(was)
		switch err := swapfile.Swap(path, was, text(n+1)); {
		case err == nil:
			done++
			fmt.Println(n + 1)
		case !errors.Is(err, swapfile.ErrChanged):
			fmt.Println("failed", err)
			os.Exit(1)
		}
	}
}

// start starts a writer; begun is closed once it has confirmed a swap, and confirmed is the last
// number that it printed, and how many, once it has ended.
func start(t *testing.T, path string, most int) (w *exec.Cmd, begun chan bool, confirmed func() (last, count int)) {
	t.Helper()
	w = exec.Command(os.Args[0])
	w.Env = append(os.Environ(), asWriter+"="+path, fmt.Sprintf("%s=%d", asMost, most))
	w.Stderr = os.Stderr
	out, err := w.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := w.Start(); err != nil {
		t.Fatal(err)
	}
	type heard struct{ last, count int }
	done := make(chan heard, 1)
	begun = make(chan bool)
	go func() {
		var h heard
		for in := bufio.NewScanner(out); in.Scan(); h.count++ {
			n, err := strconv.Atoi(in.Text())
			if err != nil {
				t.Errorf("the writer %s", in.Text())
				break
			}
			if h.last = n; h.count == 0 {
				close(begun)
			}
		}
		if h.count == 0 {
			close(begun) // it ended before
		}
		done <- h
	}()
	return w, begun, func() (int, int) { h := <-done; _ = w.Wait(); return h.last, h.count }
}

func fresh(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "plan.yaml")
	if err := os.WriteFile(path, text(0), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

func content(t *testing.T, path string) []byte {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// TestKill kills a writer at a random moment: the file is one whole text, the last confirmed or
// the next.
func TestKill(t *testing.T) {
	for run := range *runs {
		path := fresh(t)
		w, begun, confirmed := start(t, path, 0)
		<-begun
		time.Sleep(time.Duration(rand.IntN(40)) * time.Millisecond)
		if err := w.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		last, _ := confirmed()
		if n := number(content(t, path)); last == 0 || n < last || n > last+1 {
			t.Fatalf("run %d: the file is number %d, %d was confirmed", run, n, last)
		}
	}
}

// TestSeveral lets three writers swap at once: none is lost.
func TestSeveral(t *testing.T) {
	const each = 15
	path, all := fresh(t), 0
	var done []func() (int, int)
	for range 3 {
		_, _, confirmed := start(t, path, each)
		done = append(done, confirmed)
	}
	for _, confirmed := range done {
		_, count := confirmed()
		all += count
	}
	if n := number(content(t, path)); n != all || all != 3*each {
		t.Errorf("the file is number %d after %d confirmed swaps", n, all)
	}
	entries, err := os.ReadDir(filepath.Dir(path))
	if err != nil || len(entries) != 1 {
		t.Errorf("files are left beside it: %v %v", entries, err)
	}
}

// TestChanged writes nothing over a text that it hasn't read.
func TestChanged(t *testing.T) {
	path := fresh(t)
	for _, was := range [][]byte{text(1), nil, text(0)[:9], append(text(0), 'x')} {
		if err := swapfile.Swap(path, was, text(2)); !errors.Is(err, swapfile.ErrChanged) {
			t.Errorf("error %v", err)
		}
	}
	if n := number(content(t, path)); n != 0 {
		t.Errorf("the file is number %d", n)
	}
}

// TestLinkAndMode follows a link to the file, whose mode stays; the link stays one.
func TestLinkAndMode(t *testing.T) {
	path := fresh(t)
	if err := os.Chmod(path, 0o640); err != nil {
		t.Fatal(err)
	}
	link := filepath.Join(t.TempDir(), "link.yaml")
	if err := os.Symlink(path, link); err != nil {
		t.Skip(err)
	}
	if err := swapfile.Swap(link, text(0), text(1)); err != nil {
		t.Fatal(err)
	}
	info, err := os.Stat(path)
	if err != nil || info.Mode().Perm() != 0o640 || number(content(t, path)) != 1 {
		t.Errorf("%v, mode %v, number %d", err, info.Mode(), number(content(t, path)))
	}
	if l, err := os.Lstat(link); err != nil || l.Mode()&os.ModeSymlink == 0 {
		t.Errorf("the link is a file of its own now: %v", err)
	}
}

// TestNoFile refuses what is no ordinary file.
func TestNoFile(t *testing.T) {
	dir := t.TempDir()
	for _, path := range []string{dir, filepath.Join(dir, "none"), os.DevNull} {
		if err := swapfile.Swap(path, nil, text(1)); err == nil {
			t.Errorf("%s was swapped", path)
		}
	}
}
