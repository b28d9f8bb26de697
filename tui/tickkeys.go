package tui

import (
	"fmt"

	"github.com/charmbracelet/bubbles/key"

	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/site/sitelog"
)

// tickKeys is what the keys of the day view log.
type tickKeys struct{ Tick, At, Left, Pause, Fail, Note key.Binding }

func defaultTickKeys() tickKeys {
	return tickKeys{
		Tick:  bind("t", "tick a line off: started, finished, signed; a lorry that came"),
		At:    bind("T", "tick a line off as of earlier: its number and the time"),
		Left:  bind("e", "enter what is left of a line's work"),
		Pause: bind("z", "a line's work pauses, or goes on again"),
		Fail:  bind("x", "a line's sign-off failed, or its lorry was refused"),
		Note:  bind("m", "note something on a line, or on 0, the garden"),
	}
}

func (k tickKeys) list() []key.Binding {
	return []key.Binding{k.Tick, k.At, k.Left, k.Pause, k.Fail, k.Note}
}

// hint returns the main keys in a few words.
func (k tickKeys) hint() string {
	return fmt.Sprintf("%s tick   %s left   %s note", k.Tick.Help().Key, k.Left.Help().Key, k.Note.Help().Key)
}

// verb is what a key of the day view logs.
type verb uint8

const (
	tickNext verb = iota
	tickAt
	tickLeft
	tickPause
	tickFail
	tickNote
)

// kind returns what a key logs of a lorry or a task in some state, or why it can't.
func (v verb) kind(lorry bool, state sheets.State, paused bool) (kind sitelog.Kind, why string) {
	switch v {
	case tickNote:
		return sitelog.Note, ""
	case tickLeft:
		if lorry || state != sheets.InHand {
			return "", "only work in hand has something left to enter"
		}
		return sitelog.Left, ""
	case tickPause:
		return pauseTick(lorry, state, paused)
	case tickFail:
		return failTick(lorry, state)
	}
	return nextTick(lorry, state)
}

func pauseTick(lorry bool, state sheets.State, paused bool) (sitelog.Kind, string) {
	switch {
	case lorry || state != sheets.InHand:
		return "", "only work in hand pauses"
	case paused:
		return sitelog.Resumed, ""
	}
	return sitelog.Paused, ""
}

func failTick(lorry bool, state sheets.State) (sitelog.Kind, string) {
	switch {
	case lorry && state == sheets.Ahead:
		return sitelog.Refused, ""
	case state == sheets.Unsigned:
		return sitelog.Failed, ""
	}
	return "", "only a sign-off that is due fails, and only a lorry that hasn't come is refused"
}

// nextTick returns what is ticked next of an activity in some state, or why nothing is.
func nextTick(lorry bool, state sheets.State) (sitelog.Kind, string) {
	switch {
	case lorry && state == sheets.Ahead:
		return sitelog.Arrived, ""
	case lorry && state == sheets.InHand:
		return "", "its lorry has come; when it is unloaded isn't ticked"
	case state == sheets.Ahead:
		return sitelog.Started, ""
	case state == sheets.InHand:
		return sitelog.Finished, ""
	case state == sheets.Unsigned:
		return sitelog.Signed, ""
	}
	return "", "it is ticked off already"
}
