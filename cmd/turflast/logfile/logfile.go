// Package logfile keeps a text of lines that only grows, on a disk that may
// lose power, with several programs writing at once. It knows nothing of what
// the lines say.
//
// A writer holds a lock on the file, writes whole lines at its end and flushes
// them to disk before it reports success. A write that was cut off may leave a
// line without an end; the next write moves that to a file beside the log, or
// gives the line its end where it is whole, as some editors leave it.
// Nothing else is ever taken out.
package logfile

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"github.com/rogpeppe/go-internal/lockedfile"
)

// tornSuffix is added to the name of a log to name the file of what was cut
// off.
const tornSuffix = ".torn"

// Torn is the file to which [Append] has moved what a write that was cut off
// had left; empty when there was nothing.
type Torn string

// Regular says why a file can't be read whole: it is no ordinary file, so that reading it
// might never end, or it holds more bytes than so many. A file that isn't there is
// [fs.ErrNotExist].
func Regular(path string, most int64) error {
	info, err := os.Stat(path)
	switch {
	case err != nil:
		return err
	case !info.Mode().IsRegular():
		return errors.New("it is no ordinary file")
	case info.Size() > most:
		return fmt.Errorf("it holds %d MB, and may hold %d", (info.Size()+1<<20-1)>>20, most>>20)
	}
	return nil
}

// Most is the most bytes of a log: some hundred thousand events.
const Most = 256 << 20

// Read calls take with the text of a log, which nobody writes to meanwhile; not when there is
// no such file. Its last line may have no end. An error of take is returned as it is.
func Read(path string, take func(text io.ReadSeeker) error) error {
	if err := Regular(path, Most); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	f, err := lockedfile.Open(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		// A file system without locks can still be read.
		if text, plain := os.Open(path); plain == nil {
			return errors.Join(take(text), text.Close())
		}
		return err
	}
	return errors.Join(take(f), f.Close())
}

// Append calls make with the whole lines of the log and adds the lines that it
// returns; nobody else can write in between. Whole says whether a last line without an
// end is all there: it is kept then, and given its end. When Append returns without an
// error the lines are on the disk; with an error, the log is as it was. An
// error of make is returned as it is. For a log that isn't there yet make may
// be called twice.
func Append(path string, whole func(line []byte) bool,
	make func(text io.ReadSeeker) ([]byte, error)) (torn Torn, err error) {
	switch err := Regular(path, Most); {
	case errors.Is(err, fs.ErrNotExist):
		if _, err := make(bytes.NewReader(nil)); err != nil {
			return "", err // no empty file is left behind
		}
		defer func() { SyncFolder(filepath.Dir(path)) }()
	case err != nil:
		return "", err
	}
	f, err := lockedfile.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o644)
	if err != nil {
		return "", err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	tail, kept, err := lastLine(f)
	if err != nil {
		return "", err
	}
	end := ""
	if len(tail) > 0 && whole(tail) {
		kept += int64(len(tail))
		tail, end = nil, "\n"
	}
	lines, err := make(io.NewSectionReader(f, 0, kept))
	if err != nil {
		return "", err
	}
	if !bytes.HasSuffix(lines, []byte("\n")) {
		return "", errors.New("logfile: the last line has no end")
	}
	if torn, err = setAside(path, f, tail, kept); err != nil {
		return torn, err
	}
	return torn, write(f, kept, append([]byte(end), lines...))
}

// lastLine is what follows the last end of a line in a file, and where that begins.
func lastLine(f *lockedfile.File) (tail []byte, from int64, err error) {
	info, err := f.Stat()
	if err != nil {
		return nil, 0, err
	}
	size := info.Size()
	for step := int64(4096); ; step *= 2 {
		tail = make([]byte, min(step, size))
		if _, err := f.ReadAt(tail, size-int64(len(tail))); err != nil {
			return nil, 0, err
		}
		if last := bytes.LastIndexByte(tail, '\n'); last >= 0 || step >= size {
			tail = tail[last+1:]
			return tail, size - int64(len(tail)), nil
		}
	}
}

// file is what write needs of a file.
type file interface {
	io.WriterAt
	Truncate(size int64) error
	Sync() error
}

// write puts lines at the end of a file and flushes them, or leaves it as it was.
func write(f file, end int64, lines []byte) error {
	_, err := f.WriteAt(lines, end)
	if err == nil {
		err = f.Sync()
	}
	if err == nil {
		return nil
	}
	if back := errors.Join(f.Truncate(end), f.Sync()); back != nil {
		return fmt.Errorf("%w; what was written of it could not be taken back: %w", err, back)
	}
	return err
}

// setAside moves what follows the whole lines of a log, which end there, to a file beside it.
func setAside(path string, log file, tail []byte, end int64) (Torn, error) {
	if len(tail) == 0 {
		return "", nil
	}
	name := path + tornSuffix
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_APPEND, 0o644)
	if err != nil {
		return "", err
	}
	_, err = f.Write(append(bytes.Clone(tail), '\n'))
	if err = errors.Join(err, f.Sync(), f.Close()); err != nil {
		return "", err
	}
	return Torn(name), log.Truncate(end)
}

// SyncFolder makes a new name in a folder survive a power cut, where the system
// can.
func SyncFolder(path string) {
	if d, err := os.Open(path); err == nil {
		_ = d.Sync() // some file systems refuse to; the file itself is safe
		_ = d.Close()
	}
}

// Stamp changes whenever the file does; it is empty while there is none.
func Stamp(path string) string {
	info, err := os.Stat(path)
	if err != nil {
		return ""
	}
	return fmt.Sprint(info.Size(), " ", info.ModTime().Format(time.RFC3339Nano))
}
