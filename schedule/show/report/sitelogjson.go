package report

import (
	"bytes"
	"encoding/json"
	"io"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/site/sitelog"
)

// LogFormat and LogVersion name the shape that [SiteLog.JSON] writes; see [Format].
const (
	LogFormat  = "turflast.log"
	LogVersion = 1
)

// loggedEvent is an event and what is said of it.
type loggedEvent struct {
	Event    json.RawMessage `json:"event"`
	Sentence string          `json:"sentence"`
	Undone   bool            `json:"undone,omitempty"`
	Conflict string          `json:"conflict,omitempty"`
	Unknown  string          `json:"unknown,omitempty"`
}

type asideLine struct {
	Line   int    `json:"line"`
	Column int    `json:"column"`
	Torn   bool   `json:"torn,omitempty"`
	Why    string `json:"why"`
	Text   string `json:"text"`
}

// JSON writes the log as one object.
//
//	format               "turflast.log"
//	version              1
//	garden               name
//	events[].event       the event as its line in the log has it
//	events[].sentence    what happened, in words
//	events[].undone      true when another event takes it back
//	events[].conflict    why it doesn't count
//	events[].unknown     what of it the plan hasn't got
//	aside[].line         number of a line that is no event
//	aside[].column       where its fault is, in bytes from 1
//	aside[].torn         true when the writing of the last line was cut off
//	aside[].why          what is wrong with it
//	aside[].text         the line
//
// The error is the writer's.
func (l *SiteLog) JSON(out io.Writer) error {
	o := struct {
		Format  string        `json:"format"`
		Version int           `json:"version"`
		Garden  string        `json:"garden"`
		Events  []loggedEvent `json:"events"`
		Aside   []asideLine   `json:"aside,omitempty"`
	}{Format: LogFormat, Version: LogVersion, Garden: l.plan.Garden, Events: []loggedEvent{}}
	for i := range l.events {
		e := &l.events[i]
		if l.on != nil && *l.on != calendars.DateIn(e.At, l.plan.Site.Location) {
			continue
		}
		x := loggedEvent{
			Event: bytes.TrimSpace(e.Line(l.plan.Site.Location)), Sentence: l.words.EventIn(l.events, e),
			Undone: l.state.Undone[e.ID], Conflict: l.why[*e],
		}
		if err := sitelog.Known(l.plan, e); err != nil {
			x.Unknown = err.Error()
		}
		o.Events = append(o.Events, x)
	}
	for _, a := range l.aside {
		o.Aside = append(o.Aside, asideLine{a.Line, a.Column, a.Torn, a.Why, a.Text})
	}
	return encode(out, o)
}
