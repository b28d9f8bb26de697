package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/site/sitelog"
	"build.example/turflast/testdata"
)

// The terminal UI stands at the moment given, and logs only when that is now.
func TestTheScreenStandsAtAMoment(t *testing.T) {
	path := filepath.Join(t.TempDir(), planName)
	if err := os.WriteFile(path, []byte(testdata.Demo), 0o644); err != nil {
		t.Fatal(err)
	}
	now := calendars.InstantOf(outside().Now())
	noon := calendars.InstantOf(time.Date(2027, 5, 3, 11, 0, 0, 0, time.UTC))
	for _, c := range []struct {
		flag, value string
		at          calendars.Instant
		logs        bool
		refused     string
	}{
		{"", "", now, true, ""},
		{asPlannedFlag, "true", now, false, ""},
		{asAtFlag, "2027-05-03 12:00", noon, true,
			"this is the plan as at Mon 3 May 12:00; open it without --as-at to log what happens"},
		{asAtFlag, "now", now, true, ""},
	} {
		var stdout, stderr bytes.Buffer
		p := &program{stdin: strings.NewReader(""), stdout: &stdout, stderr: &stderr, env: outside("USER=Ann")}
		root := p.openCommand()
		if c.flag != "" {
			if err := root.Flags().Set(c.flag, c.value); err != nil {
				t.Fatal(err)
			}
		}
		src, err := file(path)
		if err != nil {
			t.Fatal(err)
		}
		opts := p.screen(src)
		if err := p.standAt(root, src, &opts); err != nil {
			t.Fatal(err)
		}
		if opts.Now() != c.at || (opts.Log != nil) != c.logs {
			t.Errorf("--%s %s: now %d, not %d; a log: %t", c.flag, c.value, opts.Now(), c.at, opts.Log != nil)
		}
		if opts.Log == nil {
			continue
		}
		plan, _ := opts.Load()
		said := ""
		if _, _, err := opts.Log.Append(plan, sitelog.Event{What: sitelog.Note, At: now, Text: "hello"}); err != nil {
			said = err.Error()
		}
		if said != c.refused {
			t.Errorf("--%s %s: %q, not %q", c.flag, c.value, said, c.refused)
		}
	}
}
