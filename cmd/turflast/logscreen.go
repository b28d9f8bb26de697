package main

import (
	"fmt"

	"turflast/calendars"
	"turflast/cmd/turflast/logfile"
	"turflast/schedule"
	"turflast/schedule/progress"
	"turflast/schedule/sitelog"
	"turflast/schedule/wording"
	"turflast/tui"
)

// screenLog is the site log of a plan for the terminal UI.
type screenLog struct {
	p   *program
	src source
}

func (l *screenLog) Stamp() string { return logfile.Stamp(l.src.logPath()) }

func (l *screenLog) read() ([]sitelog.Event, error) {
	path := l.src.logPath()
	text, err := logfile.Read(path)
	if err != nil {
		return nil, fmt.Errorf("can't read %s: %w", path, reason(err))
	}
	events, _ := sitelog.Read(text)
	return events, nil
}

func (l *screenLog) AsAt(plan *schedule.Plan, at calendars.Instant) (*schedule.Plan, []tui.Logged, error) {
	events, err := l.read()
	if err != nil || len(events) == 0 {
		return plan, nil, err
	}
	s := progress.At(plan, events, nil, at)
	w := wording.New(plan)
	var out []tui.Logged
	for i := range s.State.Events {
		e := &s.State.Events[i]
		out = append(out, tui.Logged{ID: e.ID, Text: w.Event(e)})
	}
	return s.Plan, out, nil
}

// ticks are the kinds of event that ticks write.
var ticks = map[tui.TickKind]sitelog.Kind{
	tui.TickStarted: sitelog.Started, tui.TickFinished: sitelog.Finished, tui.TickArrived: sitelog.Arrived,
	tui.TickSigned: sitelog.Signed, tui.TickFailed: sitelog.Failed, tui.TickRefused: sitelog.Refused,
	tui.TickLeft: sitelog.Left, tui.TickPaused: sitelog.Paused, tui.TickResumed: sitelog.Resumed, tui.TickNote: sitelog.Note,
}

func (l *screenLog) Add(plan *schedule.Plan, t tui.Tick) (tui.Logged, error) {
	e := sitelog.Event{What: ticks[t.Kind], At: t.At, Text: t.Text}
	if t.Task != schedule.None {
		e.Task = plan.Tasks[t.Task].ID
	}
	if t.Delivery != schedule.None {
		e.Delivery = plan.Deliveries[t.Delivery].ID
	}
	if t.Kind == tui.TickLeft {
		left, err := calendars.ParseWork(t.Text)
		if err != nil {
			return tui.Logged{}, err
		}
		e.Left, e.Text = left, ""
	}
	return l.add(plan, e)
}

func (l *screenLog) Undo(plan *schedule.Plan, id string) (tui.Logged, error) {
	now := calendars.InstantOf(l.p.env.Now())
	return l.add(plan, sitelog.Event{What: sitelog.Undone, At: now, Of: id})
}

func (l *screenLog) add(plan *schedule.Plan, e sitelog.Event) (tui.Logged, error) {
	events, err := l.read()
	if err != nil {
		return tui.Logged{}, err
	}
	now := calendars.InstantOf(l.p.env.Now())
	e.ID, e.Written, e.By = l.p.newID(events), now, l.p.writer("")
	if err := l.p.append(plan, l.src, &e, now); err != nil {
		return tui.Logged{}, err
	}
	return tui.Logged{ID: e.ID, Text: wording.New(plan).Event(&e)}, nil
}
