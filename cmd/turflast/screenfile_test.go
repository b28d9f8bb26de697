package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/testdata"
)

func TestEditorOpensAtTheLine(t *testing.T) {
	for editor, want := range map[string][]string{
		"vi": {"+7", "p.yaml"}, "/usr/bin/nano": {"+7", "p.yaml"}, "hx": {"p.yaml:7"},
		"code": {"--goto", "p.yaml:7"}, "ed": {"p.yaml"},
	} {
		if got := atLine(editor, "p.yaml", 7); !slices.Equal(got, want) {
			t.Errorf("%s: %q", editor, got)
		}
	}
	for named, want := range map[string]string{
		"": "no editor is named", "no-such-editor -w": "can't open the editor no-such-editor",
	} {
		env := environment{Getenv: func(key string) string { return map[string]string{"EDITOR": named}[key] }}
		f := &screenFile{p: &program{env: env}}
		if _, err := f.Editor(1); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v", named, err)
		}
	}
}

// What the screen writes is what it has read, and is taken back to the byte; what another has
// written meanwhile stays.
func TestScreenWrites(t *testing.T) {
	path := filepath.Join(t.TempDir(), planName)
	if err := os.WriteFile(path, []byte(testdata.Starter), 0o644); err != nil {
		t.Fatal(err)
	}
	src, err := file(path)
	if err != nil {
		t.Fatal(err)
	}
	f := &screenFile{src: src}
	text, err := f.read()
	if err != nil {
		t.Fatal(err)
	}
	p, _ := planfile.Read(strings.NewReader(string(text)))
	booked, err := planfile.ParseChange("slabs on 2027-05-10 10:00")
	if err != nil {
		t.Fatal(err)
	}
	changes := []schedule.Change{booked}
	lines, err := f.Draft(p, changes)
	if err != nil || len(lines) != 1 || !strings.HasSuffix(lines[0], `is now "arrives: 2027-05-10 10:00"`) {
		t.Errorf("drafted %q, %v", lines, err)
	}
	if now, _ := f.read(); string(now) != string(text) {
		t.Fatal("a draft was written")
	}
	said, back, err := f.Write(p, changes)
	if err != nil || !strings.HasPrefix(said, "Wrote plan.yaml, line ") {
		t.Fatal(said, err)
	}
	if now, _ := os.ReadFile(path); string(now) == string(text) {
		t.Fatal("nothing was written")
	}
	if _, _, err := f.Write(p, changes); err == nil || !strings.Contains(err.Error(), "has changed since it was read") {
		t.Errorf("written over what wasn't read: %v", err)
	}
	if err := back(); err != nil {
		t.Fatal(err)
	}
	if now, _ := os.ReadFile(path); string(now) != string(text) {
		t.Error("taken back, the file reads otherwise than before")
	}
}
