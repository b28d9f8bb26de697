package tui

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/sitelog"
	"build.example/turflast/tui/draw"
)

// ticking is what is typed for a tick: first the number of a line, then its text.
type ticking struct {
	verb   verb
	lines  []draw.Numbered // the lines that are shown
	chosen draw.Numbered   // the one that enter takes; number 0 for none
	line   draw.Numbered   // the line of the text that is typed
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
	if a.opts.Log == nil {
		if key.Matches(k, a.ticks.list()...) {
			a.notice = noLog
			return a, true
		}
		return a, false
	}
	verbs := map[verb]key.Binding{tickNext: a.ticks.Tick, tickAt: a.ticks.At, tickLeft: a.ticks.Left,
		tickPause: a.ticks.Pause, tickFail: a.ticks.Fail, tickNote: a.ticks.Note}
	for v, binding := range verbs {
		if !key.Matches(k, binding) {
			continue
		}
		t := ticking{verb: v, lines: a.day.Lines(), chosen: a.day.Line()}
		switch {
		case a.site.busy:
			a.notice = "The last tick is still being written."
		default:
			a.prompt = prompt{kind: linePrompt, ticking: t}
		}
		return a, true
	}
	return a, false
}

// digitTime is how long a further digit may be typed for a line's number.
const digitTime = 800 * time.Millisecond

// digitMsg ends a line's number, unless a key was pressed in the meantime.
type digitMsg struct{ digits int }

func (a app) digitsOver(msg digitMsg) (app, tea.Cmd) {
	if a.prompt.kind != linePrompt || msg.digits != a.site.digits || a.prompt.text == "" {
		return a, nil
	}
	return a.enterTick()
}

// ticking handles a key while a line or a text is typed.
func (a app) ticking(k tea.KeyMsg) (app, tea.Cmd) {
	switch k.Type {
	case tea.KeyEsc:
		a.prompt = prompt{}
		return a, nil
	case tea.KeyEnter:
		return a.enterTick()
	}
	next, ok := a.prompt.typed(k)
	if !ok {
		return a, nil
	}
	a.site.digits++
	if next.kind != linePrompt || next.ticking.verb == tickAt {
		a.prompt = next
		return a, nil
	}
	if strings.Trim(next.text, "0123456789") != "" {
		return a, nil
	}
	a.prompt = next
	switch is, longer := next.ticking.numbers(next.text); {
	case is && longer: // there is time to press another digit
		return a, a.wait(digitTime, digitMsg{a.site.digits})
	case is:
		return a.enterTick()
	}
	return a, nil
}

// numbers says whether a shown line has this number, and whether another one's begins
// with it. A note may be on line 0, the garden.
func (t *ticking) numbers(text string) (is, longer bool) {
	is = t.verb == tickNote && text == "0"
	for _, l := range t.lines {
		number := strconv.Itoa(l.Number)
		is = is || number == text
		longer = longer || number != text && text != "" && strings.HasPrefix(number, text)
	}
	return is, longer
}

// enterTick takes what was typed.
func (a app) enterTick() (app, tea.Cmd) {
	p := a.prompt
	if p.kind == textPrompt {
		return a.enterText(strings.TrimSpace(p.text))
	}
	a.prompt = prompt{}
	number, clock, _ := strings.Cut(strings.TrimSpace(p.text), " ")
	line := p.ticking.chosen
	if number == "0" && p.ticking.verb == tickNote {
		line = draw.Numbered{Activity: schedule.Nothing}
	} else if number != "" {
		n, _ := strconv.Atoi(number)
		found := a.garden.Numbers.Find(n)
		if found == schedule.Nothing {
			a.notice = fmt.Sprintf("Nothing has the number %s.", draw.Clean(number))
			return a, nil
		}
		line = draw.Numbered{Activity: found, Number: n}
	} else if line.Number == 0 {
		return a, nil
	}
	return a.tickLine(p.ticking.verb, line, strings.TrimSpace(clock))
}

// enterText takes the text that a tick needs.
func (a app) enterText(text string) (app, tea.Cmd) {
	e := a.prompt.ticking.event
	switch e.What {
	case sitelog.Left:
		left, err := calendars.ParseWork(text)
		if err != nil {
			a.notice = "! " + draw.Clean(err.Error())
			return a, nil
		}
		e.Left = left
	case sitelog.Note:
		e.Text = text
	default:
		e.Text = cmp.Or(text, "no reason said")
	}
	a.prompt = prompt{}
	if e.What == sitelog.Note && text == "" {
		return a, nil
	}
	return a.add(e)
}

// tickLine logs what a key means for a line, or asks for the text that it needs.
func (a app) tickLine(v verb, line draw.Numbered, clock string) (app, tea.Cmd) {
	p := a.garden.Plan
	e := sitelog.Event{At: a.opts.Now()}
	task, ok := p.Task(line.Activity)
	if ok {
		e.Task = p.ActivityID(line.Activity)
	} else {
		e.Delivery = p.ActivityID(line.Activity)
	}
	_, lorry := p.Delivery(line.Activity)
	var why string
	if e.What, why = v.kind(lorry, a.garden.State(line.Activity), a.paused(task)); why != "" {
		a.notice = fmt.Sprintf("%d, %s: %s.", line.Number, a.garden.Name(line.Activity), why)
		return a, nil
	}
	if v == tickAt {
		at, err := a.earlier(clock)
		if err != nil {
			a.notice = "! " + err.Error()
			return a, nil
		}
		e.At = at
	}
	switch e.What {
	case sitelog.Left, sitelog.Note, sitelog.Paused, sitelog.Failed, sitelog.Refused:
		a.prompt = prompt{kind: textPrompt, ticking: ticking{verb: v, event: e, line: line}}
		return a, nil
	}
	return a.add(e)
}

func (a app) paused(t schedule.TaskID) bool {
	p := a.garden.Plan
	return t >= 0 && p.InHand(t) && p.Progress.Tasks[t].Paused
}

// earlier returns a time of day on the date that is shown.
func (a app) earlier(clock string) (calendars.Instant, error) {
	if clock == "" {
		return 0, fmt.Errorf("give the number and the time, such as 3 14:20")
	}
	minute, err := calendars.ParseClock(clock)
	if err != nil {
		return 0, err
	}
	at, is := calendars.At(a.garden.Plan.Site.Location, a.day.Date(), minute)
	if is == calendars.Skipped {
		return 0, fmt.Errorf("the clocks skip %s on that day", draw.Clean(clock))
	}
	return at, nil
}

// add writes an event to the log beside the screen, and remembers the margin
// before it.
func (a app) add(e sitelog.Event) (app, tea.Cmd) {
	before, _ := draw.MarginWords(a.garden)
	a.site.busy, a.site.ticked = true, &ticked{before: before}
	l, file := a.opts.Log, a.site.file
	return a, func() tea.Msg {
		logged, said, err := l.Append(file, e)
		return addedMsg{logged, said, err}
	}
}

// untick takes back the last tick of this screen; ok is false when there is none, or the
// day isn't shown.
func (a app) untick() (next app, cmd tea.Cmd, ok bool) {
	if a.opts.Log == nil || a.tab != dayTab || len(a.site.mine) == 0 || a.site.busy {
		return a, nil, false
	}
	last := a.site.mine[len(a.site.mine)-1]
	next, cmd = a.add(sitelog.Event{What: sitelog.Undone, Of: last.ID, At: a.opts.Now()})
	return next, cmd, true
}

// added says what was written, or why it wasn't, and has the plan as at now made again.
func (a app) added(msg addedMsg) (app, tea.Cmd) {
	a.site.busy = false
	if msg.err != nil {
		a.site.ticked, a.site.leaving = nil, false
		a.notice = "! Not logged: " + draw.Clean(strings.TrimPrefix(msg.err.Error(), "nothing was logged: "))
		return a, nil
	}
	if a.site.leaving {
		return a, tea.Quit
	}
	e := msg.event
	if a.site.known != nil { // else no log was read yet, and the next one brings no news
		a.site.known = maps.Clone(a.site.known)
		a.site.known[e.ID] = true
	}
	w := wording.New(a.site.file)
	words := eventWords(w, &e, e.Written)
	if e.What == sitelog.Undone {
		last := len(a.site.mine) - 1
		words = "Taken back: " + eventWords(w, &a.site.mine[last], e.Written)
		a.site.mine = a.site.mine[:last:last]
	} else {
		a.site.mine = append(slices.Clip(a.site.mine), e)
	}
	a.notice = draw.Clean(msg.said)
	a.site.ticked = &ticked{wording.Capital(words), a.site.ticked.before, e.What != sitelog.Undone}
	return a, a.readLog()
}

// tickedWords says what the last tick did to the margin.
func (a app) tickedWords() string {
	t := a.site.ticked
	if t == nil || t.words == "" {
		return ""
	}
	text := t.words + ". "
	switch now, _ := draw.MarginWords(a.garden); {
	case !a.settled():
		text += wording.Capital(t.before) + " before it; solving anew."
	case now == t.before:
		text += "Still " + now + "."
	default:
		text += wording.Capital(t.before) + " before it, now " + now + "."
	}
	if t.undoes && a.tab == dayTab {
		text += " " + a.keys.Undo.Help().Key + " takes it back."
	}
	return text
}

// settled says whether what is shown is final: nothing is being written, solved or
// searched.
func (a app) settled() bool {
	return !a.site.busy && !a.solving && a.search == nil && (a.crews != nil || a.logicOnly)
}

// tickPromptWords says what to type for a tick.
func (a app) tickPromptWords() string {
	p, t := a.prompt, a.prompt.ticking
	if p.kind == textPrompt {
		asks := map[sitelog.Kind]string{
			sitelog.Left: "what is left, such as 3h or 2h30m", sitelog.Note: "note", sitelog.Paused: "why it pauses",
			sitelog.Failed: "what is wrong", sitelog.Refused: "why it is refused",
		}[t.event.What]
		if t.line.Number > 0 {
			return fmt.Sprintf("%d, %s, %s: %s▁", t.line.Number, a.garden.Name(t.line.Activity), asks, p.text)
		}
		return wording.Capital(asks) + ": " + p.text + "▁"
	}
	does := map[verb]string{
		tickNext: "Tick number", tickAt: "Tick number, and when, such as 3 14:20", tickLeft: "What is left of number",
		tickPause: "Pause or resume number", tickFail: "Failed or refused: number", tickNote: "Note on number, 0 for none",
	}[t.verb]
	text := does + ": " + p.text + "▁"
	if t.verb == tickAt {
		return text
	}
	line := t.chosen
	if n, err := strconv.Atoi(p.text); err == nil {
		line = draw.Numbered{Activity: schedule.Nothing}
		if found := a.garden.Numbers.Find(n); found != schedule.Nothing {
			line = draw.Numbered{Activity: found, Number: n}
		}
	}
	if line.Number > 0 {
		text += fmt.Sprintf(" enter takes %d, %s", line.Number, a.garden.Name(line.Activity))
	}
	return text
}
