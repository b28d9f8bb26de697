package tui

import (
	"fmt"
	"slices"
	"strings"

	"github.com/charmbracelet/bubbles/key"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/tui/draw"
)

// chrome returns what surrounds every view now.
func (a app) chrome() draw.Chrome {
	c := draw.Chrome{Garden: draw.Clean(a.opts.Name), Tabs: tabNames, Tab: int(a.tab)}
	c.Messages = a.messages()
	c.Keys = a.hint()
	if a.garden == nil {
		c.Status, c.Hint = "No plan yet", a.foot("")
		return c
	}
	c.Garden = draw.Clean(a.garden.Plan.Garden)
	if c.Status = a.looking(); c.Status == "" {
		c.Status = draw.Status(a.garden, 0)
		c.Hint = a.foot(c.Status)
		c.Status = draw.Status(a.garden, a.size.Width-len(c.Hint)-6)
	}
	c.Hint = a.foot(c.Status)
	c.Alarm = draw.Alarm(a.garden)
	c.Working = !a.logicOnly && a.crews == nil && !a.broken
	return c
}

// tabNames are what the views are called.
var tabNames = []string{"window", "day", "deliveries", "people", "odds"}

// hint is what the main keys of a view do.
func (a app) hint() string {
	sideways := a.moves.Left.Help().Key + " " + a.moves.Right.Help().Key
	switch a.tab {
	case dayTab:
		if a.opts.Log != nil {
			return a.day.Hint() + "   " + a.ticks.hint()
		}
		return a.day.Hint()
	case deliveriesTab:
		return a.tryKeys.StepHint() + "   " + sideways + " orders, gate list"
	case peopleTab:
		return sideways + " machine bookings, costs"
	}
	return ""
}

// foot returns what the keys do that lead to everything else, as much of it as there is
// room for beside a status.
func (a app) foot(status string) string {
	k := a.keys
	say := func(b key.Binding, does string) string { return b.Help().Key + " " + does }
	pages, help := say(k.Pages, "pages"), say(k.Help, "keys")
	for _, parts := range [][]string{
		{say(k.Find, "find"), say(k.Tasks, "tasks"), say(k.Drawer, "what if"), pages, help},
		{say(k.Find, "find"), say(k.Drawer, "what if"), pages, help},
		{pages, help},
	} {
		if text := strings.Join(parts, "  "); draw.Columns(status)+draw.Columns(text)+6 <= a.size.Width {
			return text
		}
	}
	first, _, _ := strings.Cut(status, " · ")
	if text := pages + "  " + k.Help.Help().Key; draw.Columns(first)+draw.Columns(text)+4 <= a.size.Width {
		return text
	}
	return k.Help.Help().Key
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
	for _, line := range a.draft() {
		below.Say(draw.Clean(line))
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
		if _, of := a.hits(a.prompt.text); a.prompt.text != "" {
			text += fmt.Sprintf("  %d found; ↑ ↓ go through them, enter keeps one.", of)
		}
		return text
	case linePrompt, textPrompt, pickPrompt:
		return a.tickPromptWords()
	case changePrompt:
		return fmt.Sprintf("Change: %s▁  such as %s; tab writes what is chosen",
			a.prompt.text, draw.Clean(a.typed(a.opts.Now()).ChangeExample()))
	case namePrompt:
		return "Name of the what-if: " + a.prompt.text + "▁  enter saves it"
	case writePrompt, backPrompt:
		return a.writeWords()
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
