package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"build.example/turflast/schedule/show/web"
)

// mayWrite is nil where nothing stands at a path, or a page that turflast wrote, or where
// what stands there may be replaced.
func mayWrite(path string, replace bool) error {
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return fmt.Errorf("can't write %s: %w", path, reason(err))
	case !info.Mode().IsRegular():
		return fmt.Errorf("can't write %s: it is no file", path)
	case replace || ours(path):
		return nil
	}
	return fmt.Errorf("%s is there already, and turflast didn't write it; give --replace to replace it", path)
}

// headBytes is as much of a file as has the mark of a page in it.
const headBytes = 4 << 10

// ours says whether a file is a page that turflast wrote.
func ours(path string) bool {
	f, err := os.Open(path)
	if err != nil {
		return false
	}
	defer f.Close()
	head, err := io.ReadAll(io.LimitReader(f, headBytes))
	return err == nil && (bytes.Contains(head, []byte(web.Mark)) || bytes.HasPrefix(head, []byte(web.PictureMark)))
}

// putPage writes a page to a path, in place of an older page, whole or not at all.
func putPage(path string, text []byte, replace bool) error {
	if err := mayWrite(path, replace); err != nil {
		return err
	}
	if real, err := filepath.EvalSymlinks(path); err == nil {
		path = real
	}
	return replaceFile(path, text)
}
