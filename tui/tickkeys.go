package tui

import (
	"fmt"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/site/sitelog"
)

// tickKeys is what the keys of the day view log: each kind of event has one.
type tickKeys struct {
	Tick, At, Left, Pause, Fail, Note key.Binding
	Rebook, People, Wet               key.Binding
	Given, Snag, Right, Said          key.Binding
}

func defaultTickKeys() tickKeys {
	return tickKeys{
		Tick:   bind("t", "tick a line off: started, finished, signed; a lorry: came, unloaded"),
		At:     bind("T", "tick a line off as of earlier: its number and the time"),
		Left:   bind("e", "enter what is left of a line's work"),
		Pause:  bind("z", "a line's work pauses, or goes on again"),
		Fail:   bind("x", "a line failed a check, or its lorry was refused"),
		Note:   bind("m", "note something on a line, or on 0, the garden"),
		Rebook: bind("B", "a lorry is booked for another time"),
		People: bind("P", "how many of a crew turned up"),
		Wet:    bind("W", wetDay),
		Given:  bind("G", "what others give is there: power, water, a permit"),
		Snag:   bind("F", "a fault to put right, on a line or on 0"),
		Right:  bind("R", "a fault has been put right"),
		Said:   bind("Y", "what happened, in words: several at once, a duty, an accident"),
	}
}

// wetDay is what the key of a wet day does, which is tried while the what-if is open.
const wetDay = "the day is wet: tried in the what-if, else logged"

func (k tickKeys) list() []key.Binding {
	return []key.Binding{k.Tick, k.At, k.Left, k.Pause, k.Fail, k.Note,
		k.Rebook, k.People, k.Wet, k.Given, k.Snag, k.Right, k.Said}
}

// verb returns what a key logs; ok is false for any other key.
func (k tickKeys) verb(press tea.KeyMsg) (v verb, ok bool) {
	for i, b := range k.list() {
		if key.Matches(press, b) {
			return verb(i), true
		}
	}
	return 0, false
}

// hint returns the main keys in a few words.
func (k tickKeys) hint() string {
	return fmt.Sprintf("%s tick   %s left   %s note", k.Tick.Help().Key, k.Left.Help().Key, k.Note.Help().Key)
}

// verb is what a key of the day view logs, in the order of [tickKeys.list].
type verb uint8

const (
	tickNext verb = iota
	tickAt
	tickLeft
	tickPause
	tickFail
	tickNote
	tickRebook
	tickPeople
	tickWet
	tickGiven
	tickSnag
	tickRight
	tickSaid
)

// anywhere says whether a verb may be about line 0, which is no line: the garden.
func (v verb) anywhere() bool { return v == tickNote || v == tickSnag }

// asks is what stands before the number of a line that is typed.
func (v verb) asks() string {
	return map[verb]string{
		tickNext: "Tick number", tickAt: "Tick number, and when, such as 3 14:20 or 3 4pm",
		tickLeft:  "What is left of number",
		tickPause: "Pause or resume number", tickFail: "Failed or refused: number", tickNote: "Note on number, 0 for none",
		tickRebook: "Booked anew: number", tickSnag: "To put right at number, 0 for none",
	}[v]
}

// kind returns what a key logs of a lorry or a task in some state, or why it can't.
func (v verb) kind(lorry bool, state sheets.State, paused bool) (kind sitelog.Kind, why string) {
	switch v {
	case tickNote:
		return sitelog.Note, ""
	case tickSnag:
		if lorry {
			return "", "a fault to put right is at a task, or at none: number 0"
		}
		return sitelog.SnagOpened, ""
	case tickLeft:
		if lorry || state != sheets.InHand {
			return "", "only work in hand has something left to enter"
		}
		return sitelog.Left, ""
	case tickPause:
		return pauseTick(lorry, state, paused)
	case tickFail:
		return failTick(lorry, state)
	case tickRebook:
		if !lorry || state != sheets.Ahead {
			return "", "only a lorry that hasn't come is booked anew"
		}
		return sitelog.Rebooked, ""
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
	return "", "only work that is finished fails, and only a lorry that hasn't come is refused"
}

// nextTick returns what is ticked next of an activity in some state, or why nothing is.
func nextTick(lorry bool, state sheets.State) (sitelog.Kind, string) {
	switch {
	case lorry && state == sheets.Ahead:
		return sitelog.Arrived, ""
	case state == sheets.Ahead:
		return sitelog.Started, ""
	case state == sheets.InHand:
		return sitelog.Finished, ""
	case state == sheets.Unsigned:
		return sitelog.Signed, ""
	}
	return "", "it is ticked off already"
}

// lorryTick returns what is ticked next of a lorry that has come: that it is unloaded, or loaded
// and gone, though by the plan it may be already. Or why nothing is.
func lorryTick(p *schedule.Plan, d schedule.DeliveryID) (sitelog.Kind, string) {
	switch {
	case p.LoggedOver(d):
		return "", "it is ticked off already"
	case p.Deliveries[d].Out:
		return sitelog.Gone, ""
	}
	return sitelog.Unloaded, ""
}
