package report

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/sitelog"
)

// SiteLog is the log of a plan, or the part of it that is about one date.
type SiteLog struct {
	plan   *schedule.Plan
	words  *wording.Writer
	events []sitelog.Event
	aside  []sitelog.Aside
	state  *sitelog.State
	why    map[sitelog.Event]string // the reason, for each event that doesn't count
	on     *calendars.Date

	numbers map[string]int // within the day, by the id of the event
}

// NewSiteLog is the report on the events of a plan's log and on the lines set aside.
// With a date it lists only the events that happened on it.
func NewSiteLog(p *schedule.Plan, events []sitelog.Event, aside []sitelog.Aside, on *calendars.Date) *SiteLog {
	l := &SiteLog{
		plan: p, words: wording.New(p), events: events, aside: aside, on: on,
		state: sitelog.Replay(events, calendars.Never), why: make(map[sitelog.Event]string),
	}
	l.numbers = sitelog.Numbers(events, func(at calendars.Instant) calendars.Date {
		return calendars.DateIn(at, p.Site.Location)
	})
	for _, c := range l.state.Conflicts {
		l.why[c.Event] = c.Why
	}
	return l
}

// Page lists the events by day, in the order in which they happened.
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
		switch mark {
		case markBreak:
			table.As(page.Late, 1)
		case markUndone:
			table.As(page.Quiet, 2)
		}
	}
	if len(l.aside) > 0 {
		w.Heading("Lines set aside")
		for _, a := range l.aside {
			w.Say(wording.SetAside(a))
		}
	}
	return w
}

func (l *SiteLog) title() string {
	return l.words.LogTitle(len(l.events), len(l.state.Undone), len(l.state.Conflicts), markUndone, markBreak)
}

// line returns the mark of an event, and what is said about it.
func (l *SiteLog) line(e *sitelog.Event) (mark, text string) {
	remark := ""
	why, unknown := l.why[*e], sitelog.Known(l.plan, e)
	switch {
	case l.state.Undone[e.ID]:
		mark, remark = markUndone, wording.TakenBack
	case why != "":
		mark, remark = markBreak, wording.NotCounted(why)
	case unknown != nil:
		mark, remark = markBreak, unknown.Error()
	}
	return mark, l.words.LogLine(l.events, e, l.numbers[e.ID], remark)
}
