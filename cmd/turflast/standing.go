package main

import (
	"fmt"
	"io"
	"path/filepath"
	"runtime/debug"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"build.example/turflast/calendars"
	"build.example/turflast/cmd/turflast/logfile"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/site/sitelog"
)

// The options that say at which moment a plan is looked at.
const (
	asAtFlag      = "as-at"
	asPlannedFlag = "as-planned"
)

// asAtWords explains in help how a plan's log counts.
const asAtWords = `Where the plan has a site log ("turflast help log"), it is taken as at now: what
has happened stays, the rest is planned anew. --as-at takes another moment,
--as-planned leaves the log aside.`

// logPath is the file of a plan's site log, beside the plan.
func (s source) logPath() string {
	if s.path == "" {
		return ""
	}
	return strings.TrimSuffix(s.path, filepath.Ext(s.path)) + ".log.jsonl"
}

// events reads the log of a plan; there are none without a log.
func (p *program) events(s source) ([]sitelog.Event, error) {
	events, _, err := p.siteLog(s)
	return events, err
}

// siteLog reads the log of a plan and prints on standard error which lines had
// to be set aside.
func (p *program) siteLog(s source) ([]sitelog.Event, []sitelog.Aside, error) {
	path := s.logPath()
	if path == "" {
		return nil, nil, nil
	}
	events, aside, err := readLog(path)
	if err != nil {
		return nil, nil, err
	}
	p.setAside(path, aside, "the line is set aside")
	return events, aside, nil
}

// longLog is how many bytes of a log are many. Beside its events no more memory is then taken
// for what isn't needed any longer than a fifth of what is.
const longLog = 16 << 20

// readLog reads a log; there are no events without one.
func readLog(path string) (events []sitelog.Event, aside []sitelog.Aside, err error) {
	err = logfile.Read(path, func(text io.ReadSeeker) (err error) {
		if size, err := text.Seek(0, io.SeekEnd); err != nil || size > longLog {
			debug.SetGCPercent(20) // its events are nearly all that the program holds, and stay
		}
		if _, err := text.Seek(0, io.SeekStart); err != nil {
			return err
		}
		events, aside, err = sitelog.ReadFrom(text)
		return err
	})
	if err != nil {
		return nil, nil, fmt.Errorf("can't read %s: %w", path, reason(err))
	}
	return events, aside, nil
}

// mostAside is how many such lines are printed one by one.
const mostAside = 5

// setAside prints the lines of a log that are no events, and what is done with
// them.
func (p *program) setAside(name string, aside []sitelog.Aside, done string) {
	for i, a := range aside {
		if more := len(aside) - i; i == mostAside && more > 1 {
			fmt.Fprintln(p.stderr, printable(fmt.Sprintf("turflast: %s: warning: so it is with %d more lines", name, more)))
			return
		}
		fmt.Fprintln(p.stderr,
			printable(fmt.Sprintf("turflast: %s:%d:%d: warning: %s; %s", name, a.Line, a.Column, a.Why, done)))
	}
}

// logged is what the log of a plan has, and the moment at which a command's options take the
// plan; Past when it is taken as planned.
func (p *program) logged(c *cobra.Command, plan *schedule.Plan, s source) ([]sitelog.Event, calendars.Instant, error) {
	if planned, err := c.Flags().GetBool(asPlannedFlag); err != nil || planned {
		return nil, calendars.Past, nil // a command without the option takes the plan as planned
	}
	events, err := p.events(s)
	if err != nil {
		return nil, calendars.Past, err
	}
	switch text, _ := c.Flags().GetString(asAtFlag); {
	case text != "":
		at, err := p.asAt(c, asAtFlag, plan, text)
		return events, at, err
	case len(events) == 0:
		return nil, calendars.Past, nil
	}
	return events, calendars.InstantOf(p.env.Now()), nil
}

// asOf is the moment that a plan stands at, or the clock's.
func (p *program) asOf(plan *schedule.Plan) calendars.Instant {
	if now := plan.Now(); now != calendars.Past {
		return now
	}
	return calendars.InstantOf(p.env.Now())
}

func addAsAt(c *cobra.Command) {
	c.Flags().String(asAtFlag, "", "the plan as at a `MOMENT`, such as \"Mon 3 May 12:00\", or 12:00 today")
	c.Flags().Bool(asPlannedFlag, false, "the plan as it is written, without its site log")
	c.MarkFlagsMutuallyExclusive(asAtFlag, asPlannedFlag)
}

// nowVariable sets the clock of a rehearsal, in RFC 3339.
const nowVariable = "TURFLAST_NOW"

// rehearsed is the clock of a rehearsal, or without one the machine's.
func rehearsed(getenv func(string) string) func() time.Time {
	if t, err := time.Parse(time.RFC3339, getenv(nowVariable)); err == nil {
		return func() time.Time { return t }
	}
	return time.Now
}

// rehearsal says what is wrong with the moment that the clock is set to. With a
// moment misread as now, a rehearsal would write to the log what hasn't
// happened.
func rehearsal(getenv func(string) string) error {
	text := getenv(nowVariable)
	if _, err := time.Parse(time.RFC3339, text); text != "" && err != nil {
		return fmt.Errorf("%s is %q; give it a moment like 2027-05-03T09:10:00+01:00, or leave it unset", nowVariable, text)
	}
	return nil
}
