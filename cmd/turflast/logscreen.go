package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"build.example/turflast/calendars"
	"build.example/turflast/cmd/turflast/logfile"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/sitelog"
	"build.example/turflast/tui"
)

// screenLog is the site log of a plan for the terminal UI.
type screenLog struct {
	p   *program
	src source
}

// Stamp changes with the log, the baselines and the issues, which are read together.
func (l *screenLog) Stamp() string {
	agreed, _ := l.src.frozenFiles("baseline") // an error shows when they are read
	issued, _ := l.src.frozenFiles("issue")
	return fmt.Sprint(logfile.Stamp(l.src.logPath()), " ", agreed, issued)
}

// Writer is who the user is.
func (l *screenLog) Writer() string { return l.p.writer("") }

func (l *screenLog) Read() ([]sitelog.Event, []sitelog.Aside, error) {
	return readLog(l.src.logPath())
}

func (l *screenLog) Append(plan *schedule.Plan, events ...sitelog.Event) ([]sitelog.Event, string, error) {
	before, _, err := l.Read()
	if err != nil {
		return nil, "", err
	}
	var made []sitelog.Event
	now := calendars.InstantOf(l.p.env.Now())
	for _, e := range events {
		e.ID, e.Written, e.By = l.p.newID(before, made), now, l.p.writer("")
		made = append(made, e)
	}
	_, said, err := appendTo(l.src.logPath(), plan, made, now)
	return made, said, err
}

// standAt sets the terminal UI to the moment that its options name.
func (p *program) standAt(c *cobra.Command, src source, opts *tui.Options) error {
	if planned, err := c.Flags().GetBool(asPlannedFlag); err != nil || planned {
		opts.Log, opts.Agree = nil, nil
		return err
	}
	text, err := c.Flags().GetString(asAtFlag)
	if err != nil || text == "" || strings.EqualFold(text, "now") {
		return err
	}
	plan, _, err := p.load(src)
	if err != nil || plan == nil {
		return err // the screen shows what is wrong with a plan
	}
	at, err := p.asAt(c, asAtFlag, plan, text)
	if err != nil {
		return err
	}
	opts.Now, opts.Agree = func() calendars.Instant { return at }, nil
	if opts.Log != nil {
		opts.Log = reviewedLog{opts.Log, wording.New(plan).Moment(at)}
	}
	return nil
}

// reviewedLog is a log that is looked at as at another moment than now: nothing
// is added to it.
type reviewedLog struct {
	tui.Log
	at string
}

func (l reviewedLog) Append(*schedule.Plan, ...sitelog.Event) ([]sitelog.Event, string, error) {
	return nil, "", fmt.Errorf("this is the plan as at %s; open it without --%s to log what happens", l.at, asAtFlag)
}
