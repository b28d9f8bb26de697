package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"build.example/turflast/cmd/turflast/logfile"
)

// allNew is nil when none of the paths is taken.
func allNew(paths []string) error {
	for _, path := range paths {
		_, err := os.Lstat(path)
		if err == nil {
			return takenError(path)
		}
		if !errors.Is(err, fs.ErrNotExist) {
			return fmt.Errorf("can't write %s: %w", path, reason(err))
		}
	}
	return nil
}

// takenError is a path where something is already.
type takenError string

func (e takenError) Error() string {
	return string(e) + " is there already; nothing was written over it"
}

func (e takenError) Is(target error) bool { return target == fs.ErrExist }

func makeFolder(path string) error {
	if err := os.MkdirAll(path, 0o755); err != nil {
		return fmt.Errorf("can't make the folder %s: %w", path, reason(err))
	}
	return nil
}

// createFile writes a new file whole or not at all: a file beside it is filled,
// flushed to disk, and only then given the name, which must be free.
func createFile(path string, data []byte) error { return putFile(path, data, place) }

// replaceFile is createFile for a name that may be taken: what was there is gone then.
func replaceFile(path string, data []byte) error { return putFile(path, data, os.Rename) }

// putFile fills a file beside a path and gives it the name.
func putFile(path string, data []byte, name func(from, to string) error) (err error) {
	defer func() {
		if err != nil && !errors.Is(err, fs.ErrExist) {
			err = fmt.Errorf("can't write %s: %w", path, reason(err))
		}
	}()
	f, err := os.CreateTemp(filepath.Dir(path), "."+filepath.Base(path)+"-*")
	if err != nil {
		return err
	}
	defer func() { _ = os.Remove(f.Name()) }() // gone already once it has its name
	_, err = f.Write(data)
	err = errors.Join(err, f.Chmod(0o644), f.Sync(), f.Close())
	if err != nil {
		return err
	}
	if err := name(f.Name(), path); err != nil {
		return err
	}
	logfile.SyncFolder(filepath.Dir(path))
	return nil
}

// place gives a finished file its name unless that has been taken meanwhile. On
// a file system without links it looks and then renames.
func place(from, to string) error {
	err := os.Link(from, to)
	if err == nil {
		return nil
	}
	if errors.Is(err, fs.ErrExist) {
		return takenError(to)
	}
	if err := allNew([]string{to}); err != nil {
		return err
	}
	return os.Rename(from, to)
}
