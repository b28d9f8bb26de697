package tui

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"turflast/calendars"
	"turflast/schedule"
	"turflast/tui/draw"
)

// tickKeys are what the keys of the day view log.
type tickKeys struct{ Tick, At, Left, Pause, Fail, Note key.Binding }

func defaultTickKeys() tickKeys {
	return tickKeys{
		Tick:  key.NewBinding(key.WithKeys("t"), key.WithHelp("t", "tick a line off: started, finished, signed; a lorry that came")),
		At:    key.NewBinding(key.WithKeys("T"), key.WithHelp("T", "tick a line off as of earlier: its number and the time")),
		Left:  key.NewBinding(key.WithKeys("e"), key.WithHelp("e", "enter what is left of a line's work")),
		Pause: key.NewBinding(key.WithKeys("z"), key.WithHelp("z", "a line's work pauses, or goes on again")),
		Fail:  key.NewBinding(key.WithKeys("x"), key.WithHelp("x", "a line's sign-off failed, or its lorry was refused")),
		Note:  key.NewBinding(key.WithKeys("n"), key.WithHelp("n", "note something on a line; line 0 is the garden")),
	}
}

func (k tickKeys) list() []key.Binding {
	return []key.Binding{k.Tick, k.At, k.Left, k.Pause, k.Fail, k.Note}
}

// hint is the main keys in a few words.
func (k tickKeys) hint() string {
	return fmt.Sprintf("%s tick   %s left   %s note", k.Tick.Help().Key, k.Left.Help().Key, k.Note.Help().Key)
}

// verb is what a key of the day view asks for.
type verb uint8

const (
	tickNext verb = iota
	tickAt
	tickLeft
	tickPause
	tickFail
	tickNote
)

// ticking is what is asked for a tick: first for a line, then for its text.
type ticking struct {
	verb   verb
	lines  int  // that there are
	chosen int  // the one that enter takes
	asked  Tick // once the line is known
	line   int
}

// startTick asks for the line that a key of the day view is about; ok is false for
// any other key.
func (a app) startTick(k tea.KeyMsg) (next app, ok bool) {
	if a.opts.Log == nil || a.tab != dayTab || a.page.kind != noPage || a.garden == nil {
		return a, false
	}
	verbs := map[verb]key.Binding{tickNext: a.ticks.Tick, tickAt: a.ticks.At, tickLeft: a.ticks.Left,
		tickPause: a.ticks.Pause, tickFail: a.ticks.Fail, tickNote: a.ticks.Note}
	for v, binding := range verbs {
		if !key.Matches(k, binding) {
			continue
		}
		t := ticking{verb: v, lines: len(a.day.Lines()), chosen: a.day.Line()}
		switch {
		case a.site.busy:
			a.notice = "The last tick is still being written."
		case t.lines == 0 && v != tickNote:
			a.notice = "Nothing to tick here: choose a day and a crew with work."
		default:
			a.prompt = prompt{kind: linePrompt, ticking: t}
		}
		return a, true
	}
	return a, false
}

// digitTime is how long a line's number may still get another digit.
const digitTime = 800 * time.Millisecond

// digitMsg ends a line's number, if no key was pressed after it.
type digitMsg struct{ digits int }

func (a app) digitsOver(msg digitMsg) (app, tea.Cmd) {
	if a.prompt.kind != linePrompt || msg.digits != a.site.digits || a.prompt.text == "" {
		return a, nil
	}
	return a.enterTick()
}

// ticking answers a key while a line or a text is asked for.
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
	t := &next.ticking
	if next.kind == linePrompt && t.verb != tickAt {
		if strings.Trim(next.text, "0123456789") != "" {
			return a, nil
		}
		a.prompt = next
		if next.text == "" {
			return a, nil
		}
		// Where a further digit can name a line, there is time to press it.
		if n, err := strconv.Atoi(next.text); err == nil && n > 0 && n*10 <= t.lines {
			return a, a.wait(digitTime, digitMsg{a.site.digits})
		}
		return a.enterTick()
	}
	a.prompt = next
	return a, nil
}

// enterTick takes what was typed.
func (a app) enterTick() (app, tea.Cmd) {
	p := a.prompt
	a.prompt = prompt{}
	if p.kind == textPrompt {
		t := p.ticking.asked
		t.Text = strings.TrimSpace(p.text)
		if t.Text == "" && (t.Kind == TickNote || t.Kind == TickLeft) {
			return a, nil
		}
		return a.add(t)
	}
	number, clock, _ := strings.Cut(strings.TrimSpace(p.text), " ")
	line := p.ticking.chosen
	if number != "" {
		n, err := strconv.Atoi(number)
		if err != nil || n > p.ticking.lines || n == 0 && p.ticking.verb != tickNote {
			a.notice = fmt.Sprintf("There is no line %s here.", draw.Clean(number))
			return a, nil
		}
		line = n
	}
	return a.tickLine(p.ticking.verb, line, strings.TrimSpace(clock))
}

// tickLine logs what is asked of a line, or asks for its text.
func (a app) tickLine(v verb, line int, clock string) (app, tea.Cmd) {
	t := Tick{Task: schedule.None, Delivery: schedule.None, At: a.opts.Now()}
	state := draw.Ahead
	if line > 0 {
		thing := a.day.Lines()[line-1]
		t.Task, t.Delivery, state = thing.Task, thing.Delivery, a.garden.State(thing)
	}
	var why string
	if t.Kind, why = v.kind(t, state, a.paused(t.Task)); why != "" {
		a.notice = fmt.Sprintf("Line %d: %s.", line, why)
		return a, nil
	}
	if v == tickAt {
		at, err := a.earlier(clock)
		if err != nil {
			a.notice = "! " + err.Error()
			return a, nil
		}
		t.At = at
	}
	if t.Kind == TickLeft || t.Kind == TickNote || t.Kind == TickPaused || t.Kind == TickFailed || t.Kind == TickRefused {
		a.prompt = prompt{kind: textPrompt, ticking: ticking{verb: v, asked: t, line: line}}
		return a, nil
	}
	return a.add(t)
}

func (a app) paused(t schedule.TaskID) bool {
	p := a.garden.Plan
	return t >= 0 && p.InHand(t) && p.Progress.Tasks[t].Paused
}

// kind is what a key logs of a thing in some state, or why it can't.
func (v verb) kind(t Tick, state draw.State, paused bool) (kind TickKind, why string) {
	lorry := t.Delivery >= 0
	switch v {
	case tickNote:
		return TickNote, ""
	case tickLeft:
		if lorry || state != draw.InHand {
			return 0, "only work in hand has something left to enter"
		}
		return TickLeft, ""
	case tickPause:
		return pauseTick(lorry, state, paused)
	case tickFail:
		return failTick(lorry, state)
	}
	return nextTick(lorry, state)
}

func pauseTick(lorry bool, state draw.State, paused bool) (TickKind, string) {
	switch {
	case lorry || state != draw.InHand:
		return 0, "only work in hand pauses"
	case paused:
		return TickResumed, ""
	}
	return TickPaused, ""
}

func failTick(lorry bool, state draw.State) (TickKind, string) {
	switch {
	case lorry && state == draw.Ahead:
		return TickRefused, ""
	case state == draw.Unsigned:
		return TickFailed, ""
	}
	return 0, "only a sign-off that is due fails, and only a lorry that hasn't come is refused"
}

// nextTick is what is ticked next of a thing in some state.
func nextTick(lorry bool, state draw.State) (TickKind, string) {
	switch {
	case lorry && state == draw.Ahead:
		return TickArrived, ""
	case lorry && state == draw.InHand:
		return 0, "its lorry has come; when it is unloaded isn't ticked"
	case state == draw.Ahead:
		return TickStarted, ""
	case state == draw.InHand:
		return TickFinished, ""
	case state == draw.Unsigned:
		return TickSigned, ""
	}
	return 0, "it is ticked off already"
}

// earlier is a time of the day that is shown.
func (a app) earlier(clock string) (calendars.Instant, error) {
	if clock == "" {
		return 0, fmt.Errorf("give the line and the time, such as 3 14:20")
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

// add writes a tick to the log.
func (a app) add(t Tick) (app, tea.Cmd) {
	l, file := a.opts.Log, a.site.file
	if t.Task >= 0 {
		t.Task = file.FindTask(a.garden.Plan.Tasks[t.Task].ID) // a trial may do without some
	}
	return a.write("", func() (Logged, error) { return l.Add(file, t) })
}

// untick takes the last tick of this screen back; ok is false when there is none.
func (a app) untick() (next app, cmd tea.Cmd, ok bool) {
	if a.opts.Log == nil || a.tab != dayTab || len(a.site.mine) == 0 || a.site.busy {
		return a, nil, false
	}
	last := a.site.mine[len(a.site.mine)-1]
	l, file := a.opts.Log, a.site.file
	next, cmd = a.write(last.ID, func() (Logged, error) { return l.Undo(file, last.ID) })
	return next, cmd, true
}

// write writes an event beside the screen, and takes note of the margin before it.
func (a app) write(undoes string, event func() (Logged, error)) (app, tea.Cmd) {
	before, _ := draw.MarginWords(a.garden)
	a.site.busy, a.site.ticked = true, &ticked{before: before}
	return a, func() tea.Msg {
		logged, err := event()
		return addedMsg{logged, undoes, err}
	}
}

// added says what was written, or why it wasn't, and makes the plan as at now.
func (a app) added(msg addedMsg) (app, tea.Cmd) {
	a.site.busy = false
	if msg.err != nil {
		a.site.ticked = nil
		a.notice = "! Not logged: " + draw.Clean(msg.err.Error())
		return a, nil
	}
	a.site.known = maps.Clone(a.site.known)
	a.site.known[msg.logged.ID] = true
	a.site.ticked = &ticked{capital(draw.Clean(msg.logged.Text)), a.site.ticked.before}
	if msg.undoes != "" {
		a.site.mine = slices.DeleteFunc(slices.Clone(a.site.mine), func(l Logged) bool { return l.ID == msg.undoes })
	} else {
		a.site.mine = append(slices.Clip(a.site.mine), msg.logged)
	}
	return a, a.readLog()
}

// tickedWords say what the last tick did to the margin.
func (a app) tickedWords() string {
	t := a.site.ticked
	if t == nil || t.words == "" {
		return ""
	}
	text := t.words + ". "
	switch now, _ := draw.MarginWords(a.garden); {
	case !a.settled():
		text += capital(t.before) + " before it; solving anew."
	case now == t.before:
		text += "Still " + now + "."
	default:
		text += capital(t.before) + " before it, now " + now + "."
	}
	if len(a.site.mine) > 0 {
		text += " " + a.keys.Undo.Help().Key + " takes the last one back."
	}
	return text
}

// settled says whether what is shown is the newest there is to show.
func (a app) settled() bool {
	return !a.site.busy && !a.solving && a.search == nil && (a.crews != nil || a.logicOnly)
}

// tickPromptWords say what is asked for.
func (a app) tickPromptWords() string {
	p := a.prompt
	if p.kind == textPrompt {
		asks := map[TickKind]string{TickLeft: "What is left, such as 3h or 2h30m", TickNote: "Note", TickPaused: "Why it pauses, or just enter",
			TickFailed: "What must be done, or just enter", TickRefused: "Why it is refused, or just enter"}[p.ticking.asked.Kind]
		if p.ticking.line > 0 {
			asks = fmt.Sprintf("Line %d, %s: %s", p.ticking.line, a.garden.Name(draw.Thing{Task: p.ticking.asked.Task, Delivery: p.ticking.asked.Delivery}), lower(asks))
		}
		return asks + ": " + p.text + "▁"
	}
	does := map[verb]string{tickNext: "Tick line", tickAt: "Tick line, and when, such as 3 14:20", tickLeft: "What is left of line",
		tickPause: "Pause or resume line", tickFail: "Failed or refused: line", tickNote: "Note on line"}[p.ticking.verb]
	text := does + ": " + p.text + "▁"
	if c := p.ticking.chosen; c > 0 && p.text == "" && p.ticking.verb != tickAt {
		text += fmt.Sprintf(" enter takes %d, %s", c, a.garden.Name(a.day.Lines()[c-1]))
	}
	return text
}

func capital(s string) string {
	first, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(first)) + s[n:]
}

func lower(s string) string { return strings.ToLower(s[:1]) + s[1:] }
