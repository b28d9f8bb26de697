package tui

import (
	"context"
	"fmt"
	"sync/atomic"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/sturdier"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/report"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/tui/draw"
)

// inquiry works out what a page tells of the crew programme. It begins when the page is
// opened, and goes on beside the screen when it is closed.
type inquiry struct {
	stop  context.CancelFunc
	over  bool
	doc   *page.Document                 // the answer; nil when there is none
	fault string                         // why there is none
	looks int                            // at it while it is worked out, one each [again]
	soFar atomic.Pointer[sturdier.SoFar] // nil before the first word of it
}

// lookMsg is the time to look at an inquiry again.
type lookMsg struct{ inquiry *inquiry }

// inquired handles the messages of inquiries.
func (a app) inquired(msg tea.Msg) (app, tea.Cmd) {
	switch msg := msg.(type) {
	case inquiredMsg:
		msg.inquiry.answer(msg)
	case lookMsg:
		if !msg.inquiry.over {
			msg.inquiry.looks++
			return a, a.wait(again, msg)
		}
	}
	return a, nil
}

// sofar says for how long something has been worked out after a number of looks; empty
// for less than a second.
func sofar(looks int) string {
	if s := int(time.Duration(looks) * again / time.Second); s > 0 {
		return fmt.Sprintf(" %d s so far.", s)
	}
	return ""
}

// inquiredMsg is what an inquiry found.
type inquiredMsg struct {
	inquiry *inquiry
	doc     *page.Document
	err     error
}

// answer takes what was found.
func (q *inquiry) answer(msg inquiredMsg) {
	q.over, q.doc = true, msg.doc
	if msg.err != nil {
		q.fault = draw.Clean(msg.err.Error())
	}
}

// inquire begins what a page works out, unless that was begun.
func (a app) inquire(kind pageKind) (app, tea.Cmd) {
	if a.inquiries[kind] != nil {
		return a, nil
	}
	c, near := a.crews.Case, a.near()
	ctx, stop := context.WithCancel(context.Background())
	q := &inquiry{stop: stop}
	find := map[pageKind]func(context.Context) (*page.Document, error){}
	if ask := a.opts.Sturdier; ask != nil {
		find[sturdierPage] = func(ctx context.Context) (*page.Document, error) {
			found, err := ask(ctx, c, func(f sturdier.SoFar) { q.soFar.Store(&f) })
			if err != nil {
				return nil, err
			}
			return report.New(c).Sturdier(found), nil
		}
	}
	if ask := a.opts.Recover; ask != nil {
		find[recoverPage] = func(ctx context.Context) (*page.Document, error) {
			found, err := ask(ctx, c, near)
			if err != nil {
				return nil, err
			}
			return report.New(c).Recovery(found, &schedule.Prices{}), nil
		}
	}
	work := find[kind]
	if work == nil {
		stop()
		return a, nil
	}
	all := map[pageKind]*inquiry{kind: q}
	for k, other := range a.inquiries {
		all[k] = other
	}
	a.inquiries = all
	run := func() tea.Msg {
		defer stop()
		doc, err := work(ctx)
		return inquiredMsg{q, doc, err}
	}
	return a, tea.Batch(run, a.wait(again, lookMsg{q}))
}

// sturdier says how far a search for sturdier programmes is.
func (q *inquiry) sturdier() string {
	f := q.soFar.Load()
	if f == nil {
		return "Looking for programmes with a better chance, each built many times over with the same draws."
	}
	said := wording.SturdierSoFar(f.Step, f.Steps, f.Tried, f.Planned, f.SameMargin, f.Sturdiest)
	return wording.Capital(said) + "."
}

// inquiryLines tells what was worked out, or what is waited for.
func (a app) inquiryLines() []page.Text {
	d, q := &page.Document{}, a.inquiries[a.page.kind]
	if q != nil && q.doc != nil && a.learned.of == a.crews {
		return a.read(q.doc)
	}
	asked := map[pageKind]bool{sturdierPage: a.opts.Sturdier != nil, recoverPage: a.opts.Recover != nil}
	switch {
	case !asked[a.page.kind]:
		d.Say("That isn't worked out here.")
	case a.logicOnly:
		d.Say("That is told of the crew programme: " + a.keys.Scope.Help().Key + " shows it.")
	case a.crews == nil || q == nil:
		d.Say(wording.LongerLater)
	case q.fault != "":
		d.In(page.Late, "! "+q.fault)
	case a.page.kind == sturdierPage:
		d.Say(q.sturdier() + sofar(q.looks))
	default:
		d.Say("Looking for the cheapest measures that bring every date back." + sofar(q.looks))
	}
	return a.laid(d, 2)
}
