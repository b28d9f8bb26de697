package main

import (
	"fmt"

	"turflast/calendars"
	"turflast/cmd/turflast/logfile"
	"turflast/schedule"
	"turflast/schedule/sitelog"
)

// screenLog is the site log of a plan for the terminal UI.
type screenLog struct {
	p   *program
	src source
}

// Stamp changes with the log, and with the baselines, which are read with it.
func (l *screenLog) Stamp() string {
	agreed, _ := l.src.baselineFiles() // reading them tells of an error
	return fmt.Sprint(logfile.Stamp(l.src.logPath()), " ", agreed)
}

func (l *screenLog) Read() ([]sitelog.Event, []sitelog.Aside, error) {
	path := l.src.logPath()
	text, err := logfile.Read(path)
	if err != nil {
		return nil, nil, fmt.Errorf("can't read %s: %w", path, reason(err))
	}
	events, aside := sitelog.Read(text)
	return events, aside, nil
}

func (l *screenLog) Append(plan *schedule.Plan, e sitelog.Event) (logged sitelog.Event, said string, err error) {
	events, _, err := l.Read()
	if err != nil {
		return e, "", err
	}
	now := calendars.InstantOf(l.p.env.Now())
	e.ID, e.Written, e.By = l.p.newID(events), now, l.p.writer("")
	said, err = appendTo(l.src.logPath(), plan, &e, now)
	return e, said, err
}
