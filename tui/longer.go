package tui

import (
	"context"
	"fmt"

	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/ask/whatif"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/tui/draw"
)

// Longer is a search that goes on in steps from the crew programme of a plan. Its steps
// run beside the screen, one at a time.
type Longer interface {
	// Step goes on by one step, or ends soon after the context does.
	Step(context.Context) (Further, error)
}

// Further is what a longer search knows after some steps.
type Further struct {
	Steps  int               // taken
	Better network.Case      // checked; without a programme while none is better than the first
	Bound  calendars.Instant // nothing better is done before it; 0 when nothing is proven
	Proven bool              // it is proven that none is better, whatever more steps do
}

// longer is the longer search of a crew programme, which is offered what it finds.
type longer struct {
	of     *solution
	search Longer
	stop   context.CancelFunc // of the step that runs; nil when none does
	known  Further
	to     int          // it goes on until so many steps are taken
	asked  bool         // by key: it doesn't wait until nothing else runs
	failed bool         // its check refused a programme, so that it offers nothing
	taking bool         // its offer is being written as a baseline
	offer  *draw.Garden // the better programme with what moves; nil when there is none
}

// Messages of a longer search.
type (
	steppedMsg struct {
		search  *longer
		stopped bool
		known   Further
		err     error
	}
	takenMsg struct {
		search *longer
		said   string
		err    error
	}
)

// studyLonger takes a step of a longer search where there is nothing else to do and the
// plan as filed may have a better programme, or where a key has asked for it.
func (a app) studyLonger() (app, tea.Cmd) {
	if a.opts.Longer == nil || a.shown.plan != a.basis.plan || a.want.plan != a.shown.plan {
		return a, nil
	}
	if a.longer == nil || a.longer.of != a.crews {
		a.longer = &longer{
			of: a.crews, to: a.opts.Steps, search: a.opts.Longer(a.shown.plan, a.site.agreed.Programme),
		}
	}
	l := a.longer
	idle := a.lateness == nil && a.chances == nil && a.mending == nil
	if l.over() || !idle && !l.asked {
		return a, nil
	}
	ctx, stop := context.WithCancel(context.Background())
	l.stop = stop
	return a, func() tea.Msg {
		defer stop()
		known, err := l.search.Step(ctx)
		return steppedMsg{l, ctx.Err() != nil, known, err}
	}
}

// over says whether no step is to be taken now.
func (l *longer) over() bool {
	ended := l.stop != nil || l.taking || l.failed || l.known.Proven || l.known.Steps >= l.to
	return ended || !l.asked && settledBest(l.of)
}

// settledBest says whether a programme is proven best and leaves nothing to be wished
// for, so that looking on by itself would bring nothing.
func settledBest(s *solution) bool {
	g := s.Programme
	if g.Blocked != nil || len(g.Breaks) > 0 || !g.Bound.IsReal() || g.Finish > g.Bound {
		return false
	}
	for i := range g.Tasks {
		if g.Tasks[i].Dropped {
			return false
		}
	}
	return true
}

// stepped takes what a step found, and offers it.
func (a app) stepped(msg steppedMsg) app {
	l := msg.search
	l.stop = nil
	if l != a.longer || msg.stopped {
		return a
	}
	if msg.err != nil {
		l.failed, l.offer = true, nil
		a.notice = "! " + draw.Clean(msg.err.Error())
		return a
	}
	l.known = msg.known
	if msg.known.Better.Model != nil && msg.known.Better.Programme != nil {
		diff := whatif.Compare(l.of.Case, msg.known.Better)
		l.offer = &draw.Garden{
			Case: msg.known.Better, Filed: a.shown.filed, Words: a.words, Trial: draw.NewTrial(diff),
		}
	}
	return a
}

// endLonger stops the step of a longer search that runs.
func (a app) endLonger() {
	if a.longer != nil && a.longer.stop != nil {
		a.longer.stop()
	}
}

// offered returns the better programme that may be taken now; nil when there is none.
func (a app) offered() *draw.Garden {
	if a.longer == nil || a.longer.taking || a.longer.of != a.crews || a.logicOnly || a.shown.plan != a.shown.filed {
		return nil
	}
	return a.longer.offer
}

// lookOn opens the page of the longer search, or closes it, and has it go on if it came
// to its end.
func (a app) lookOn() app {
	a = a.open(longerPage)
	if a.page.kind != longerPage {
		return a
	}
	if l := a.longer; l != nil && l.of == a.crews && !a.logicOnly {
		l.asked = true
		if l.known.Steps >= l.to {
			l.to += max(a.opts.Steps, 1)
		}
	}
	return a
}

// takeOffer writes the better programme as the newest baseline.
func (a app) takeOffer() (app, tea.Cmd) {
	offer, agree := a.offered(), a.opts.Agree
	switch {
	case offer == nil:
		a.notice = wording.NothingFound
		return a, nil
	case agree == nil:
		a.notice = wording.NotToTake
		return a, nil
	}
	a.endLonger()
	l := a.longer
	l.taking = true // so that it is taken once
	return a, func() tea.Msg {
		said, err := agree(offer.Case, wording.LongerWhy)
		return takenMsg{l, said, err}
	}
}

// taken says what became of a programme that was taken, and has the plan solved anew
// near it.
func (a app) taken(msg takenMsg) (app, tea.Cmd) {
	if msg.err != nil {
		msg.search.taking = false
		a.notice = "! " + draw.Clean(msg.err.Error())
		return a, nil
	}
	if a.page.kind == longerPage {
		a.page = overlay{}
	}
	a.notice = draw.Clean(msg.said)
	return a, a.readLog()
}

// offerWords says that a better programme may be taken; empty when there is none.
func (a app) offerWords() string {
	g := a.offered()
	if g == nil || a.page.kind == longerPage {
		return ""
	}
	return draw.Clean(a.words.Offered(g.Programme, g.Trial.Moved(), a.keys.Longer.Help().Key, a.takeKey()))
}

// longerLines returns the page of the longer search: how far it is, what is proven, and
// what it found with all that moves.
func (a app) longerLines() []page.Text {
	d := &page.Document{}
	l := a.longer
	switch {
	case a.opts.Longer == nil:
		d.Say(wording.NothingFound)
	case a.logicOnly:
		d.Say(fmt.Sprintf(wording.LongerOfCrews, a.keys.Scope.Help().Key))
	case a.shown.plan != a.shown.filed:
		d.Say(fmt.Sprintf(wording.LongerAsFiled, a.keys.Undo.Help().Key))
	case a.crews == nil || l == nil || l.of != a.crews:
		d.Say(wording.LongerLater)
	default:
		a.longerOn(d, l)
	}
	return a.laid(d, 4)
}

func (a app) longerOn(d *page.Document, l *longer) {
	if !l.known.Proven || l.known.Steps > 0 {
		d.Say(wording.LongerBy(l.known.Steps, l.to, l.stop != nil))
	}
	if l.offer == nil {
		d.In(page.Strong, a.words.Longer(max(l.known.Bound, l.of.Programme.Bound), l.known.Proven))
		return
	}
	if l.known.Proven {
		d.Say(a.words.Longer(0, true))
	}
	draw.Offer(d, l.offer, a.takeKey())
}

// takeKey is the key that takes what is offered; empty where it can't be taken.
func (a app) takeKey() string {
	if a.opts.Agree == nil {
		return ""
	}
	return a.keys.Take.Help().Key
}
