package tui

import (
	"fmt"
	"slices"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/tui/draw"
)

// overlay is a screen of lines over the views.
type overlay struct {
	kind pageKind
	top  int
}

type pageKind uint8

const (
	noPage pageKind = iota
	helpPage
	chainPage
	peoplePage
	problemsPage
	oddsPage
	loggedPage
	movesPage
	slipPage
	longerPage
)

// pageKeys is what a page's keys do.
type pageKeys struct{ Up, Down key.Binding }

func (k pageKeys) list() []key.Binding { return []key.Binding{k.Up, k.Down} }

func (p overlay) keys() pageKeys {
	return pageKeys{
		Up:   key.NewBinding(key.WithKeys("up", "pgup"), key.WithHelp("↑", "scroll up")),
		Down: key.NewBinding(key.WithKeys("down", "pgdown"), key.WithHelp("↓", "scroll down")),
	}
}

// scrolled scrolls a page of a number of lines: by a line, or by half a screen with page
// up and down.
func (p overlay) scrolled(k tea.KeyMsg, lines, height int) overlay {
	by := 1
	if k.Type == tea.KeyPgUp || k.Type == tea.KeyPgDown {
		by = max(height/2, 1)
	}
	if key.Matches(k, p.keys().Up) {
		by = -by
	}
	p.top = max(min(p.top+by, lines-height/2), 0)
	return p
}

// open shows a page, or closes it when it is shown.
func (a app) open(kind pageKind) app {
	if a.page.kind == kind {
		kind = noPage
	}
	a.page = overlay{kind: kind}
	return a
}

// viewPage draws the page or, while there is no garden, why there is none.
func (a app) viewPage(c draw.Chrome) string {
	heading := map[pageKind]string{
		noPage: "Reading " + draw.Clean(a.opts.Name), helpPage: "HELP", problemsPage: "PROBLEMS",
		chainPage: "WHAT DRIVES THE DATE", peoplePage: "PEOPLE AND MACHINES BY HALF DAY", oddsPage: "HOW LIKELY IT IS",
		loggedPage: "WHAT HAS BEEN LOGGED", movesPage: "WHAT THE CHANGES DO", slipPage: "WHAT SLIPPED",
		longerPage: "A LONGER SEARCH",
	}[a.page.kind]
	if a.garden == nil && a.broken && a.page.kind == noPage {
		heading = draw.Clean(a.opts.Name) + " can't be shown"
	}
	return draw.Page(c, heading, a.pageLines(), a.page.top, a.size, a.opts.Theme)
}

// laid lays a document out, narrower than the screen by a number of columns.
func (a app) laid(d *page.Document, less int) []page.Text {
	return draw.Lines(d, a.size.Width-less, page.Rows)
}

// pageLines returns the lines of the page that is shown.
func (a app) pageLines() []page.Text {
	switch {
	case a.page.kind == helpPage:
		return a.helpLines()
	case a.page.kind == loggedPage:
		return a.loggedLines()
	case a.page.kind == problemsPage, a.garden == nil && a.broken:
		return a.problemLines()
	case a.garden == nil:
		return nil
	}
	switch a.page.kind {
	case chainPage:
		return draw.ChainLines(a.garden, a.size.Width)
	case peoplePage:
		return a.peopleLines()
	case oddsPage:
		return a.oddsLines()
	case slipPage:
		return a.slipLines()
	case longerPage:
		return a.longerLines()
	case movesPage:
		return a.laid(draw.Moves(a.garden), 4)
	}
	return nil
}

// helpLines returns the keys of every view and the marks.
func (a app) helpLines() []page.Text {
	d := &page.Document{}
	keyLines(d, "In every view", a.keys.list())
	day := a.day.Keys()
	if a.opts.Log != nil {
		day = append(slices.Clip(day), a.ticks.list()...)
	}
	for _, v := range []struct {
		name string
		keys []key.Binding
	}{
		{"In the window", a.window.Keys()}, {"In the day", day}, {"In the deliveries", a.deliveries.Keys()},
		{"While the what-if is open, with what is chosen", a.tryKeys.List()},
		{"On a page such as this", a.page.keys().list()},
	} {
		d.Space()
		keyLines(d, v.name, v.keys)
	}
	d.Space()
	return append(a.laid(d, 2), a.laid(draw.Legend(), 3)...)
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

// chrome returns what surrounds every view now.
func (a app) chrome() draw.Chrome {
	c := draw.Chrome{Garden: draw.Clean(a.opts.Name), Tabs: []string{"window", "day", "deliveries"}, Tab: int(a.tab)}
	c.Hint = a.keys.Help.Help().Key + " " + a.keys.Help.Help().Desc
	c.Messages = a.messages()
	c.Keys = map[tab]string{dayTab: a.day.Hint(), deliveriesTab: a.deliveries.Hint()}[a.tab]
	if a.tab == dayTab && a.opts.Log != nil {
		c.Keys += "   " + a.ticks.hint()
	}
	if a.garden == nil {
		c.Status = "No plan yet"
		return c
	}
	c.Garden = draw.Clean(a.garden.Plan.Garden)
	if c.Status = a.looking(); c.Status == "" {
		c.Status = draw.Status(a.garden, a.size.Width-len(c.Hint)-6)
	}
	c.Alarm = draw.Alarm(a.garden)
	return c
}

// messages returns the lines above the hand-over: what breaks, what is only a trial,
// what is filtered, what the last key did, and what is typed.
func (a app) messages() []page.Text {
	above, below := &page.Document{}, &page.Document{}
	if a.broken && a.garden != nil {
		above.In(page.Late, page.BreakMark+a.brokenWords())
	}
	if a.garden != nil {
		a.programmeMessages(above)
	}
	below.Say(a.notice)
	if a.garden != nil {
		below.In(page.Strong, a.tickedWords())
	}
	below.In(page.Strong, a.promptWords())
	if a.prompt.fault != "" {
		below.In(page.Late, page.BreakMark+a.prompt.fault)
	}
	return slices.Concat(a.laid(above, 2), a.drawerLines(), a.laid(below, 2))
}

// programmeMessages adds what must be said of the programme that is shown.
func (a app) programmeMessages(d *page.Document) {
	g := a.garden
	if a.drawer && g.Trial != nil && a.page.kind == noPage {
		return // the drawer says so itself
	}
	if g.Programme.Blocked != nil || g.Words.Impossible(g.Programme) {
		d.In(page.Late, page.BreakMark+g.Words.Verdict(g.Programme))
	} else if n := len(g.Programme.Breaks); n > 0 {
		text := page.BreakMark + g.Words.Break(g.Programme.Breaks[0])
		if n > 1 {
			text = fmt.Sprintf("%s And %d more: p lists them.", text, n-1)
		}
		d.In(page.Late, text)
	}
	d.In(page.Strong, g.Words.LeftOut(g.Programme))
	for i := range g.Plan.Deliveries {
		d.In(page.Strong, g.Words.Rebooked(g.Plan, g.Programme, schedule.DeliveryID(i)))
	}
	d.In(page.Strong, a.trialWords())
	d.In(page.Strong, a.offerWords())
	if a.filter != "" && a.prompt.kind != filterPrompt {
		d.In(page.Strong, filterWords(g, a.filter)+" esc shows all.")
	}
}

func (a app) brokenWords() string {
	text := a.failed
	for _, p := range a.problems {
		if text == "" && !p.Warning {
			text = p.String()
		}
	}
	return draw.Clean("The last good plan is shown: " + a.opts.Name + ":" + text)
}

func (a app) promptWords() string {
	switch a.prompt.kind {
	case findPrompt:
		text := "Find: " + a.prompt.text + "▁"
		if a.garden != nil && a.prompt.text != "" {
			text += fmt.Sprintf("  %d found; ↑ ↓ go through them, enter keeps one.", len(found(a.garden, a.prompt.text)))
		}
		return text
	case linePrompt, textPrompt:
		return a.tickPromptWords()
	case changePrompt:
		return "Change: " + a.prompt.text +
			"▁  such as slate 2d later, drop pots, wet on 2027-05-04; tab writes what is chosen"
	case namePrompt:
		return "Name of the what-if: " + a.prompt.text + "▁  enter saves it"
	case openPrompt:
		return fmt.Sprintf("Open: %s▁  %s here; tab goes through them", draw.Clean(a.prompt.text),
			wording.Count(len(a.prompt.names), "what-if", "what-ifs"))
	case filterPrompt:
		text := "Show only: " + a.prompt.text + "▁"
		if a.garden != nil && a.prompt.text != "" {
			text += "  " + filterWords(a.garden, a.prompt.text)
		}
		return text
	}
	return ""
}
