package report

import (
	"bytes"
	"encoding/json"
	"io"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/sitelog"
)

// siteLog is what [SiteLog.JSON] writes.
type siteLog struct {
	Format  string        `json:"format" const:"turflast.log"`
	Version int           `json:"version" const:"1"`
	Garden  string        `json:"garden" doc:"its name"`
	Events  []loggedEvent `json:"events" doc:"in the order in which they were true"`
	Aside   []asideLine   `json:"aside,omitempty" doc:"lines that are no events"`
}

// loggedEvent is an event and what is said about it.
type loggedEvent struct {
	Event    json.RawMessage `json:"event" doc:"the event as its line in the log has it"`
	Number   int             `json:"number" doc:"by which people call it, with the date on which it was true"`
	Sentence string          `json:"sentence" doc:"what happened, in words"`
	Undone   bool            `json:"undone,omitempty" doc:"another event takes it back"`
	Conflict string          `json:"conflict,omitempty" doc:"why it doesn't count"`
	Unknown  string          `json:"unknown,omitempty" doc:"what of it the plan hasn't got"`
}

type asideLine struct {
	Line   int    `json:"line" doc:"its number, from 1"`
	Column int    `json:"column" doc:"where its fault is, in bytes from 1"`
	Torn   bool   `json:"torn,omitempty" doc:"the writing of the last line was cut off"`
	Why    string `json:"why" doc:"what is wrong with it"`
	Text   string `json:"text" doc:"the line"`
}

// JSON writes the log as one JSON object. The error is the writer's.
func (l *SiteLog) JSON(out io.Writer) error {
	o := siteLog{Garden: l.plan.Garden}
	for i := range l.events {
		e := &l.events[i]
		if l.on != nil && *l.on != calendars.DateIn(e.At, l.plan.Site.Location) {
			continue
		}
		x := loggedEvent{
			Event: bytes.TrimSpace(e.Line(l.plan.Site.Location)), Sentence: l.words.EventIn(l.events, e),
			Number: l.numbers[e.ID],
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
	return kinds.Write(out, l.plan, o)
}

// merged is what [MergedJSON] writes.
type merged struct {
	Added     int             `json:"taken_over" doc:"events that this log hadn't got"`
	Conflicts []eventConflict `json:"conflicts" doc:"events that can't be beside others"`
}

type eventConflict struct {
	Event    string `json:"event" doc:"its id"`
	Sentence string `json:"sentence" doc:"why it doesn't count"`
}

// MergedJSON writes what the merge of another log did as one JSON object: how many
// events were taken over, and which contradict others. The error is the writer's.
func MergedJSON(out io.Writer, p *schedule.Plan, added int, conflicts []sitelog.Conflict) error {
	o, words := merged{Added: added}, wording.New(p)
	for i := range conflicts {
		c := &conflicts[i]
		o.Conflicts = append(o.Conflicts, eventConflict{c.Event.ID, words.Conflict(c)})
	}
	return kinds.Write(out, p, o)
}
