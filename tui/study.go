package tui

import (
	"context"
	"slices"
	"sync/atomic"

	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/mend"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/ask/tolerance"
	"build.example/turflast/schedule/ask/whatif"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/report"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/tui/draw"
)

// study finds something out about a crew programme beside the screen. It begins when the
// view that shows it does, and is stopped when the programme is replaced.
type study struct {
	of    *solution
	stop  context.CancelFunc
	asked atomic.Int64
	looks int                         // at it while it runs, one each [again]
	mends atomic.Pointer[mend.Result] // found so far
	ended bool                        // by key: what was found so far is kept
}

// learned is what studies have found.
type learned struct {
	of    *solution // the crew programme studied; nil before there is any
	late  []tolerance.Delivery
	pairs []tolerance.Pair
	odds  *odds.Result
	fault error        // why there are no odds
	mends *mend.Result // what would mend the dates that break
}

// Messages of studies; stopped ones found nothing.
type (
	toleratedMsg struct {
		study   *study
		stopped bool
		late    []tolerance.Delivery
	}
	pairedMsg struct {
		study   *study
		stopped bool
		pairs   []tolerance.Pair
	}
	oddsMsg struct {
		study   *study
		stopped bool
		odds    *odds.Result
		fault   error
	}
	mendedMsg struct {
		study   *study
		stopped bool
		mends   *mend.Result
	}
	studyMsg struct{ study *study } // time to show its progress
)

// studied handles the messages of studies.
func (a app) studied(msg tea.Msg) (app, tea.Cmd) {
	switch msg := msg.(type) {
	case toleratedMsg:
		return a.tolerated(msg)
	case pairedMsg:
		a.lateness = nil
		if !msg.stopped {
			a.learned.pairs = msg.pairs
			return a.told(), nil
		}
	case oddsMsg:
		a.chances = nil
		if !msg.stopped {
			a.learned.odds, a.learned.fault = msg.odds, msg.fault
			return a.told(), nil
		}
	case mendedMsg:
		a.mending = nil
		if !msg.stopped || msg.study.ended {
			a.learned.mends = msg.mends
			return a.told(), nil
		}
	case studyMsg:
		return a.lookedAt(msg)
	}
	return a, nil
}

// lookedAt shows how far a study is that still runs, and asks for the next look at it.
func (a app) lookedAt(msg studyMsg) (app, tea.Cmd) {
	msg.study.looks++
	switch msg.study {
	case a.chances:
		return a, a.wait(again, msg)
	case a.lateness, a.mending:
		return a.told(), a.wait(again, msg)
	}
	return a, nil
}

// study begins the studies that the screen needs, unless they were made.
func (a app) study() (app, tea.Cmd) {
	if a.solving || a.search != nil || a.crews == nil || a.logicOnly {
		return a, nil
	}
	if a.learned.of != a.crews {
		a.learned, a.inquiries = learned{of: a.crews}, nil
	}
	a, cmd := a.studyMends()
	a, more := a.studyPage()
	next, on := a.studyLonger()
	return next, tea.Batch(cmd, more, on)
}

// studyPage begins the study that the page or the view shows.
func (a app) studyPage() (app, tea.Cmd) {
	switch {
	case a.page.kind == sturdierPage || a.page.kind == recoverPage:
		return a.inquire(a.page.kind)
	case a.page.kind != noPage:
	case a.tab == oddsTab:
		return a.studyOdds()
	case a.tab == deliveriesTab:
		return a.studyLateness()
	case a.mending == nil && a.lateness == nil:
		return a.studyOdds() // the chance stands beside the margin
	}
	return a, nil
}

// begin returns a new study of the programme that is shown.
func (a app) begin() (*study, context.Context) {
	ctx, stop := context.WithCancel(context.Background())
	return &study{of: a.crews, stop: stop}, ctx
}

// endStudies stops the studies of a programme that is replaced.
func (a app) endStudies() {
	for _, s := range []*study{a.lateness, a.chances, a.mending} {
		if s != nil {
			s.stop()
		}
	}
	for _, q := range a.inquiries {
		q.stop()
	}
	a.endLonger()
}

func (a app) studyLateness() (app, tea.Cmd) {
	known, none := a.lateness != nil || a.learned.late != nil, len(a.shown.plan.Deliveries) == 0
	if known || none || a.opts.Tolerances == nil {
		return a, nil
	}
	s, ctx := a.begin()
	a.lateness = s
	c, find := a.crews.Case, a.opts.Tolerances
	run := func() tea.Msg {
		late := find(ctx, c, func() { s.asked.Add(1) })
		return toleratedMsg{s, ctx.Err() != nil, late}
	}
	return a.told(), tea.Batch(run, a.wait(again, studyMsg{s}))
}

// tolerated shows how late each delivery may come, and begins to find out which two
// break a date together.
func (a app) tolerated(msg toleratedMsg) (app, tea.Cmd) {
	if msg.stopped {
		msg.study.stop()
		a.lateness = nil
		return a, nil
	}
	a.learned.late = msg.late
	if a.order == nil || a.shown.plan == a.shown.filed {
		a.order = nil
		for _, d := range tolerance.ByHurt(a.shown.plan, msg.late) {
			a.order = append(a.order, a.shown.plan.Deliveries[d.Delivery].ID)
		}
	}
	s, ctx := a.begin()
	msg.study.stop()
	a.lateness = s
	c, find := a.crews.Case, a.opts.Pairs
	return a.told(), func() tea.Msg {
		defer s.stop()
		pairs := find(ctx, c)
		return pairedMsg{s, ctx.Err() != nil, pairs}
	}
}

// told gives the views what is known of how late deliveries may come, and of what would
// mend a broken date.
func (a app) told() app {
	if a.garden == nil || a.waiting() {
		return a
	}
	g := *a.garden
	g.Tolerances, g.Mends, g.Chance = a.tolerances(), a.mends(), a.chance()
	a.garden = &g
	return a.give()
}

// chance says how likely the programme that is shown is on time; empty while nobody has asked
// for its odds.
func (a app) chance() string {
	if a.logicOnly || a.crews == nil || a.learned.of != a.crews || a.learned.odds == nil {
		return ""
	}
	return wording.OnTime(a.learned.odds)
}

// tolerances returns what is known so far of how late deliveries may come; nil when that
// isn't wanted. The order is of what can hurt most in the plan as filed, so that a trial
// doesn't move a row.
func (a app) tolerances() *draw.Tolerances {
	if a.opts.Tolerances == nil {
		return nil
	}
	t := &draw.Tolerances{}
	for _, id := range a.order {
		if d := a.shown.plan.FindDelivery(id); d != schedule.None {
			t.Order = append(t.Order, d)
		}
	}
	if a.crews == nil || a.learned.of != a.crews || a.logicOnly {
		return t
	}
	t.Known, t.Pairs = slices.Clone(a.learned.late), a.learned.pairs
	if s := a.lateness; s != nil && s.of == a.crews {
		t.Asked = int(s.asked.Load())
	}
	return t
}

// studyMends begins to look for what would mend the dates that break.
func (a app) studyMends() (app, tea.Cmd) {
	g := a.crews.Programme
	met := g.Blocked == nil && len(g.Breaks) == 0
	if met || a.mending != nil || a.learned.mends != nil || a.opts.Mends == nil {
		return a, nil
	}
	s, ctx := a.begin()
	a.mending = s
	c, find, near := a.crews.Case, a.opts.Mends, a.near()
	held := mend.Elsewhen(a.shown.filed, a.shown.plan)
	if a.site.file != nil {
		held = append(held, mend.Elsewhen(a.site.file, a.shown.plan)...)
	}
	run := func() tea.Msg {
		defer s.stop()
		found := find(ctx, c, near, held, s.mends.Store)
		return mendedMsg{s, ctx.Err() != nil, found}
	}
	return a.told(), tea.Batch(run, a.wait(again, studyMsg{s}))
}

// near returns the programme that others of the plan that is shown keep to: what was
// agreed or, with changes, the one without them; nil where there is none.
func (a app) near() *schedule.Programme {
	if before := a.basis.crews; a.shown.plan != a.shown.filed && before != nil {
		return whatif.Reference(before.Case, a.shown.plan)
	}
	return a.site.agreed.Programme
}

// endMends ends the search for what would mend it, and keeps what was found.
func (a app) endMends() app {
	if a.mending != nil {
		a.mending.ended = true
		a.mending.stop()
	}
	return a
}

// mends returns what would mend the dates that break in the programme that is shown, as
// far as it is known; nil while nothing is.
func (a app) mends() *mend.Result {
	if a.crews == nil || a.learned.of != a.crews || a.logicOnly {
		return nil
	}
	if s := a.mending; a.learned.mends == nil && s != nil && s.of == a.crews {
		return s.mends.Load()
	}
	return a.learned.mends
}

func (a app) studyOdds() (app, tea.Cmd) {
	c, find := a.crews.Case, a.opts.Odds
	if known := a.learned.odds; known != nil {
		find = a.harms(known)
	}
	if a.chances != nil || a.learned.fault != nil || find == nil {
		return a, nil
	}
	s, ctx := a.begin()
	a.chances = s
	run := func() tea.Msg {
		defer s.stop()
		result, err := find(ctx, c)
		return oddsMsg{s, ctx.Err() != nil, result, err}
	}
	return a, tea.Batch(run, a.wait(again, studyMsg{s}))
}

// harms finds what costs most in odds that are known, for their page; nil for any other, and once
// it is known.
func (a app) harms(known *odds.Result) func(context.Context, network.Case) (*odds.Result, error) {
	find := a.opts.Harms
	if find == nil || known.Harmed != nil || known.Certain() || a.tab != oddsTab || a.page.kind != noPage {
		return nil
	}
	return func(ctx context.Context, c network.Case) (*odds.Result, error) { return find(ctx, c, known) }
}

// oddsBeside is how many rows of the page of odds aren't the picture's.
const oddsBeside = 15

// oddsLines returns the page of the odds, or why there are none yet.
func (a app) oddsLines() []page.Text {
	known := a.crews != nil && a.learned.of == a.crews
	if known && a.learned.odds != nil {
		d := report.New(a.crews.Case).Chances(a.learned.odds)
		return draw.Lines(d, min(a.size.Width-2, page.Wide), min(max(a.size.Height-oddsBeside, 4), page.Rows))
	}
	d := &page.Document{}
	switch {
	case known && a.learned.fault != nil:
		d.In(page.Late, "There are no odds: "+a.learned.fault.Error()+".")
	case a.crews == nil && a.logicOnly:
		d.Say("Odds are those of the crew programme: " + a.keys.Scope.Help().Key + " looks for it.")
	case a.crews == nil:
		d.Say("The crew programme is looked for; then it is built many times over.")
	default:
		looks := 0
		if a.chances != nil {
			looks = a.chances.looks
		}
		d.Say("Building the garden many times over, each time with other weather, lateness and working times." +
			sofar(looks))
	}
	return a.laid(d, 2)
}
