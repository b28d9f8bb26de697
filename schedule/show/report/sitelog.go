package report

import (
	"fmt"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/sitelog"
)

// SiteLog is the log of a plan, all of it or one date.
type SiteLog struct {
	plan   *schedule.Plan
	words  *wording.Writer
	events []sitelog.Event
	aside  []sitelog.Aside
	state  *sitelog.State
	why    map[sitelog.Event]string // of those that don't count
	on     *calendars.Date
}

// NewSiteLog is the report on the events of a plan's log and on what was set aside.
// With a date it is about the events that were true on it.
func NewSiteLog(p *schedule.Plan, events []sitelog.Event, aside []sitelog.Aside, on *calendars.Date) *SiteLog {
	l := &SiteLog{
		plan: p, words: wording.New(p), events: events, aside: aside, on: on,
		state: sitelog.Replay(events, calendars.Never), why: make(map[sitelog.Event]string),
	}
	for _, c := range l.state.Conflicts {
		l.why[c.Event] = c.Why
	}
	return l
}

// ShortID is the part of an event's id by which people call it: its last eight
// characters.
func ShortID(id string) string {
	all := []rune(id)
	return string(all[max(0, len(all)-8):])
}

// Marks before an event: taken back, doesn't count.
const (
	markUndone  = "-"
	markCounted = ""
)

// Page writes the events by day, in the order in which they were true. The error is
// the writer's.
func (l *SiteLog) Page() *page.Document {
	w := &page.Document{}
	w.Say(l.title())
	day, table := calendars.Date(-1), (*page.Table)(nil)
	for i := range l.events {
		e := &l.events[i]
		on := calendars.DateIn(e.At, l.plan.Site.Location)
		if l.on != nil && *l.on != on {
			continue
		}
		if on != day {
			w.Heading(l.words.Day(on))
			table, day = w.Table(0, page.Column{Room: len("07:00"), Gap: 2}, page.Column{Room: 1, Gap: 1}, page.Column{}), on
		}
		mark, text := l.line(e)
		table.Row(l.words.Time(e.At), mark, text)
	}
	if len(l.aside) > 0 {
		w.Heading("Lines set aside")
		for _, a := range l.aside {
			w.Say(fmt.Sprintf("Line %d, column %d: %s.", a.Line, a.Column, a.Why))
		}
	}
	return w
}

func (l *SiteLog) title() string {
	if len(l.events) == 0 {
		return l.plan.Garden + ", site log: nothing is logged yet."
	}
	parts := []string{wording.Count(len(l.events), "event", "events")}
	if n := len(l.state.Undone); n > 0 {
		parts = append(parts, fmt.Sprintf("%d taken back (%s)", n, markUndone))
	}
	if n := len(l.state.Conflicts); n > 0 {
		parts = append(parts, wording.Count(n, "doesn't count", "don't count")+" ("+markBreak+")")
	}
	return l.plan.Garden + ", site log: " + strings.Join(parts, ", ") + "."
}

// line is an event with who wrote it, its short id, and what is to be said of it.
func (l *SiteLog) line(e *sitelog.Event) (mark, text string) {
	parts := []string{l.words.EventIn(l.events, e)}
	if e.By != "" {
		parts = append(parts, e.By)
	}
	if e.Written < e.At || e.Written > e.At.Plus(calendars.Hour) {
		parts = append(parts, "written "+l.words.Then(e.Written, e.At))
	}
	parts = append(parts, ShortID(e.ID))
	mark = markCounted
	why := l.why[*e]
	switch {
	case l.state.Undone[e.ID]:
		mark = markUndone
		parts = append(parts, "taken back")
	case why != "":
		mark = markBreak
		parts = append(parts, "doesn't count: "+why)
	case sitelog.Known(l.plan, e) != nil:
		mark = markBreak
		parts = append(parts, sitelog.Known(l.plan, e).Error())
	}
	return mark, strings.Join(parts, " · ")
}
