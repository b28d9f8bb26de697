package tui

import (
	"fmt"
	"strings"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/tui/draw"
	"build.example/turflast/tui/trials"
)

// target is a plan to solve: the file's, with the changes in force.
type target struct {
	filed  *schedule.Plan
	plan   *schedule.Plan // filed itself when no change is in force
	trials trials.Set
}

// on returns a target with other changes, or the same target and the error if the plan
// refuses one.
func (t target) on(s trials.Set) (target, error) {
	plan, err := s.Apply(t.filed)
	if err != nil {
		return t, err
	}
	return target{t.filed, plan, s}, nil
}

// try makes changes the ones to show, or says why the plan refuses one.
func (a app) try(s trials.Set) (app, tea.Cmd) {
	next, err := a.want.on(s)
	if err != nil {
		a.notice = "! " + refusedWords(err)
		return a, nil
	}
	same := next.plan == a.want.plan
	if a.want = next; same {
		return a, nil // no change was or is in force
	}
	return a.aim(next)
}

// refusedWords says what is wrong with a change.
func refusedWords(err error) string {
	f := schedule.AsChangeFault(err)
	if f == nil {
		return draw.Clean(err.Error())
	}
	text := f.Text
	if f.Hint != "" {
		text += "; " + f.Hint
	}
	if !strings.HasSuffix(text, "?") {
		text += "."
	}
	return draw.Clean(f.Change + ": " + text)
}

// chosenOn returns what the keys of the what-if act on, in terms of the newest plan.
func (a app) chosenOn() trials.On {
	shown, p, t := a.garden.Plan, a.want.plan, a.chosen()
	on := trials.On{Plan: p, Hours: a.garden.Hours, Activity: schedule.Nothing, Crew: schedule.None}
	at := calendars.Instant(0)
	task, isTask := shown.Task(t)
	d, isLorry := shown.Delivery(t)
	switch {
	case a.lost.id != "" && a.lost.instead == t:
		on.Activity = p.FindTask(a.lost.id).Activity()
	case isTask:
		on.Activity = p.FindTask(shown.Tasks[task].ID).Activity()
		at = a.garden.Programme.Tasks[task].Start
		if needs := shown.Tasks[task].Crew; len(needs) > 0 {
			on.Crew = needs[0].Crew
		}
	case isLorry:
		if d = p.FindDelivery(shown.Deliveries[d].ID); d == schedule.None {
			break
		}
		on.Activity, on.Booked = p.Unload(d), a.booked(d)
		at = on.Booked
		if needs := p.Deliveries[d].Unload.Crew; len(needs) > 0 {
			on.Crew = needs[0].Crew
		}
	}
	if at.IsReal() {
		on.Date = a.garden.Date(at)
	}
	if a.tab == dayTab {
		on.Date = a.day.Date()
		if c := a.day.Crew(); c >= 0 {
			on.Crew = c
		}
	}
	return on
}

// booked returns what a trial of a delivery of the newest plan starts from: the booking
// tried last or, while it is movable, the one that is shown.
func (a app) booked(d schedule.DeliveryID) calendars.Instant {
	b := &a.want.plan.Deliveries[d]
	if shown := a.garden.Plan.FindDelivery(b.ID); b.Movable != nil && shown != schedule.None {
		return a.garden.Programme.Unloads[shown].Arrives
	}
	return b.Arrives
}

// tryKey handles the keys that try what is chosen otherwise, and those of the what-if
// while it is open; ok is false for any other.
func (a app) tryKey(k tea.KeyMsg) (next app, cmd tea.Cmd, ok bool) {
	m := a.tryKeys
	switch {
	case a.garden == nil || a.page.kind != noPage && a.page.kind != movesPage:
		return a, nil, false
	case key.Matches(k, m.Steps()...):
		return a.changeKey(k)
	case key.Matches(k, m.Type):
		a.drawer, a.prompt = true, prompt{kind: changePrompt}
		return a, nil, true
	case !a.drawer:
		return a, nil, false
	}
	return a.drawerKey(k)
}

// drawerKey handles the keys of the what-if; ok is false for any other.
func (a app) drawerKey(k tea.KeyMsg) (next app, cmd tea.Cmd, ok bool) {
	switch m := a.tryKeys; {
	case key.Matches(k, m.Save):
		a = a.askName()
	case key.Matches(k, m.Open):
		a, cmd = a.askFile()
	case key.Matches(k, m.Write):
		a, cmd = a.askWrite()
	case key.Matches(k, m.Moves):
		a = a.open(movesPage)
	case key.Matches(k, m.Up):
		a.want.trials = a.want.trials.Choose(-1)
	case key.Matches(k, m.Down):
		a.want.trials = a.want.trials.Choose(1)
	default:
		return a.changeKey(k)
	}
	return a, cmd, true
}

// changeKey handles the keys that change the list.
func (a app) changeKey(k tea.KeyMsg) (next app, cmd tea.Cmd, ok bool) {
	set := a.want.trials
	switch m := a.tryKeys; {
	case key.Matches(k, m.Keep):
		set = set.Keep()
	case key.Matches(k, m.Drop):
		set = set.Drop()
	default:
		set, a.notice, ok = set.Press(a.tryKeys, k, a.chosenOn())
		if !ok || a.notice != "" {
			return a, nil, ok
		}
	}
	next, cmd = a.try(set)
	return next, cmd, true
}

// untry takes back the last step of the what-if.
func (a app) untry() (app, tea.Cmd) {
	was, ok := a.want.trials.Undo()
	if !ok {
		a.notice = "Nothing to take back: no change was made."
		return a, nil
	}
	return a.try(was)
}

// trying handles a key while a change, a name or a file is typed.
func (a app) trying(k tea.KeyMsg) (app, tea.Cmd) {
	switch k.Type {
	case tea.KeyEsc:
		a.prompt = prompt{}
		return a, nil
	case tea.KeyTab, tea.KeyDown:
		return a.complete(1), nil
	case tea.KeyShiftTab, tea.KeyUp:
		return a.complete(-1), nil
	case tea.KeyEnter:
		return a.enterTrial()
	}
	if next, ok := a.prompt.typed(k); ok {
		next.fault = ""
		a.prompt = next
	}
	return a, nil
}

// complete completes what is typed: with the chosen activity's id in a change, with the
// next of the names when opening a what-if.
func (a app) complete(by int) app {
	p := a.prompt
	switch {
	case p.kind == changePrompt:
		p.text, p.fault = p.text+a.chosenID(), ""
	case p.kind == openPrompt && len(p.names) > 0:
		p.at = (p.at + by + len(p.names)) % len(p.names)
		p.text, p.fault = p.names[p.at], ""
	}
	a.prompt = p
	return a
}

// chosenID returns the id of what is chosen, and a space.
func (a app) chosenID() string {
	if t := a.chosen(); a.garden != nil && t != schedule.Nothing {
		return a.garden.Plan.ActivityID(t) + " "
	}
	return ""
}

// enterTrial takes what was typed. A change that can't be made stays in the prompt, with
// what is wrong with it.
func (a app) enterTrial() (app, tea.Cmd) {
	switch a.prompt.kind {
	case namePrompt:
		return a.saveTrials()
	case openPrompt:
		return a.openTrials()
	}
	list, err := a.typed(a.opts.Now()).Changes(a.prompt.text)
	set := a.want.trials
	for _, c := range list {
		set = set.Add(c)
	}
	if err == nil {
		_, err = a.want.on(set)
	}
	if err != nil {
		a.prompt.fault = unclear(err)
		return a, nil
	}
	a.prompt = prompt{}
	return a.try(set)
}

// typed understands what is typed at a moment.
func (a app) typed(now calendars.Instant) Words {
	return a.opts.Words(a.garden.Plan, a.garden.Numbers.Find, now)
}

// unclear says why what was typed can't be taken, without the text, which stands beside it.
func unclear(err error) string {
	if short, ok := err.(interface{ Short() string }); ok {
		return draw.Clean(short.Short())
	}
	return refusedWords(err)
}

// trialWords says that changes are tried, while they aren't listed.
func (a app) trialWords() string {
	list, in := a.want.trials.List(), len(a.want.trials.InForce())
	text := fmt.Sprintf("What if: %s", wording.Count(in, "change", "changes"))
	switch {
	case a.drawer || len(list) == 0:
		return ""
	case len(list) == 1 && in == 1:
		text = "What if: " + draw.Clean(list[0].Change.String())
	case in < len(list):
		text += fmt.Sprintf(", %d set aside", len(list)-in)
	}
	return fmt.Sprintf("%s; the plan file is unchanged. %s lists, %s takes the last one back.",
		text, a.keys.Drawer.Help().Key, a.keys.Undo.Help().Key)
}

// drawerLines returns the what-if at the foot while it is open.
func (a app) drawerLines() []page.Text {
	if !a.drawer || a.garden == nil || a.page.kind != noPage {
		return nil
	}
	_, task := a.garden.Plan.Task(a.chosen())
	d := draw.Drawer{
		Name: a.want.trials.Name(), Chosen: a.want.trials.Chosen(), Busy: !a.settled(),
		Keys: a.tryKeys.Hint(a.keys.Undo.Help().Key, task),
	}
	for _, t := range a.want.trials.List() {
		d.Trials = append(d.Trials, draw.TrialLine{Text: t.Change.String(), Aside: t.Aside})
	}
	return d.Lines(a.garden, a.size)
}
