package tui

import (
	"fmt"
	"slices"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

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
)

// pageKeys are what a page's keys do.
type pageKeys struct{ Up, Down key.Binding }

func (k pageKeys) list() []key.Binding { return []key.Binding{k.Up, k.Down} }

func (p overlay) keys() pageKeys {
	return pageKeys{
		Up:   key.NewBinding(key.WithKeys("up", "pgup"), key.WithHelp("↑", "scroll up")),
		Down: key.NewBinding(key.WithKeys("down", "pgdown"), key.WithHelp("↓", "scroll down")),
	}
}

// scrolled moves a page of so many lines; page up and down by half a screen.
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

// viewPage draws the page, or while there is no garden what keeps it.
func (a app) viewPage(c draw.Chrome) string {
	heading := map[pageKind]string{
		noPage: "Reading " + draw.Clean(a.opts.Name), helpPage: "HELP",
		chainPage: "WHAT DRIVES THE DATE", peoplePage: "PEOPLE AND MACHINES BY HALF DAY", problemsPage: "PROBLEMS",
		oddsPage: "HOW LIKELY IT IS", loggedPage: "WHAT HAS BEEN LOGGED", movesPage: "WHAT THE CHANGES DO", slipPage: "WHAT SLIPPED",
	}[a.page.kind]
	if a.garden == nil && a.broken && a.page.kind == noPage {
		heading = draw.Clean(a.opts.Name) + " can't be shown"
	}
	return draw.Page(c, heading, a.pageLines(), a.page.top, a.size, a.opts.Theme)
}

// pageLines are the lines of the page that is shown.
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
	case movesPage:
		return draw.MovesLines(a.garden, a.size)
	}
	return nil
}

// helpLines are the keys of every view and the marks.
func (a app) helpLines() []page.Text {
	lines := keyLines("In every view", a.keys.list())
	day := a.day.Keys()
	if a.opts.Log != nil {
		day = append(slices.Clip(day), a.ticks.list()...)
	}
	for _, v := range []struct {
		name string
		keys []key.Binding
	}{{"In the window", a.window.Keys()}, {"In the day", day}, {"In the deliveries", a.deliveries.Keys()},
		{"While the what-if is open, with what is chosen", a.tryKeys.List()}, {"On a page such as this", a.page.keys().list()}} {
		lines = append(append(lines, nil), keyLines(v.name, v.keys)...)
	}
	return append(append(lines, nil), draw.Legend(a.size.Width)...)
}

// problemLines are what is wrong with the file, and the dates that break.
func (a app) problemLines() []page.Text {
	var lines []page.Text
	add := func(st page.Role, format string, args ...any) {
		lines = append(lines, draw.Told(st, "", "", fmt.Sprintf(format, args...), max(a.size.Width-4, 10))...)
	}
	if a.failed != "" {
		add(page.Late, "%s: %s", a.opts.Name, a.failed)
	}
	for _, p := range a.problems {
		st := page.Late
		if p.Warning {
			st = page.Plain
		}
		add(st, "%s:%s", a.opts.Name, p)
	}
	a.standingLines(add)
	if a.garden != nil {
		for _, b := range a.garden.Programme.Breaks {
			add(page.Late, "! %s %s", a.garden.Words.Break(b), a.garden.Words.Remedy(b))
		}
	}
	if len(lines) == 0 {
		add(page.Plain, "None: the file reads without a fault, and no date breaks.")
	}
	return lines
}

// chrome is what stands around every view now.
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

// messages are the lines above the hand-over: what is typed, what breaks, what
// is only a trial, what is filtered, and what the last key did.
func (a app) messages() []page.Text {
	var out []page.Text
	add := func(text string, st page.Role) {
		out = append(out, draw.Told(st, "", "", text, max(a.size.Width-2, 1))...)
	}
	if a.broken && a.garden != nil {
		add("! "+a.brokenWords(), page.Late)
	}
	if a.garden != nil {
		a.programmeMessages(add)
	}
	out = append(out, a.drawerLines()...)
	add(a.notice, page.Plain)
	if a.garden != nil {
		add(a.tickedWords(), page.Strong)
	}
	add(a.promptWords(), page.Strong)
	if a.prompt.fault != "" {
		add("! "+a.prompt.fault, page.Late)
	}
	return out
}

// programmeMessages are what must be said of the programme that is shown.
func (a app) programmeMessages(add func(string, page.Role)) {
	g := a.garden
	if a.drawer && g.Trial != nil && a.page.kind == noPage {
		return // it says so itself
	}
	if g.Programme.Blocked != nil || g.Words.Impossible(g.Programme) {
		add("! "+draw.Clean(g.Words.Verdict(g.Programme)), page.Late)
	} else if n := len(g.Programme.Breaks); n > 0 {
		text := "! " + draw.Clean(g.Words.Break(g.Programme.Breaks[0]))
		if n > 1 {
			text = fmt.Sprintf("%s And %d more: p lists them.", text, n-1)
		}
		add(text, page.Late)
	}
	if text := draw.Clean(g.Words.LeftOut(g.Programme)); text != "" {
		add(text, page.Strong)
	}
	for _, text := range g.Rebookings() {
		add(text, page.Strong)
	}
	add(a.trialWords(), page.Strong)
	if a.filter != "" && a.prompt.kind != filterPrompt {
		add(filterWords(g, a.filter)+" esc shows all.", page.Strong)
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
		return "Change: " + a.prompt.text + "▁  such as slate 2d later, drop pots, wet on 2027-05-04; tab writes what is chosen"
	case namePrompt:
		return "Name of the what-if: " + a.prompt.text + "▁  enter saves it"
	case openPrompt:
		return fmt.Sprintf("Open: %s▁  %s here; tab goes through them", draw.Clean(a.prompt.text), wording.Count(len(a.prompt.names), "what-if", "what-ifs"))
	case filterPrompt:
		text := "Show only: " + a.prompt.text + "▁"
		if a.garden != nil && a.prompt.text != "" {
			text += "  " + filterWords(a.garden, a.prompt.text)
		}
		return text
	}
	return ""
}
