// Package swapfile puts another text in the place of a file's, whole or not at all, and only
// while the file still holds what the writer has read. It knows nothing of what the text says.
//
// A writer holds a lock on the file, fills a file beside it, flushes that to disk and only then
// gives it the name: whoever is stopped at whatever moment leaves the old text or the new one.
// Of two writers the second finds another text than it has read, and writes nothing.
package swapfile

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/rogpeppe/go-internal/lockedfile"

	"build.example/turflast/cmd/turflast/logfile"
)

// ErrChanged is the error when a file holds another text than the writer has read.
var ErrChanged = errors.New("the file has changed since it was read")

// most is more bytes than a file that is swapped may hold.
const most = 16 << 20

// Swap puts the text now in the place of the text was in a file. Links are followed to the file
// that they stand for, and its mode stays. The error is [ErrChanged] or that of a file; the file
// then holds what it held.
func Swap(path string, was, now []byte) error {
	path, err := filepath.EvalSymlinks(path)
	if err != nil {
		return err
	}
	if err := logfile.Regular(path, most); err != nil {
		return err
	}
	f, err := locked(path)
	if err != nil {
		return err
	}
	defer func() { _ = f.Close() }() // which gives up the lock; nothing was written to it
	info, err := f.Stat()
	if err != nil {
		return err
	}
	return replace(path, info.Mode().Perm(), was, now)
}

// locked is the file with a path, which nobody else swaps until it is closed. While one waits for
// the lock another file may get the name.
func locked(path string) (*lockedfile.File, error) {
	for {
		f, err := lockedfile.OpenFile(path, os.O_RDWR, 0)
		if err != nil {
			return nil, err
		}
		held, err := f.Stat()
		named, nameErr := os.Stat(path)
		switch {
		case err == nil && nameErr == nil && os.SameFile(held, named):
			return f, nil
		case nameErr != nil && !errors.Is(nameErr, fs.ErrNotExist):
			err = errors.Join(err, nameErr)
		}
		if err := errors.Join(err, f.Close()); err != nil {
			return nil, err
		}
	}
}

// replace fills a file beside a path and gives it the name, if the one that has it holds a text.
func replace(path string, mode fs.FileMode, was, now []byte) (err error) {
	if err := holds(path, was); err != nil {
		return err
	}
	f, err := os.CreateTemp(filepath.Dir(path), "."+filepath.Base(path)+"-*")
	if err != nil {
		return err
	}
	defer func() { _ = os.Remove(f.Name()) }() // gone already once it has its name
	_, err = f.Write(now)
	if err = errors.Join(err, f.Chmod(mode), f.Sync(), f.Close()); err != nil {
		return err
	}
	// An editor takes no lock, so the text is looked at once more.
	if err := holds(path, was); err != nil {
		return err
	}
	if err := os.Rename(f.Name(), path); err != nil {
		return err
	}
	logfile.SyncFolder(filepath.Dir(path))
	return nil
}

// holds is nil when a file holds a text.
func holds(path string, text []byte) error {
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer func() { _ = f.Close() }()
	got, err := io.ReadAll(io.LimitReader(f, int64(len(text))+1))
	if err == nil && !bytes.Equal(got, text) {
		err = ErrChanged
	}
	return err
}
