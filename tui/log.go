package tui

import (
	"fmt"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"turflast/calendars"
	"turflast/schedule"
	"turflast/tui/draw"
)

// Log is the site log of the plan that is shown, which others may write to as
// well. Its methods run beside the screen, one call of each at a time.
type Log interface {
	// Stamp changes whenever the log does.
	Stamp() string

	// AsAt is the plan as at a moment by the log, or the plan itself while the log
	// is empty, and what is logged, oldest first.
	AsAt(p *schedule.Plan, at calendars.Instant) (*schedule.Plan, []Logged, error)

	// Add writes an event of the plan. When it answers without an error the event
	// is kept for good. The error says why it can't have been, or isn't kept.
	Add(p *schedule.Plan, t Tick) (Logged, error)

	// Undo takes an event back likewise.
	Undo(p *schedule.Plan, id string) (Logged, error)
}

// Logged is one event of the log: its id, and what happened as a sentence
// without a full stop.
type Logged struct{ ID, Text string }

// TickKind says what a tick logs.
type TickKind uint8

// The kinds of tick.
const (
	TickStarted  TickKind = iota
	TickFinished          // the work of a task
	TickArrived           // a lorry
	TickSigned            // a hold point
	TickFailed            // likewise; Text says why
	TickRefused           // a lorry, at the gate; Text says why
	TickLeft              // Text is the work that is left of a task
	TickPaused            // Text says why
	TickResumed
	TickNote // Text, of a task, a delivery or neither
)

// Tick is one thing that has happened to a task or a delivery.
type Tick struct {
	Kind     TickKind
	Task     schedule.TaskID     // or None
	Delivery schedule.DeliveryID // or None
	At       calendars.Instant
	Text     string
}

// logEvery is how often a plan as at now is made anew while nothing happens: its
// work in hand goes on.
const logEvery calendars.Minutes = 5

// Messages about the log.
type (
	logPollMsg struct{}
	logStatMsg struct{ stamp string }
	logReadMsg struct {
		file   *schedule.Plan // that the rest is of
		plan   *schedule.Plan
		logged []Logged
		at     calendars.Instant
		stamp  string // of the log before it was read
		err    error
	}
	addedMsg struct {
		logged Logged
		undoes string // the event that is taken back; empty when none is
		err    error
	}
)

// siteLog is what is known of the log.
type siteLog struct {
	file   *schedule.Plan // as it was read from the file
	stamp  string
	read   bool              // at least once since the file was
	at     calendars.Instant // of the plan that is wanted
	known  map[string]bool   // events seen, by id
	logged []Logged
	mine   []Logged // events of this screen that aren't taken back, oldest first
	busy   bool     // one is being written
	digits int      // keys pressed for lines
	ticked *ticked  // what the last tick did; nil once it has been said
}

// ticked is a tick and the margin before it.
type ticked struct{ words, before string }

// pollLog waits for the next look at the log.
func pollLog() tea.Cmd {
	return tea.Tick(pollEvery, func(time.Time) tea.Msg { return logPollMsg{} })
}

// statLog looks at the log.
func statLog(l Log) tea.Cmd {
	return func() tea.Msg { return logStatMsg{l.Stamp()} }
}

// readLog reads the log, and makes the plan as at now by it.
func (a app) readLog() tea.Cmd {
	l, file, now := a.opts.Log, a.site.file, a.opts.Now
	if l == nil || file == nil {
		return nil
	}
	return func() tea.Msg {
		msg := logReadMsg{file: file, stamp: l.Stamp(), at: now()}
		msg.plan, msg.logged, msg.err = l.AsAt(file, msg.at)
		return msg
	}
}

// logMessage answers the messages about the log.
func (a app) logMessage(msg tea.Msg) (app, tea.Cmd) {
	switch msg := msg.(type) {
	case logPollMsg:
		return a, statLog(a.opts.Log)
	case logStatMsg:
		stale := len(a.site.logged) > 0 && a.opts.Now() >= a.site.at.Plus(logEvery)
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
		return a, nil // the file has been read anew, and the log with it
	}
	a.site.stamp = msg.stamp
	if msg.err != nil {
		a.notice = "! The log can't be used: " + draw.Clean(msg.err.Error())
		if !a.site.read {
			a.site.read = true
			return a.take(msg.file)
		}
		return a, nil
	}
	first, known := a.site.known == nil, map[string]bool{}
	var news []Logged
	for _, e := range msg.logged {
		if !a.site.known[e.ID] && !first {
			news = append(news, e)
		}
		known[e.ID] = true
	}
	a.site.read, a.site.known, a.site.logged, a.site.at = true, known, msg.logged, msg.at
	if words := newsWords(news); words != "" {
		a.notice = words
	}
	return a.take(msg.plan)
}

// newsWords say what others have logged.
func newsWords(news []Logged) string {
	if len(news) == 0 {
		return ""
	}
	text := "From the log: " + draw.Clean(news[len(news)-1].Text) + "."
	if n := len(news) - 1; n > 0 {
		text += fmt.Sprintf(" And %d before it.", n)
	}
	return text
}
