package tui

import (
	"cmp"
	"errors"
	"fmt"
	"strconv"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/said"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/site/heard"
	"build.example/turflast/schedule/site/sitelog"
	"build.example/turflast/tui/draw"
)

// ticking is what is typed for a tick: first the number of a line, or of something else to
// choose from, then its text.
type ticking struct {
	verb   verb
	chosen draw.Numbered // the line that enter takes; number 0 for none
	line   draw.Numbered // the line of the text that is typed
	asked  int           // the number that is asked back; enter takes it the second time
	picks  []pick        // what else there is to choose from
	event  sitelog.Event
}

// noLog says why nothing can be ticked.
const noLog = "There is no site log to tick in: the plan has no file that it could lie beside, or it is left aside."

// startTick opens the prompt for a tick if a key of the day view asks for one; ok is
// false for any other key.
func (a app) startTick(k tea.KeyMsg) (next app, ok bool) {
	if a.tab != dayTab || a.page.kind != noPage || a.garden == nil {
		return a, false
	}
	v, ok := a.ticks.verb(k)
	switch {
	case !ok || v == tickWet && a.drawer:
		return a, false
	case a.opts.Log == nil:
		a.notice = noLog
		return a, true
	case a.site.busy:
		a.notice = "The last tick is still being written."
		return a, true
	}
	return a.promptFor(ticking{verb: v, chosen: a.day.Line(), event: sitelog.Event{At: a.opts.Now()}}), true
}

// promptFor asks what a tick needs: which thing, a text, or which line of the day.
func (a app) promptFor(t ticking) app {
	switch t.verb {
	case tickPeople, tickGiven, tickRight:
		return a.offerPicks(t)
	case tickWet:
		t.event.What, t.event.Date = sitelog.Wet, a.day.Date()
		a.prompt = prompt{kind: textPrompt, ticking: t}
	case tickSaid:
		a.prompt = prompt{kind: textPrompt, ticking: t}
	default:
		a.prompt = prompt{kind: linePrompt, ticking: t}
	}
	return a
}

// ticking handles a key while a line, something else to choose or a text is typed. A
// number is taken at once where none is longer, else it waits for enter.
func (a app) ticking(k tea.KeyMsg) (app, tea.Cmd) {
	switch k.Type {
	case tea.KeyEsc:
		a.prompt = prompt{}
		return a, nil
	case tea.KeyEnter:
		return a.enterTick()
	}
	next, ok := a.prompt.typed(k)
	switch {
	case !ok:
		return a, nil
	case next.kind == textPrompt || next.ticking.verb == tickAt:
		a.prompt = next
		return a, nil
	case strings.Trim(next.text, "0123456789") != "":
		return a, nil
	}
	a.prompt = next
	if is, longer := a.numberTyped(next.text); is && !longer {
		return a.enterTick()
	}
	return a, nil
}

// numberTyped says whether something that can be chosen has this number, and whether the
// number of another begins with it.
func (a app) numberTyped(text string) (is, longer bool) {
	t := a.prompt.ticking
	is = t.verb.anywhere() && text == "0"
	see := func(number int) {
		s := strconv.Itoa(number)
		is = is || s == text
		longer = longer || s != text && text != "" && strings.HasPrefix(s, text)
	}
	if a.prompt.kind == pickPrompt {
		for i := range t.picks {
			see(i + 1)
		}
		return is, longer
	}
	for x := range a.garden.Plan.Activities() {
		see(a.garden.Number(x))
	}
	return is, longer
}

// enterTick takes what was typed.
func (a app) enterTick() (app, tea.Cmd) {
	p := a.prompt
	switch p.kind {
	case textPrompt:
		return a.enterText(strings.TrimSpace(p.text))
	case pickPrompt:
		return a.enterPick()
	}
	number, clock, _ := strings.Cut(strings.TrimSpace(p.text), " ")
	line := p.ticking.chosen
	if number == "0" && p.ticking.verb.anywhere() {
		line = draw.Numbered{Activity: schedule.Nothing}
	} else if number != "" {
		n, _ := strconv.Atoi(number)
		found := a.garden.Numbers.Find(n)
		if found == schedule.Nothing {
			a.prompt.text, a.prompt.fault = "", fmt.Sprintf("Nothing has the number %s.", draw.Clean(number))
			return a, nil
		}
		if !a.garden.Numbers.Sure(n) && p.ticking.asked != n {
			a.prompt.ticking.asked = n
			a.prompt.fault = fmt.Sprintf("%d may be %s, but no issue or baseline has given it that number: enter takes it.",
				n, a.garden.Name(found))
			return a, nil
		}
		line = draw.Numbered{Activity: found, Number: n}
	} else if line.Number == 0 {
		a.prompt.fault = "Type the number of a line."
		return a, nil
	}
	a.prompt = prompt{}
	return a.tickLine(p.ticking.verb, line, strings.TrimSpace(clock))
}

// enterText takes the text that a tick needs. One that can't be stays in the prompt, with
// what is wrong with it.
func (a app) enterText(text string) (app, tea.Cmd) {
	e := a.prompt.ticking.event
	if a.prompt.ticking.verb == tickSaid {
		return a.enterSaid(text)
	}
	if e.What == sitelog.Note && text == "" {
		a.prompt = prompt{}
		return a, nil
	}
	if err := a.readText(&e, text); err != nil {
		a.prompt.fault = unclear(err)
		return a, nil
	}
	a.prompt = prompt{}
	return a.add(e)
}

// readText sets what the text of a tick says.
func (a app) readText(e *sitelog.Event, text string) (err error) {
	switch e.What {
	case sitelog.Left:
		e.Left, err = a.typed(a.opts.Now()).Work(text)
	case sitelog.Rebooked:
		e.To, err = a.typed(a.onShown(0)).Coming(text)
	case sitelog.Wet:
		err = a.readSky(e, text)
	case sitelog.People:
		err = a.readHeard(e, "people "+e.Crew+" "+text)
	case sitelog.Note:
		e.Text = text
	case sitelog.Failed:
		var t said.Tick
		t, err = a.typed(a.opts.Now()).PutRight(text)
		e.Text, e.Takes, e.Crew, e.People = t.Text, t.Takes, t.Crew, t.Heads
	case sitelog.SnagOpened:
		if e.Text = text; text == "" {
			return errors.New("say what is to be put right")
		}
	default:
		e.Text = cmp.Or(text, "no reason said")
	}
	return err
}

// readSky sets which weather there was, and when: of hours alone it was wet; without any it is
// the whole date.
func (a app) readSky(e *sitelog.Event, text string) error {
	if text == "" {
		return nil
	}
	from, until, err := a.typed(a.onShown(calendars.Day - 1)).Hours(text)
	if err != nil {
		return a.readHeard(e, text)
	}
	e.From, e.Until = from, until
	return nil
}

// enterSaid logs what was said in words, all of it or nothing.
func (a app) enterSaid(text string) (app, tea.Cmd) {
	events, err := a.heard(text, a.opts.Now())
	if err != nil {
		a.prompt.fault = unclear(err)
		return a, nil
	}
	a.prompt = prompt{}
	return a.add(events...)
}

// heard is what words say happened, as events.
func (a app) heard(text string, at calendars.Instant) ([]sitelog.Event, error) {
	words := a.typed(a.onShown(calendars.Day - 1))
	ticks, err := words.Ticks(text)
	if err != nil {
		return nil, err
	}
	last := func() (string, error) {
		if e := sitelog.LastOf(a.site.events, a.opts.Log.Writer()); e != nil {
			return e.ID, nil
		}
		return "", errors.New("nothing of yours can be taken back")
	}
	g := heard.Garden{Plan: a.garden.Plan, Filed: a.shown.filed, Instant: words.Instant, Last: last}
	var out []sitelog.Event
	for i := range ticks {
		if ticks[i].What == said.AsPlanned {
			return nil, errors.New("the keys beside the question answer that")
		}
		events, err := g.Events(&ticks[i], at)
		if err != nil {
			return nil, err
		}
		out = append(out, events...)
	}
	return out, nil
}

// readHeard sets what words say of the date that is shown, if it is what is asked for.
func (a app) readHeard(e *sitelog.Event, text string) error {
	events, err := a.heard(text, e.At)
	switch {
	case err != nil:
		return err
	case len(events) != 1 || events[0].What.Weather() != e.What.Weather() || events[0].Crew != e.Crew:
		return errors.New("that is something else")
	}
	*e = events[0]
	return nil
}

// tickLine logs what a key means for a line, or asks for the text that it needs.
func (a app) tickLine(v verb, line draw.Numbered, clock string) (app, tea.Cmd) {
	p := a.garden.Plan
	e := sitelog.Event{At: a.opts.Now()}
	if _, ok := p.Task(line.Activity); ok {
		e.Task = p.ActivityID(line.Activity)
	} else {
		e.Delivery = p.ActivityID(line.Activity)
	}
	var why string
	if e.What, why = a.kindOf(v, line.Activity); why != "" {
		a.notice = fmt.Sprintf("%d, %s: %s.", line.Number, a.garden.Name(line.Activity), why)
		return a, nil
	}
	if v == tickAt {
		at, err := a.earlier(clock)
		if err != nil {
			a.notice = "! " + unclear(err)
			return a, nil
		}
		e.At = at
	}
	switch e.What {
	case sitelog.Left, sitelog.Note, sitelog.Paused, sitelog.Failed, sitelog.Refused, sitelog.Rebooked,
		sitelog.SnagOpened:
		a.prompt = prompt{kind: textPrompt, ticking: ticking{verb: v, event: e, line: line}}
		return a, nil
	}
	return a.add(e)
}

// kindOf returns what a key logs of an activity, or why nothing. It goes by the newest
// plan, though that may not be solved yet.
func (a app) kindOf(v verb, of schedule.Activity) (kind sitelog.Kind, why string) {
	if d, lorry := a.garden.Plan.Delivery(of); lorry {
		return a.kindOfLorry(v, a.want.plan.FindDelivery(a.garden.Plan.Deliveries[d].ID))
	}
	p, t := a.want.plan, schedule.TaskID(schedule.None)
	if id, task := a.garden.Plan.Task(of); task {
		t = p.FindTask(a.garden.Plan.Tasks[id].ID)
	}
	switch {
	case t < 0:
		return v.kind(false, sheets.Ahead, false)
	case v == tickFail && p.Finished(t) && p.Tasks[t].Hold == nil:
		return sitelog.Failed, "" // a check that the plan doesn't ask for
	}
	return v.kind(false, sheets.StateOf(p, t.Activity()), p.InHand(t) && p.Progress.Tasks[t].Paused)
}

// kindOfLorry is kindOf of a delivery of the newest plan, or of None.
func (a app) kindOfLorry(v verb, d schedule.DeliveryID) (kind sitelog.Kind, why string) {
	p := a.want.plan
	switch {
	case d < 0:
		return v.kind(true, sheets.Ahead, false)
	case (v == tickNext || v == tickAt) && p.Arrived(d):
		return lorryTick(p, d)
	}
	return v.kind(true, sheets.StateOf(p, p.Unload(d)), false)
}

// earlier returns the moment that was typed, as said on the date that is shown.
func (a app) earlier(text string) (calendars.Instant, error) {
	if text == "" {
		return 0, errors.New("give the number and the time, such as 3 14:20 or 3 4pm")
	}
	return a.typed(a.onShown(calendars.Day - 1)).Happened(text)
}

// onShown returns the moment from which typed words are understood: now, or a minute of
// the date that is shown if that is another.
func (a app) onShown(minute calendars.Minutes) calendars.Instant {
	now, loc := a.opts.Now(), a.garden.Plan.Site.Location
	if date := a.day.Date(); date != calendars.DateIn(now, loc) {
		now, _ = calendars.At(loc, date, minute)
	}
	return now
}

// add writes events to the log beside the screen, all or none, and remembers the margin
// before them.
func (a app) add(events ...sitelog.Event) (app, tea.Cmd) {
	before, _ := draw.MarginWords(a.garden)
	a.site.busy, a.site.ticked = true, &ticked{before: before}
	l, file := a.opts.Log, a.site.file
	return a, func() tea.Msg {
		logged, said, err := l.Append(file, events...)
		return addedMsg{logged, said, err}
	}
}
