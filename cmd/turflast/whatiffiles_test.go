package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/planfile"
)

// The terminal UI keeps what-ifs beside the plan, lists them among other files,
// and overwrites none.
func TestWhatIfFiles(t *testing.T) {
	folder := t.TempDir()
	f := whatIfFiles{&program{env: outside()}, folder}
	late, err := planfile.ParseChange("slate 2d later")
	if err != nil {
		t.Fatal(err)
	}
	set := &schedule.WhatIf{Name: "Late slate, 2 days", Changes: []schedule.Change{late}}
	file, err := f.Save(set)
	if err != nil || file != "late-slate-2-days.yaml" {
		t.Fatalf("saved as %q: %v", file, err)
	}
	if _, err := f.Save(set); err == nil || !strings.Contains(err.Error(), "is there already") {
		t.Errorf("saved over: %v", err)
	}
	if _, err := f.Save(&schedule.WhatIf{Name: "...", Changes: set.Changes}); err == nil {
		t.Error("saved under no name")
	}
	if err := os.WriteFile(filepath.Join(folder, "plan.yaml"), []byte("garden: x\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff([]string{file}, f.List()); d != "" {
		t.Error(d)
	}
	read, err := f.Open(file)
	if err != nil || read.Name != set.Name || len(read.Changes) != 1 || read.Changes[0].String() != "slate 2d later" {
		t.Errorf("read %+v: %v", read, err)
	}
	if _, err := f.Open("none.yaml"); err == nil {
		t.Error("opened a file that isn't there")
	}
	if got := (whatIfFiles{f.p, filepath.Join(folder, "none")}).List(); got != nil {
		t.Errorf("listed %v", got)
	}
	if a, b := (source{path: "a/plan.yaml"}).beside(), builtIn().beside(); a != "a" || b != "." {
		t.Errorf("kept in %q and %q", a, b)
	}
}
