package logfile_test

import (
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"build.example/turflast/cmd/turflast/logfile"
)

// TestFull appends until the disk takes no more, which a limit on the size of
// files simulates: the error is clear, and the log keeps every line that was
// confirmed, whole.
func TestFull(t *testing.T) {
	path := filepath.Join(t.TempDir(), "log")
	// A shell sets the limit, of 4 blocks of 512 or 1,024 bytes, and takes no notice
	// of the signal that comes with it.
	w := exec.Command("sh", "-c", `trap "" XFSZ; ulimit -f 4; exec "$0"`, os.Args[0])
	w.Env = append(os.Environ(), asWriter+"="+path, asName+"=w")
	out, err := w.Output()
	if err == nil {
		t.Fatal("the writer ended as if nothing were wrong")
	}
	said := strings.Split(strings.TrimSpace(string(out)), "\n")
	if last := said[len(said)-1]; !strings.Contains(last, "failed") || !strings.Contains(last, "too large") {
		t.Errorf("the last words are %q", last)
	}
	if got := written(t, path)["w"]; len(got) != len(said)-1 || len(got) == 0 {
		t.Errorf("%d lines are there, %d were confirmed", len(got), len(said)-1)
	}
	if text := content(t, path); !strings.HasSuffix(text, "\n") {
		t.Error("a piece of a line was left")
	}
}

// TestReadOnly appends in a folder, and to a file, that the writer may not
// write to. Whoever runs the tests, the writer is a user without rights of
// their own.
func TestReadOnly(t *testing.T) {
	folder := t.TempDir()
	for f := folder; f != os.TempDir() && f != "/"; f = filepath.Dir(f) {
		if err := os.Chmod(f, 0o755); err != nil {
			t.Fatal(err)
		}
	}
	writer := filepath.Join(folder, "writer")
	binary, err := os.ReadFile(os.Args[0])
	if err != nil {
		t.Fatal(err)
	}
	old := filepath.Join(folder, "old")
	for path, what := range map[string][]byte{writer: binary, old: []byte("one\n")} {
		if err := os.WriteFile(path, what, 0o755); err != nil {
			t.Fatal(err)
		}
	}
	for path, mode := range map[string]os.FileMode{old: 0o444, folder: 0o555} {
		if err := os.Chmod(path, mode); err != nil {
			t.Fatal(err)
		}
	}
	defer func() { _ = os.Chmod(folder, 0o755) }()
	for _, path := range []string{old, filepath.Join(folder, "new")} {
		w := exec.Command(writer)
		w.Env = append(os.Environ(), asWriter+"="+path, asName+"=w")
		w.Dir = "/"
		if os.Getuid() == 0 {
			const nobody = 65534
			w.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: nobody, Gid: nobody}}
		}
		out, err := w.Output()
		if err == nil || !strings.Contains(string(out), "permission denied") {
			t.Errorf("%s: %v, %q", path, err, out)
		}
	}
	if got := content(t, old); got != "one\n" {
		t.Errorf("the log is %q", got)
	}
}

// unread takes a text that nothing may be read of.
func unread(t *testing.T) func(io.ReadSeeker) error {
	return func(io.ReadSeeker) error { t.Error("it is read"); return nil }
}

// Devices, pipes and folders are no logs: reading one might never end, or take all memory.
func TestOnlyOrdinaryFiles(t *testing.T) {
	folder := t.TempDir()
	pipe := filepath.Join(folder, "pipe")
	if err := syscall.Mkfifo(pipe, 0o644); err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{pipe, "/dev/zero", folder} {
		if err := logfile.Read(path, unread(t)); err == nil || !strings.Contains(err.Error(), "no ordinary file") {
			t.Errorf("%s: %v", path, err)
		}
		if _, err := appendText(path, "x\n"); err == nil {
			t.Errorf("%s takes a line", path)
		}
	}
	big := filepath.Join(folder, "big")
	if err := os.WriteFile(big, nil, 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Truncate(big, logfile.Most+1); err != nil {
		t.Fatal(err)
	}
	err := logfile.Read(big, unread(t))
	if err == nil || !strings.Contains(err.Error(), "holds 257 MB, and may hold 256") {
		t.Errorf("too big: %v", err)
	}
}
