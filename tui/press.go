package tui

import (
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// eachPressed handles one by one the keys that came so fast that the terminal library
// read them as one, such as those of a key held down. A paste stays one.
//
// A key that came right after esc is read as one with alt, which means nothing here: it is
// taken as the two.
func (a app) eachPressed(k tea.KeyMsg) (app, tea.Cmd) {
	if k.Alt {
		a, cmd := a.pressed(tea.KeyMsg{Type: tea.KeyEsc})
		k.Alt = false
		next, more := a.eachPressed(k)
		return next, tea.Batch(cmd, more)
	}
	if k.Type != tea.KeyRunes || len(k.Runes) < 2 || k.Paste {
		return a.pressed(k)
	}
	var cmds []tea.Cmd
	for _, r := range k.Runes {
		one := k
		one.Runes = []rune{r}
		var cmd tea.Cmd
		a, cmd = a.pressed(one)
		cmds = append(cmds, cmd)
	}
	return a, tea.Batch(cmds...)
}

// pressed handles a key: as one of the prompt, the page, every view, or the view that is
// shown. One that does nothing is told.
func (a app) pressed(k tea.KeyMsg) (app, tea.Cmd) {
	switch {
	case k.Type == tea.KeyCtrlC:
		return a.leave()
	case key.Matches(k, a.keys.Suspend):
		return a, tea.Suspend
	}
	a.notice = ""
	if a.prompt.kind != noPrompt {
		return a.typing(k)
	}
	if k.Paste {
		a.notice = "Pasted text is taken where something is typed, such as after " + a.keys.Find.Help().Key + "."
		return a, nil
	}
	for _, handle := range []func(app, tea.KeyMsg) (app, bool){app.onPage, app.sideways, app.startTick} {
		if next, ok := handle(a, k); ok {
			return next, nil
		}
	}
	if next, cmd, ok := a.tryKey(k); ok {
		return next, cmd
	}
	if next, cmd, ok := a.everywhere(k); ok {
		return next, cmd
	}
	if a.page.kind != noPage || a.garden == nil {
		a.notice = a.nothing(k, "")
		return a, nil
	}
	return a.inView(k), nil
}

// typing handles a key while something is typed.
func (a app) typing(k tea.KeyMsg) (app, tea.Cmd) {
	switch a.prompt.kind {
	case linePrompt, textPrompt, pickPrompt:
		return a.ticking(k)
	case changePrompt, namePrompt, openPrompt:
		return a.trying(k)
	case writePrompt, backPrompt:
		return a.writing(k)
	}
	return a.prompted(k), nil
}

// inView handles a key of the view that is shown.
func (a app) inView(k tea.KeyMsg) app {
	did := false
	switch a.tab {
	case windowTab:
		a.window, did = a.window.Update(k)
	case dayTab:
		a.day, did = a.day.Update(k)
	case deliveriesTab:
		a.deliveries, did = a.deliveries.Update(k)
	case peopleTab:
		a.people, did = a.people.Update(k)
	}
	why := ""
	if key.Matches(k, a.moves.List()...) {
		why = "there is nothing further that way"
	}
	if a.picked = a.picked || did; !did {
		a.notice = a.nothing(k, why)
	}
	return a
}

// nothing says that a key did nothing, and why if that is known.
func (a app) nothing(k tea.KeyMsg, why string) string {
	name := k.String()
	if name == " " {
		name = "space"
	}
	if why == "" {
		why = "it has no meaning here; " + a.keys.Help.Help().Key + " lists the keys"
	}
	return name + " did nothing: " + why + "."
}
