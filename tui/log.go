package tui

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/issue"
	"build.example/turflast/schedule/site/progress"
	"build.example/turflast/schedule/site/sitelog"
	"build.example/turflast/tui/draw"
)

// Log is the site log of the plan that is shown, which others may write to as
// well. Its methods run beside the screen.
type Log interface {
	// Stamp changes whenever the log does.
	Stamp() string

	// Read returns all that is logged, and the lines that aren't events.
	Read() ([]sitelog.Event, []sitelog.Aside, error)

	// Writer is who writes the events of this screen.
	Writer() string

	// Append adds events of a plan to the log, with ids, a writer and the moment of
	// writing. Without an error all are kept for good; else none is, and the error says
	// why. said is a sentence on what else had to be done, or empty.
	Append(p *schedule.Plan, events ...sitelog.Event) (logged []sitelog.Event, said string, err error)
}

// Agreed is what the baselines of a plan say, and what was issued by it.
type Agreed struct {
	Programme *schedule.Programme // the newest baseline's, of the plan; nil when there is none
	Number    int                 // the newest baseline's
	Numbered  []sheets.Record     // what baselines and issues have numbered, oldest first
	Issues    []*issue.Issue      // oldest first
	Planned   *schedule.Programme // when each task was to be, as agreed or issued last; nil where neither was
}

// logEvery is how often, in minutes, a plan as at now is made again while nothing
// happens, since work in hand goes on.
const logEvery calendars.Minutes = 5

// Messages about the log.
type (
	logPollMsg struct{}
	logStatMsg struct{ stamp string }
	logReadMsg struct {
		file     *schedule.Plan // the plan that the rest is about
		planned  *schedule.Plan // the same with what the log adds and cancels
		standing *progress.Standing
		events   []sitelog.Event
		aside    []sitelog.Aside
		agreed   Agreed
		at       calendars.Instant
		stamp    string // of the log before it was read
		err      error
	}
	addedMsg struct {
		events []sitelog.Event
		said   string
		err    error
	}
)

// siteLog is what is known of the log.
type siteLog struct {
	file     *schedule.Plan // as it was read from the file
	planned  *schedule.Plan // the same with what the log adds and cancels
	stamp    string
	read     bool               // the log was read since the plan's file was
	at       calendars.Instant  // the moment of the plan that is wanted
	known    map[string]bool    // events seen, by id; nil before the first are
	standing *progress.Standing // nil while nothing is logged
	aside    []sitelog.Aside
	agreed   Agreed
	events   []sitelog.Event // all that is logged
	numbers  map[string]int  // by which people call them within a day, by id
	mine     map[string]bool // ids of the events that this screen has written
	busy     bool            // an event is being written
	leaving  bool            // the UI ends after that
	ticked   *ticked         // what the last tick did; nil once that was closed
}

// ticked is a tick and the margin before it.
type ticked struct {
	words, before string
	undoes        bool // a key takes it back
}

// pollLog waits for the next look at the log.
func pollLog() tea.Cmd {
	return tea.Tick(pollEvery, func(time.Time) tea.Msg { return logPollMsg{} })
}

// statLog looks at the log.
func statLog(l Log) tea.Cmd {
	return func() tea.Msg { return logStatMsg{l.Stamp()} }
}

// readLog reads the log and the baselines, and makes the plan as at now. While nothing
// has happened, there is no standing and the file's plan is used.
func (a app) readLog() tea.Cmd {
	l, file, now, agreed, written := a.opts.Log, a.site.file, a.opts.Now, a.opts.Agreed, a.opts.Written
	if l == nil || file == nil {
		return nil
	}
	return func() tea.Msg {
		msg := logReadMsg{file: file, stamp: l.Stamp(), at: now()}
		if msg.events, msg.aside, msg.err = l.Read(); msg.err != nil {
			return msg
		}
		msg.planned = sitelog.Planned(file, msg.events, msg.at)
		if agreed != nil {
			if msg.agreed, msg.err = agreed(msg.planned); msg.err != nil {
				return msg
			}
		}
		if len(msg.events) > 0 {
			if msg.agreed.Planned == nil && written != nil {
				msg.agreed.Planned = written(file, msg.planned)
			}
			msg.standing = progress.At(msg.planned, msg.events, msg.agreed.Programme, msg.at)
			if !slices.ContainsFunc(msg.standing.State.Events, func(e *sitelog.Event) bool { return e.What != sitelog.Undone }) {
				msg.standing = nil // all is taken back
			}
		}
		return msg
	}
}

// logMessage handles the messages about the log.
func (a app) logMessage(msg tea.Msg) (app, tea.Cmd) {
	switch msg := msg.(type) {
	case logPollMsg:
		return a, statLog(a.opts.Log)
	case logStatMsg:
		stale := a.site.standing != nil && a.opts.Now() >= a.site.at.Plus(logEvery)
		if a.site.read && (stale || msg.stamp != a.site.stamp) {
			return a, tea.Batch(a.readLog(), pollLog())
		}
		return a, pollLog()
	case logReadMsg:
		return a.logRead(msg)
	case addedMsg:
		return a.added(msg)
	}
	return a, nil
}

// logRead shows the plan as at now, and says what others have logged since.
func (a app) logRead(msg logReadMsg) (app, tea.Cmd) {
	if msg.file != a.site.file {
		return a, nil // the file has been read again, and the log with it
	}
	a.site.stamp = msg.stamp
	if msg.err != nil {
		a.notice = "! The log or a baseline can't be used: " + draw.Clean(msg.err.Error())
		if !a.site.read {
			a.site.read = true
			return a.take(msg.file)
		}
		return a, nil
	}
	first, known := a.site.known == nil, map[string]bool{}
	var news []sitelog.Event
	for _, e := range msg.events {
		if !a.site.known[e.ID] && !first {
			news = append(news, e)
		}
		known[e.ID] = true
	}
	a.site.read, a.site.known, a.site.at = true, known, msg.at
	a.site.events, a.site.numbers = msg.events, sitelog.Numbers(msg.events, a.dayOf)
	a.site.standing, a.site.aside, a.site.agreed = msg.standing, msg.aside, msg.agreed
	a.site.planned = msg.planned
	if words := newsWords(msg.planned, news, msg.at); words != "" {
		a.notice = words
	}
	if msg.standing == nil {
		return a.take(msg.planned)
	}
	return a.take(msg.standing.Plan)
}

// newsWords says what others have logged, the last event in full.
func newsWords(p *schedule.Plan, news []sitelog.Event, now calendars.Instant) string {
	if len(news) == 0 {
		return ""
	}
	last := slices.MaxFunc(news, func(a, b sitelog.Event) int {
		return cmp.Or(cmp.Compare(a.Written, b.Written), cmp.Compare(a.ID, b.ID))
	})
	return draw.Clean(wording.New(p).News(&last, now, len(news)-1))
}

// numbers returns the short numbers: those that baselines and issues have given, then the
// plan's as filed, whatever is tried.
func (a app) numbers() *sheets.Numbers {
	return sheets.NumberLike(a.shown.plan, a.shown.filed, a.site.agreed.Numbered...)
}

// misfits adds what can't be used in the log, and what went otherwise than planned.
func (a app) misfits(d *page.Document) {
	for _, x := range a.site.aside {
		d.In(page.Late, wording.AsideInBrief(&x))
	}
	s := a.site.standing
	if s == nil {
		return
	}
	words := wording.New(s.Plan)
	for _, x := range s.State.Accidents {
		if x.Closed == 0 {
			d.In(page.Late, draw.Clean(words.OpenAccident(&x)))
		}
	}
	for _, c := range s.State.Conflicts {
		d.In(page.Late, draw.Clean(words.ConflictInBrief(&c)))
	}
	for _, e := range s.Unknown {
		d.In(page.Plain, draw.Clean(words.UnknownInBrief(&e)))
	}
	for _, o := range s.Overdue {
		d.In(page.Late, words.OverdueInBrief(o))
	}
	for _, o := range s.OutOfOrder {
		d.In(page.Plain, words.OutOfOrderInBrief(o))
	}
	for _, x := range s.Together {
		d.In(page.Plain, words.TogetherInBrief(x))
	}
}

// eventWords says what an event logs and when, without a full stop. A moment on the date
// of beside has only its time.
func eventWords(w *wording.Writer, e *sitelog.Event, beside calendars.Instant) string {
	return draw.Clean(w.EventWhen(e, beside))
}

// loggedLines lists the events in force, the newest first, only as far as the next key
// can scroll.
func (a app) loggedLines() []page.Text {
	s, d := a.site.standing, &page.Document{}
	if s == nil || a.words == nil {
		text := "Nothing yet. In the day, " + a.ticks.Tick.Help().Key + " and a number tick a line off."
		if a.opts.Log == nil {
			text = noLog
		}
		d.Say(text)
		return a.laid(d, 2)
	}
	words, day := a.words, ""
	for _, e := range slices.Backward(s.State.Events) {
		if len(d.Blocks) > a.page.top+2*a.size.Height {
			break
		}
		date := words.Day(calendars.DateIn(e.At, s.Plan.Site.Location))
		if date != day {
			d.In(page.Strong, date)
			day = date
		}
		text := fmt.Sprintf("%s no. %d  %s", words.Time(e.At), a.site.numbers[e.ID],
			draw.Clean(words.EventIn(a.site.events, e)+wording.By(e)))
		d.Add(page.Paragraph{Mark: "  ", Text: page.As(page.Plain, text), Hang: 6})
	}
	return a.laid(d, 4)
}
