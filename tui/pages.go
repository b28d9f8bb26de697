package tui

import (
	"slices"
	"strings"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/report"
	"build.example/turflast/tui/draw"
)

// overlay is a screen of lines over the views. Where its lines can be chosen one is.
type overlay struct {
	kind   pageKind
	top    int
	chosen int               // index of a line of a list
	of     schedule.Activity // that the page is about, of aboutPage
	query  string            // words that are looked for on it
	hit    int               // index of the line with them
}

type pageKind uint8

const (
	noPage pageKind = iota
	helpPage
	pagesPage
	tasksPage
	aboutPage
	chainPage
	waysPage
	problemsPage
	loggedPage
	movesPage
	slipPage
	longerPage
	ordersPage
	gatePage
	bookingsPage
	appointmentsPage
	readyPage
	sturdierPage
	recoverPage
	peoplePage
	costPage
)

// pageOf is a page: what stands above it, the key that opens it, with what it is, and its
// lines. A page without a key is opened from the list of pages or beside its view.
type pageOf struct {
	kind    pageKind
	heading string
	key     key.Binding
	lines   func(app) []page.Text
	early   bool // it is told before there is a garden, too
}

// pages lists the pages in the order in which the list of pages has them.
func (a app) pages() []pageOf {
	unkeyed := func(is string) key.Binding { return key.NewBinding(key.WithHelp("", is)) }
	m := a.keys
	return []pageOf{
		{kind: tasksPage, heading: "ALL TASKS, THE TIGHTEST FIRST", key: m.Tasks, lines: app.taskLines},
		{kind: chainPage, heading: "WHAT DRIVES THE DATE", key: m.Chain, lines: app.chainLines},
		{kind: waysPage, heading: "WAYS OUT: WHAT WOULD MEND IT", key: m.Ways, lines: app.waysLines},
		{kind: recoverPage, heading: "WHAT TO BUY", lines: app.inquiryLines,
			key: unkeyed("the cheapest of the plan's measures that bring every date back")},
		{kind: sturdierPage, heading: "STURDIER PROGRAMMES", lines: app.inquiryLines,
			key: unkeyed("programmes with a better chance to hand over on time")},
		{kind: longerPage, heading: "A LONGER SEARCH", key: m.Longer, lines: app.longerLines},
		{kind: slipPage, heading: "WHAT SLIPPED", key: m.Slip, lines: app.slipLines},
		{kind: loggedPage, heading: "WHAT HAS BEEN LOGGED", key: m.Logged, lines: app.loggedLines, early: true},
		{kind: problemsPage, heading: "PROBLEMS", key: m.Problems, lines: app.problemLines, early: true},
		{kind: movesPage, heading: "WHAT THE CHANGES DO", key: a.tryKeys.Moves, lines: app.movesLines},
		{kind: ordersPage, heading: "ORDERS TO PLACE", lines: app.sheetLines,
			key: unkeyed("orders to place, by date")},
		{kind: gatePage, heading: "THROUGH THE GATE", lines: app.sheetLines,
			key: unkeyed("the gate list: what comes and goes, by slot")},
		{kind: bookingsPage, heading: "MACHINE BOOKINGS", lines: app.sheetLines,
			key: unkeyed("machines: what to book, what to give back")},
		{kind: peoplePage, heading: "PEOPLE AND MACHINES BY HALF DAY", lines: app.sheetLines,
			key: unkeyed("heads and machines by half day, as a list")},
		{kind: costPage, heading: "WHAT IT COSTS", lines: app.sheetLines,
			key: unkeyed("what it costs by the plan's rates, and what it could spare")},
		{kind: appointmentsPage, heading: "APPOINTMENTS", lines: app.sheetLines,
			key: unkeyed("who must come when to sign something off")},
		{kind: readyPage, heading: "HAND-OVER LIST", lines: app.sheetLines,
			key: unkeyed("what still stands between the garden and its hand-over")},
		{kind: helpPage, heading: "KEYS", key: m.Help, lines: app.helpLines, early: true},
	}
}

// pageOf describes a page that is shown.
func (a app) pageOf(kind pageKind) pageOf {
	switch kind {
	case noPage:
		return pageOf{heading: "HOW LIKELY IT IS", lines: app.oddsLines}
	case pagesPage:
		return pageOf{heading: "VIEWS AND PAGES", lines: app.indexLines, early: true}
	case aboutPage:
		heading := ""
		if a.garden != nil && a.page.of != schedule.Nothing {
			heading = strings.ToUpper(a.garden.Name(a.page.of))
		}
		return pageOf{heading: heading, lines: app.aboutLines}
	}
	for _, p := range a.pages() {
		if p.kind == kind {
			return p
		}
	}
	return pageOf{}
}

// pageFor returns the page that a key opens; noPage for any other key.
func (a app) pageFor(press tea.KeyMsg) pageKind {
	if key.Matches(press, a.keys.Pages) {
		return pagesPage
	}
	for _, p := range a.pages() {
		if key.Matches(press, p.key) && (p.kind != movesPage || a.page.kind == movesPage || len(a.want.trials.List()) > 0) {
			return p.kind
		}
	}
	return noPage
}

// open shows a page, or closes it when it is shown.
func (a app) open(kind pageKind) app {
	if a.page.kind == kind {
		kind = noPage
	}
	a.page = overlay{kind: kind, of: a.chosen()}
	return a
}

// beside are the pages that stand beside a view, the view itself first.
func (t tab) beside() []pageKind {
	switch t {
	case deliveriesTab:
		return []pageKind{noPage, ordersPage, gatePage}
	case peopleTab:
		return []pageKind{noPage, bookingsPage, costPage, peoplePage}
	}
	return nil
}

// sideways goes to the page beside a view, or back; ok is false for any other key.
func (a app) sideways(k tea.KeyMsg) (next app, ok bool) {
	by := 0
	switch {
	case key.Matches(k, a.moves.Left):
		by = -1
	case key.Matches(k, a.moves.Right):
		by = 1
	}
	list := a.tab.beside()
	for i, kind := range list {
		if by != 0 && kind == a.page.kind {
			a.page = overlay{kind: list[(i+by+len(list))%len(list)], of: schedule.Nothing}
			return a, true
		}
	}
	return a, false
}

// onPage handles a key that moves about on a page; ok is false for any other.
func (a app) onPage(k tea.KeyMsg) (next app, ok bool) {
	if a.page.kind == noPage && a.tab != oddsTab {
		return a, false
	}
	c, lines := a.chrome(), a.pageLines()
	room := draw.PageRoom(c, a.size)
	by, ok := a.moves.Lines(k, room, len(lines))
	if !ok {
		return a, false
	}
	was := a.page
	if a.page.kind.lists() {
		a.page.chosen = max(min(a.page.chosen+by, len(lines)-1), 0)
		a.page.top = max(min(a.page.top, a.page.chosen), a.page.chosen-room+1)
	} else {
		a.page.top = max(min(a.page.top+by, len(lines)-room), 0)
	}
	if a.page == was {
		a.notice = a.nothing(k, "there is nothing further that way")
	}
	return a, true
}

// lists says whether a line of the page is chosen.
func (k pageKind) lists() bool { return k == pagesPage || k == tasksPage }

// viewPage draws the page or, while there is no garden, why there is none.
func (a app) viewPage(c draw.Chrome) string {
	look := draw.PageLook{Top: a.page.top, Find: a.page.query}
	lines := a.pageLines()
	if a.page.kind.lists() {
		look.Chosen = min(a.page.chosen+1, len(lines))
	}
	return draw.List(c, a.heading(), lines, look, a.size, a.opts.Theme)
}

// heading is what stands above the page.
func (a app) heading() string {
	name := draw.Clean(a.opts.Name)
	switch {
	case a.page.kind == noPage && a.garden == nil && a.broken:
		return name + " can't be shown"
	case a.page.kind == noPage && a.garden == nil:
		return "Reading " + name
	}
	return a.pageOf(a.page.kind).heading
}

// laid lays a document out, narrower than the screen by a number of columns.
func (a app) laid(d *page.Document, less int) []page.Text {
	return draw.Lines(d, a.size.Width-less, page.Rows)
}

// wide is the most columns that a page of sentences takes: longer lines are hard to read.
const wide = 96

// read lays a page out to be read.
func (a app) read(d *page.Document) []page.Text {
	return draw.Lines(d, min(a.size.Width-2, wide), page.Rows)
}

// pageLines returns the lines of the page that is shown.
func (a app) pageLines() []page.Text {
	p := a.pageOf(a.page.kind)
	switch {
	case a.garden != nil || p.early:
		return p.lines(a)
	case a.broken:
		return a.problemLines()
	}
	return nil
}

// chainLines tells what drives the date.
func (a app) chainLines() []page.Text { return draw.ChainLines(a.garden, a.size.Width) }

// movesLines tells what the changes of the what-if do.
func (a app) movesLines() []page.Text {
	if a.garden.Trial == nil {
		d := &page.Document{}
		d.Say("No change is in force: " + a.keys.Drawer.Help().Key + " opens the what-if.")
		return a.laid(d, 4)
	}
	return a.laid(draw.Moves(a.garden), 4)
}

// aboutLines tells all about one activity.
func (a app) aboutLines() []page.Text {
	of := a.page.of
	if of == schedule.Nothing || !a.garden.Shown(of) {
		d := &page.Document{}
		d.Say("It has no place in this programme.")
		return a.laid(d, 2)
	}
	d := &page.Document{}
	d.Say(a.garden.Sentence(of))
	d.Say(a.garden.Words.Tight(a.garden.Programme, a.tightOf(of)))
	why := report.New(a.garden.Case).Why(of, nil).Blocks // from its first heading or gap on: the rest is said
	d.Add(why[max(slices.IndexFunc(why, parts), 0):]...)
	return a.read(d)
}

// parts says whether a block ends a paragraph of a page.
func parts(b page.Block) bool {
	switch b.(type) {
	case page.Heading, page.Space:
		return true
	}
	return false
}

// waysLines tells what would mend the dates that break.
func (a app) waysLines() []page.Text {
	d := &page.Document{}
	breaks := a.garden.Programme.Breaks
	for _, b := range breaks {
		d.In(page.Late, page.BreakMark+a.garden.Words.Break(b))
	}
	a.garden.BeyondOn(d)
	a.garden.MendsOn(d)
	switch {
	case len(breaks) == 0 && a.garden.Programme.Blocked == nil:
		d.Say("No date breaks: there is nothing to mend.")
	case a.opts.Mends == nil:
		d.Say("What would mend it isn't looked for here.")
	case a.mends() == nil:
		d.Say("What would mend it is looked for once the crew programme is found.")
	}
	return a.read(d)
}

// sheetLines returns the page of a sheet.
func (a app) sheetLines() []page.Text {
	return a.once(func() []page.Text { return a.laid(a.sheet(), 2) })
}

// sheet is the document of the sheet that is shown.
func (a app) sheet() *page.Document {
	r, s := report.New(a.garden.Case), report.NewSheets(a.garden.Book())
	switch a.page.kind {
	case ordersPage:
		return s.Orders(a.opts.Now())
	case gatePage:
		return s.Gate(nil)
	case bookingsPage:
		return r.Bookings()
	case costPage:
		return r.Cost()
	case appointmentsPage:
		return s.Appointments()
	case readyPage:
		return s.Ready(a.garden.Book().Ready(a.opts.Now()))
	}
	return r.Heads()
}

// once returns the lines of the page that is shown, which are made again only for another
// garden or width.
func (a app) once(lines func() []page.Text) []page.Text {
	k := sheetKey{a.page.kind, a.garden, a.size.Width}
	if a.sheets.of != k {
		*a.sheets = sheetLines{k, lines()}
	}
	return a.sheets.lines
}

// sheetKey is what the lines of a sheet depend on.
type sheetKey struct {
	kind  pageKind
	of    *draw.Garden
	width int
}

// sheetLines is a sheet as it was laid out last.
type sheetLines struct {
	of    sheetKey
	lines []page.Text
}

// problemLines returns what is wrong with the file, what is odd in the log, and the
// dates that break.
func (a app) problemLines() []page.Text {
	d := &page.Document{}
	if a.failed != "" {
		d.In(page.Late, a.opts.Name+": "+a.failed)
	}
	for _, p := range a.problems {
		role := page.Late
		if p.Warning {
			role = page.Plain
		}
		d.In(role, a.opts.Name+":"+p.String())
	}
	a.misfits(d)
	if a.garden != nil {
		for _, b := range a.garden.Programme.Breaks {
			d.In(page.Late, page.BreakMark+a.garden.Words.Break(b))
		}
		a.garden.BeyondOn(d)
		a.garden.MendsOn(d)
	}
	if len(d.Blocks) == 0 {
		d.Say("None: the file reads without a fault, and no date breaks.")
	}
	return a.laid(d, 4)
}
