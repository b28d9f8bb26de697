package trials

import (
	"fmt"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network/worktime"
)

// KeyMap is what keys do while the what-if is open: the first make changes to
// what is chosen, the rest act on the list.
type KeyMap struct {
	Less, More             key.Binding
	MuchLess, MuchMore     key.Binding
	Fewer, MoreHeads       key.Binding
	Wet, Longer, Leave     key.Binding
	Type, Up, Down         key.Binding
	Keep, Drop, Save, Open key.Binding
	Write, Moves           key.Binding
}

// DefaultKeys returns the keys of the what-if.
func DefaultKeys() KeyMap {
	return KeyMap{
		More:      bind(".", "try it later: a delivery by an hour, a task longer by a quarter of one"),
		Less:      bind(",", "try it earlier, or shorter, by as much"),
		MuchMore:  bind(">", "a delivery a day later, a task an hour longer"),
		MuchLess:  bind("<", "a day earlier, an hour shorter"),
		Fewer:     bind("h", "one head fewer in its crew on that day"),
		MoreHeads: bind("H", "one head more in its crew on that day"),
		Wet:       bind("W", "the day is wet: tried in the what-if, else logged"),
		Longer:    bind("L", "the site is open an hour longer on that day"),
		Leave:     bind("D", "do without the task"),
		Type:      bind(":", "add a change in words, such as slate 2 days late"),
		Up:        bind("{", "choose the change above"),
		Down:      bind("}", "choose the change below"),
		Keep:      bind("S", "set the change aside; again: keep it"),
		Drop:      key.NewBinding(key.WithKeys("backspace", "delete"), key.WithHelp("⌫", "drop the change")),
		Save:      bind("s", "name the what-if and save it"),
		Open:      bind("O", "open a what-if that was saved"),
		Write:     bind("I", "write it into the plan file; again: take that back"),
		Moves:     bind("M", "what the changes do: before and after, what breaks, what moves"),
	}
}

// bind returns a key with what it does.
func bind(k, does string) key.Binding {
	return key.NewBinding(key.WithKeys(k), key.WithHelp(k, does))
}

// Steps returns the keys that try what is chosen later or earlier, longer or shorter,
// which work in every view.
func (k KeyMap) Steps() []key.Binding { return []key.Binding{k.More, k.Less, k.MuchMore, k.MuchLess} }

// List returns the keys that work while the what-if is open, in the order of the help.
func (k KeyMap) List() []key.Binding {
	return []key.Binding{k.Fewer, k.MoreHeads, k.Wet, k.Longer, k.Leave,
		k.Type, k.Up, k.Down, k.Keep, k.Drop, k.Save, k.Open, k.Write, k.Moves}
}

// Hint returns the main keys in a few words. undo is the key that takes a step back;
// task says whether a task is chosen, not a delivery.
func (k KeyMap) Hint(undo string, task bool) string {
	step, large := " an hour  ", " a day  "
	if task {
		step, large = " a quarter  ", " an hour  "
	}
	return k.Less.Help().Key + " " + k.More.Help().Key + step + k.MuchLess.Help().Key + " " +
		k.MuchMore.Help().Key + large + k.Type.Help().Key + " in words  " + k.Keep.Help().Key + " aside  " +
		k.Moves.Help().Key + " more  " + undo + " undo  " + k.Write.Help().Key + " write"
}

// StepHint returns the keys that try what is chosen otherwise in a few words.
func (k KeyMap) StepHint() string {
	return "Try it: " + k.Less.Help().Key + " " + k.More.Help().Key + " an hour, " +
		k.MuchLess.Help().Key + " " + k.MuchMore.Help().Key + " a day"
}

// On is what keys make changes to: the chosen activity, its day and its crew.
type On struct {
	Plan     *schedule.Plan
	Hours    *worktime.Set
	Activity schedule.Activity // or Nothing
	Booked   calendars.Instant // when the delivery is shown to arrive
	Date     calendars.Date    // 0 for none
	Crew     schedule.CrewID   // or None
}

// quarter is the finest step of a task by key.
const quarter calendars.Minutes = 15

// Press makes the change that a key asks for. why says why it can't be made; ok is false
// for a key that makes none.
func (s Set) Press(k KeyMap, press tea.KeyMsg, on On) (next Set, why string, ok bool) {
	ok = true
	switch {
	case key.Matches(press, k.More):
		next, why = s.longerOrLater(on, calendars.Hour, 0, quarter)
	case key.Matches(press, k.Less):
		next, why = s.longerOrLater(on, -calendars.Hour, 0, -quarter)
	case key.Matches(press, k.MuchMore):
		next, why = s.longerOrLater(on, 0, 1, calendars.Hour)
	case key.Matches(press, k.MuchLess):
		next, why = s.longerOrLater(on, 0, -1, -calendars.Hour)
	default:
		return s.pressDay(k, press, on)
	}
	return next, why, ok
}

// pressDay makes the changes to a day, or to a crew or a task on it.
func (s Set) pressDay(k KeyMap, press tea.KeyMsg, on On) (next Set, why string, ok bool) {
	next, ok = s, true
	switch {
	case key.Matches(press, k.Fewer):
		next, why = s.heads(on, -1)
	case key.Matches(press, k.MoreHeads):
		next, why = s.heads(on, 1)
	case key.Matches(press, k.Wet):
		next, why = s.wet(on)
	case key.Matches(press, k.Longer):
		next, why = s.longer(on)
	case key.Matches(press, k.Leave):
		next, why = s.leave(on)
	default:
		ok = false
	}
	return next, why, ok
}

// longerOrLater moves a delivery, or makes a task longer or shorter.
func (s Set) longerOrLater(on On, by calendars.Minutes, days calendars.Date, task calendars.Minutes) (Set, string) {
	t, ok := on.Plan.Task(on.Activity)
	switch {
	case on.Activity == schedule.Nothing:
		return s, "Choose a delivery or a task first."
	case !ok:
		return s.Move(on, by, days)
	case on.Plan.Finished(t):
		return s, "That task is finished."
	}
	return s.Step(change(schedule.ChangeStretch, on.Plan.Tasks[t].ID, task)), ""
}

func change(k schedule.ChangeKind, name string, by calendars.Minutes) schedule.Change {
	return schedule.Change{Kind: k, Name: name, Length: by, From: schedule.Unsaid, To: schedule.Unsaid}
}

// heads takes people out of a crew on a day, or puts them in.
func (s Set) heads(on On, by int) (Set, string) {
	if on.Crew < 0 || on.Date == 0 {
		return s, "Nobody's crew is chosen: choose a task that a crew does."
	}
	c := change(schedule.ChangeHeads, on.Plan.Crews[on.Crew].ID, 0)
	c.Heads, c.Dates = by, []calendars.Date{on.Date}
	return s.Step(c), ""
}

// wet makes a day wet, or dry again.
func (s Set) wet(on On) (Set, string) {
	if on.Date == 0 {
		return s, "No day is chosen."
	}
	c := change(schedule.ChangeWet, "", 0)
	c.Dates = []calendars.Date{on.Date}
	return s.Step(c), ""
}

// longer opens the site an hour longer on a day.
func (s Set) longer(on On) (Set, string) {
	if on.Date == 0 {
		return s, "No day is chosen."
	}
	c := change(schedule.ChangeOpen, "site", 0)
	c.Dates = []calendars.Date{on.Date}
	last := s.closes(on, c)
	switch {
	case last == 0:
		const text = "The site is closed on that day: add its hours in words, such as site open %s 09:00 to 15:00."
		return s, fmt.Sprintf(text, on.Date)
	case last >= calendars.Day:
		return s, "The site is open until midnight on that day already."
	}
	c.To = min(last+calendars.Hour, calendars.Day)
	return s.Step(c), ""
}

// closes returns the minute of the day at which the site closes for the last time on a
// date, with the hours that a change in the list gives it; 0 when it doesn't open.
func (s Set) closes(on On, like schedule.Change) calendars.Minutes {
	for _, t := range s.now.list {
		c := &t.Change
		opens := !t.Aside && c.Kind == schedule.ChangeOpen && c.Name == like.Name && c.Dates[0] == on.Date
		if opens && c.To != schedule.Unsaid {
			return c.To
		}
	}
	loc := on.Plan.Site.Location
	from, _ := calendars.At(loc, on.Date, 0)
	to, _ := calendars.At(loc, on.Date+1, 0)
	var last calendars.Minutes
	for span := range on.Hours.Site.Openings(from, to) {
		if end := min(span.End, to); end == to {
			last = calendars.Day
		} else {
			last = clock(end, on.Plan)
		}
	}
	return last
}

// leave drops a task.
func (s Set) leave(on On) (Set, string) {
	t, ok := on.Plan.Task(on.Activity)
	if !ok {
		return s, "Choose a task first."
	}
	if on.Plan.Started(t) {
		return s, "That task is under way; what is left of it can only be longer or shorter."
	}
	return s.Step(change(schedule.ChangeDrop, on.Plan.Tasks[t].ID, 0)), ""
}
