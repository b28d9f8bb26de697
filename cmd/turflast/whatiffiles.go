package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"unicode"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/planfile"
)

// whatIfFiles are the what-ifs in one folder, for the terminal UI.
type whatIfFiles struct {
	p      *program
	folder string
}

// beside is the folder in which a plan's what-ifs are kept.
func (s source) beside() string {
	if s.path == "" {
		return "."
	}
	return filepath.Dir(s.path)
}

// List names the files of the folder that hold a what-if.
func (f whatIfFiles) List() []string {
	entries, err := os.ReadDir(f.folder)
	if err != nil {
		return nil
	}
	var out []string
	for _, e := range entries {
		ext := filepath.Ext(e.Name())
		if e.IsDir() || ext != ".yaml" && ext != ".yml" {
			continue
		}
		if _, err := f.Open(e.Name()); err == nil {
			out = append(out, e.Name())
		}
	}
	slices.Sort(out)
	return out
}

// Open reads a what-if in the folder, or elsewhere by a whole path.
func (f whatIfFiles) Open(name string) (*schedule.WhatIf, error) {
	if !filepath.IsAbs(name) {
		name = filepath.Join(f.folder, name)
	}
	return f.p.readWhatIf(name)
}

// Save writes a what-if to a new file that is named after it.
func (f whatIfFiles) Save(set *schedule.WhatIf) (string, error) {
	base := fileName(set.Name)
	if base == "" {
		return "", fmt.Errorf("%q makes no file name", set.Name)
	}
	base += ".yaml"
	return base, writeWhatIf(filepath.Join(f.folder, base), set)
}

// fileName is a name in small letters and digits, with dashes between its words.
func fileName(name string) string {
	words := strings.FieldsFunc(strings.ToLower(name),
		func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	return strings.Join(words, "-")
}

// writeWhatIf writes a what-if to a new file, after checking that it can be
// read back.
func writeWhatIf(path string, set *schedule.WhatIf) error {
	var b bytes.Buffer
	if err := planfile.WriteWhatIf(&b, set); err != nil {
		return err
	}
	if _, problems := planfile.ReadWhatIf(bytes.NewReader(b.Bytes())); problems.Fatal() {
		return &problemsError{path, problems}
	}
	return createFile(path, b.Bytes())
}
