package main

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"sync"
	"testing"
)

func TestCreateFileNeverOverwrites(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "plan.yaml")
	const writers = 8
	errs := make([]error, writers)
	var wg sync.WaitGroup
	for i := range writers {
		wg.Go(func() { errs[i] = createFile(path, []byte{byte('a' + i)}) })
	}
	wg.Wait()
	won := -1
	for i, err := range errs {
		switch {
		case err == nil && won >= 0:
			t.Errorf("%d and %d both wrote the file", won, i)
		case err == nil:
			won = i
		case !errors.Is(err, fs.ErrExist):
			t.Errorf("writer %d: %v", i, err)
		}
	}
	if won < 0 {
		t.Fatal("nobody wrote the file")
	}
	got, err := os.ReadFile(path)
	if err != nil || string(got) != string(rune('a'+won)) {
		t.Errorf("the file holds %q, %v; writer %d won", got, err, won)
	}
	left, err := os.ReadDir(dir)
	if err != nil || len(left) != 1 {
		t.Errorf("left behind: %v, %v", left, err)
	}
}

func TestCreateFileInAFolderThatIsNone(t *testing.T) {
	file := filepath.Join(t.TempDir(), "a")
	if err := os.WriteFile(file, nil, 0o644); err != nil {
		t.Fatal(err)
	}
	if err := createFile(filepath.Join(file, "plan.yaml"), nil); err == nil {
		t.Error("written into a file")
	}
}
