package main_test

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"golang.org/x/sys/unix"
)

// patience is how long a test waits before it fails for something that must
// come. No test asserts how fast it comes.
const patience = 30 * time.Second

// binary builds the command as users get it, for the length of one test.
func binary(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "turflast")
	if out, err := exec.Command("go", "build", "-o", path, ".").CombinedOutput(); err != nil {
		t.Fatalf("go build: %v\n%s", err, out)
	}
	return path
}

// session is a command that runs in a pseudo-terminal of its own. The terminal
// takes keys and shows a screen, but it never answers a question.
type session struct {
	t      *testing.T
	cmd    *exec.Cmd
	master *os.File

	mu     sync.Mutex
	news   *sync.Cond
	raw    bytes.Buffer // all that the command wrote
	screen *screen
	closed bool // the command has let go of the terminal
	late   bool
}

// open starts a command in a pseudo-terminal of a size; extra sets variables of
// its environment.
func open(t *testing.T, cols, rows int, extra []string, args ...string) *session {
	t.Helper()
	master, slave, err := pseudoTerminal(cols, rows)
	if err != nil {
		t.Fatalf("pseudo-terminal: %v", err)
	}
	defer slave.Close()
	cmd := exec.Command(args[0], args[1:]...)
	cmd.Stdin, cmd.Stdout, cmd.Stderr = slave, slave, slave
	cmd.Dir = t.TempDir()
	cmd.Env = append(environment(), extra...)
	cmd.SysProcAttr = &syscall.SysProcAttr{Setsid: true, Setctty: true}
	s := &session{t: t, cmd: cmd, master: master, screen: newScreen(cols, rows)}
	s.news = sync.NewCond(&s.mu)
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		_ = cmd.Process.Kill() // it has ended in every test that passed
		master.Close()
	})
	go s.read()
	return s
}

// environment is that of a colour terminal, without what the terminal of the
// tests says of itself.
func environment() []string {
	var env []string
	for _, v := range os.Environ() {
		name, _, _ := strings.Cut(v, "=")
		switch name {
		case "TERM", "COLORTERM", "NO_COLOR", "CLICOLOR", "CLICOLOR_FORCE",
			"TERM_PROGRAM", "COLORFGBG", "LINES", "COLUMNS", "TMUX", "STY", "CI":
		default:
			env = append(env, v)
		}
	}
	return append(env, "TERM=xterm-256color", "LANG=C.UTF-8", "PAGER=cat")
}

func pseudoTerminal(cols, rows int) (master, slave *os.File, err error) {
	master, err = os.OpenFile("/dev/ptmx", os.O_RDWR|unix.O_NOCTTY, 0)
	if err != nil {
		return nil, nil, err
	}
	fd := int(master.Fd())
	n, err := unix.IoctlGetInt(fd, unix.TIOCGPTN)
	if err == nil {
		err = unix.IoctlSetPointerInt(fd, unix.TIOCSPTLCK, 0)
	}
	if err == nil {
		err = unix.IoctlSetWinsize(fd, unix.TIOCSWINSZ, &unix.Winsize{Row: uint16(rows), Col: uint16(cols)})
	}
	if err == nil {
		slave, err = os.OpenFile(fmt.Sprintf("/dev/pts/%d", n), os.O_RDWR|unix.O_NOCTTY, 0)
	}
	if err != nil {
		master.Close()
		return nil, nil, err
	}
	return master, slave, nil
}

// read draws what the command writes until it lets go of the terminal.
func (s *session) read() {
	buf := make([]byte, 1<<16)
	for {
		n, err := s.master.Read(buf)
		s.mu.Lock()
		s.raw.Write(buf[:n])
		s.screen.Write(buf[:n])
		s.closed = err != nil // EIO: nobody has the other end open
		s.news.Broadcast()
		s.mu.Unlock()
		if err != nil {
			return
		}
	}
}

// await waits until the condition holds; the condition is called with the
// session locked.
func (s *session) await(what string, holds func() bool) {
	s.t.Helper()
	s.mu.Lock()
	defer s.mu.Unlock()
	s.late = false
	timer := time.AfterFunc(patience, func() {
		s.mu.Lock()
		s.late = true
		s.news.Broadcast()
		s.mu.Unlock()
	})
	defer timer.Stop()
	for !holds() {
		if s.closed || s.late {
			s.t.Fatalf("%s did not come (terminal closed: %v); the screen:\n%s", what, s.closed, s.screen)
		}
		s.news.Wait()
	}
}

// shows waits until the screen holds all the texts at once.
func (s *session) shows(texts ...string) {
	s.t.Helper()
	s.await(fmt.Sprintf("%q on the screen", texts), func() bool {
		seen := s.screen.String()
		for _, text := range texts {
			if !strings.Contains(seen, text) {
				return false
			}
		}
		return true
	})
}

// changes waits until the screen is no longer the one given.
func (s *session) changes(from string) string {
	s.t.Helper()
	var now string
	s.await("another screen", func() bool {
		now = s.screen.String()
		return now != from
	})
	return now
}

// look is the screen as it is.
func (s *session) look() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.screen.String()
}

// types sends keys as a terminal would.
func (s *session) types(keys string) {
	s.t.Helper()
	if _, err := s.master.WriteString(keys); err != nil {
		s.t.Fatalf("keys %q: %v", keys, err)
	}
}

// resize changes the terminal's size under the running command.
func (s *session) resize(cols, rows int) {
	s.t.Helper()
	s.mu.Lock()
	s.screen.resize(cols, rows)
	s.mu.Unlock()
	if err := unix.IoctlSetWinsize(int(s.master.Fd()), unix.TIOCSWINSZ,
		&unix.Winsize{Row: uint16(rows), Col: uint16(cols)}); err != nil {
		s.t.Fatal(err)
	}
}

// ends waits for the command to end by itself: all that it wrote, and its exit
// code.
func (s *session) ends() (raw string, code int) {
	s.t.Helper()
	s.await("the end", func() bool { return s.closed })
	err := s.cmd.Wait()
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) {
		s.t.Fatal(err)
	}
	return s.raw.String(), s.cmd.ProcessState.ExitCode()
}
