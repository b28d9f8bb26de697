package main

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"

	"github.com/spf13/cobra"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/flaws"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/testdata"
)

// planName is the file that commands take when none is named.
const planName = "plan.yaml"

// source is where a plan is read from.
type source struct {
	name string // as errors and titles show it
	path string // of a file; empty for the built-in garden and standard input
	read func() ([]byte, error)
}

// builtIn is the built-in garden.
func builtIn() source {
	return source{name: "built-in garden", read: func() ([]byte, error) { return []byte(testdata.Demo), nil }}
}

// find chooses the plan of a command: its argument or --plan, else plan.yaml in
// this folder, else the built-in garden. "-" is standard input, and a folder
// means the plan.yaml in it.
func (p *program) find(c *cobra.Command, args []string) (source, error) {
	name := p.planFlag
	if len(args) > 0 {
		if _, err := file(args[0]); c.Flags().Changed("plan") && !errors.Is(err, errNoFile) {
			return source{}, &usageError{fmt.Sprintf("two plans are named, %q and %q", args[0], p.planFlag), c.CommandPath()}
		}
		name = args[0]
	} else if !c.Flags().Changed("plan") {
		if _, err := os.Stat(planName); errors.Is(err, fs.ErrNotExist) {
			return builtIn(), nil
		}
		name = planName
	}
	if name == "" {
		return source{}, &usageError{"the name of the plan is empty", c.CommandPath()}
	}
	if name == "-" {
		return source{name: "standard input", read: func() ([]byte, error) { return readAll(p.stdin) }}, nil
	}
	return file(name)
}

// file is the plan in a file or folder.
func file(name string) (source, error) {
	info, err := os.Stat(name)
	if err == nil && info.IsDir() {
		return file(filepath.Join(name, planName))
	}
	if errors.Is(err, fs.ErrNotExist) {
		return source{}, fmt.Errorf("can't read %s: %w", name, errNoFile)
	}
	if err != nil {
		return source{}, fmt.Errorf("can't read %s: %w", name, reason(err))
	}
	return source{name: printable(name), path: name, read: func() ([]byte, error) {
		f, err := os.Open(name)
		if err != nil {
			return nil, err
		}
		defer f.Close()
		return readAll(f)
	}}, nil
}

// mostBytes is more than a plan file may hold. It stops reading what never
// ends; the reader of plans then says that the file is too long.
const mostBytes = 16 << 20

func readAll(r io.Reader) ([]byte, error) { return io.ReadAll(io.LimitReader(r, mostBytes)) }

// errNoFile is the error for a plan that isn't there.
var errNoFile = errors.New("there is no such file")

// reason takes the path out of a file error, since the message around it has
// the name.
func reason(err error) error {
	var p *fs.PathError
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return errNoFile
	case errors.As(err, &p):
		err = p.Err
	}
	for _, w := range plainReasons {
		if errors.Is(err, w.is) {
			return plainError{w.words, err}
		}
	}
	return err
}

// plainReasons say in plain words what operating systems say in theirs.
var plainReasons = []struct {
	is    error
	words string
}{
	{fs.ErrPermission, "you have no right to"},
	{syscall.ENOTDIR, "a part of the path is a file and no folder"},
	{syscall.EISDIR, "it is a folder and no file"},
	{syscall.ENOSPC, "the disk is full"},
	{syscall.EROFS, "nothing can be written on that disk"},
	{syscall.ENAMETOOLONG, "the name is too long"},
	{syscall.ELOOP, "links lead round in a ring"},
	{syscall.EPIPE, "what reads it has gone"},
	{syscall.EIO, "the disk or the terminal fails"},
}

// plainError is an error of the operating system in plain words.
type plainError struct {
	words string
	err   error
}

func (e plainError) Error() string { return e.words }
func (e plainError) Unwrap() error { return e.err }

// load reads a plan and lists all that is wrong with it. The error is that of
// the file.
func (p *program) load(s source) (*schedule.Plan, schedule.Problems, error) {
	text, err := s.read()
	if err != nil {
		return nil, nil, fmt.Errorf("can't read %s: %w", s.name, reason(err))
	}
	p.digest = fmt.Sprintf("sha256 %x", sha256.Sum256(text))
	plan, problems := planfile.Read(bytes.NewReader(text))
	return plan, problems, nil
}

// mustLoad reads a plan for which a programme can be made, and prints one line
// when there are warnings.
func (p *program) mustLoad(c *cobra.Command, args []string) (*schedule.Plan, source, error) {
	s, err := p.find(c, args)
	if err != nil {
		return nil, s, err
	}
	plan, problems, err := p.load(s)
	if err != nil {
		return nil, s, err
	}
	if problems.Fatal() {
		return nil, s, &problemsError{s.name, problems.Faults()}
	}
	return plan, s, nil
}

// checked adds the problems that only the network and the dates of the plan
// show to those that reading found.
func checked(plan *schedule.Plan, problems schedule.Problems) schedule.Problems {
	if problems.Fatal() {
		return problems
	}
	problems = append(problems, flaws.Of(plan)...)
	problems.Sort()
	return problems
}
