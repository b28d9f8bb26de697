package tui

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/sitelog"
	"build.example/turflast/tui/draw"
)

// untick takes back the last event of this writer; one that this screen hasn't written
// only after enter. ok is false when there is none, or the day isn't shown.
func (a app) untick() (next app, cmd tea.Cmd, ok bool) {
	if a.opts.Log == nil || a.tab != dayTab || a.garden == nil {
		return a, nil, false
	}
	if a.site.busy {
		a.notice = "The last tick is still being written."
		return a, nil, true
	}
	last := sitelog.LastOf(a.site.events, a.opts.Log.Writer())
	if last == nil {
		return a, nil, false
	}
	undo := sitelog.Event{What: sitelog.Undone, Of: last.ID, At: a.opts.Now()}
	if !a.site.mine[last.ID] {
		label := a.eventName(last) + ": " + draw.Clean(a.words.EventIn(a.site.events, last))
		a.prompt = prompt{kind: pickPrompt, ticking: ticking{picks: []pick{{label, undo}}}}
		return a, nil, true
	}
	next, cmd = a.add(undo)
	return next, cmd, true
}

// eventName is what an event is called: its day, and its number within that.
func (a app) eventName(e *sitelog.Event) string {
	return a.words.EventName(e, a.site.numbers[e.ID])
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
	if a.site.known != nil { // else no log was read yet, and the next one brings no news
		a.site.known = maps.Clone(a.site.known)
	}
	a.site.mine = maps.Clone(a.site.mine)
	if a.site.mine == nil {
		a.site.mine = map[string]bool{}
	}
	a.notice = draw.Clean(msg.said)
	w, words, undoes := wording.New(a.site.file), []string(nil), true
	for i := range msg.events {
		e := &msg.events[i]
		if a.site.mine[e.ID] = true; a.site.known != nil {
			a.site.known[e.ID] = true
		}
		text := eventWords(w, e, e.Written)
		if of := sitelog.Find(a.site.events, e.Of); of != nil {
			text = strings.TrimSuffix(draw.Clean(w.EventIn(a.site.events, e)), ".")
		}
		words, undoes = append(words, wording.Capital(text)), e.What != sitelog.Undone
		if e.What == sitelog.Accident || e.What == sitelog.NearMiss {
			a.notice = draw.Clean(strings.Join(w.Accident(e), " "))
		}
		a.site.events = append(slices.Clip(a.site.events), *e)
	}
	a.site.ticked = &ticked{strings.Join(words, ". "), a.site.ticked.before, undoes}
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
	default:
		text += wording.MarginMoved(t.before, now)
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

// tickPromptWords says what to type for a tick, and what enter would take.
func (a app) tickPromptWords() string {
	p, t := a.prompt, a.prompt.ticking
	switch p.kind {
	case textPrompt:
		return a.textWords()
	case pickPrompt:
		return a.pickWords()
	}
	text := t.verb.asks() + ": " + p.text + "▁"
	line := t.chosen
	number, _, _ := strings.Cut(strings.TrimSpace(p.text), " ")
	if n, err := strconv.Atoi(number); err == nil {
		line = draw.Numbered{Activity: schedule.Nothing}
		if found := a.garden.Numbers.Find(n); found != schedule.Nothing {
			line = draw.Numbered{Activity: found, Number: n}
		}
	}
	if line.Number == 0 {
		return text
	}
	text += fmt.Sprintf(" enter takes %d, %s", line.Number, a.garden.Name(line.Activity))
	if kind, why := a.kindOf(t.verb, line.Activity); why != "" {
		return text + ": " + why
	} else if done := tickedAs[kind]; done != "" {
		text += ": " + done
	}
	return text
}

// tickedAs says what a tick logs that needs no text.
var tickedAs = map[sitelog.Kind]string{
	sitelog.Started: "started", sitelog.Finished: "finished", sitelog.Signed: "signed off",
	sitelog.Arrived: "its lorry has come", sitelog.Resumed: "it goes on",
	sitelog.Unloaded: "it is unloaded", sitelog.Gone: "it is loaded and gone",
}

// textWords says which text a tick needs.
func (a app) textWords() string {
	p, t := a.prompt, a.prompt.ticking
	asks := map[sitelog.Kind]string{
		sitelog.Left: "what is left, such as 3h or 90 min", sitelog.Note: "note", sitelog.Paused: "why it pauses",
		sitelog.Failed:     "what is wrong, and how long putting it right takes if that is known",
		sitelog.Refused:    "why it is refused",
		sitelog.Rebooked:   "to when, such as 14:00 or tomorrow 9:00",
		sitelog.SnagOpened: "what is to be put right",
		sitelog.People:     "how many turned up, and when if not all day, such as 2 from 12:00",
		sitelog.Wet:        "enter if it was wet all day, or hours such as 10:00-14:00, or windy, frost, heat 13:00-15:00",
	}[t.event.What]
	switch {
	case t.verb == tickSaid:
		return "What happened, such as \"" + draw.Clean(a.typed(a.opts.Now()).TickExample()) + "\": " + p.text + "▁"
	case t.line.Number > 0:
		return fmt.Sprintf("%d, %s, %s: %s▁", t.line.Number, a.garden.Name(t.line.Activity), asks, p.text)
	case t.event.What == sitelog.Wet:
		return a.words.Day(t.event.Date) + ", " + asks + ": " + p.text + "▁"
	case t.event.What == sitelog.People:
		return draw.Clean(a.crewNamed(t.event.Crew)) + " on " + a.words.Day(t.event.Date) + ", " + asks + ": " + p.text + "▁"
	}
	return wording.Capital(asks) + ": " + p.text + "▁"
}

// dayOf is the date of a moment at the site.
func (a app) dayOf(at calendars.Instant) calendars.Date {
	return calendars.DateIn(at, a.site.file.Site.Location)
}
