package schedule

import (
	"errors"
	"fmt"
	"strings"

	"build.example/turflast/calendars"
)

// WhatIf is a named list of changes to a plan.
type WhatIf struct {
	Name    string
	Note    string // may be empty
	Changes []Change
}

// Change is one change to a plan. Which of its fields say something depends on
// its kind.
type Change struct {
	Kind     ChangeKind
	Name     string            // an id or a name of the plan, or SiteHours or GateHours
	Length   calendars.Minutes // negative: earlier or shorter
	Heads    int               // negative: fewer
	Dates    []calendars.Date
	At       Moment
	Span     [2]Moment // both zero when Dates say the whole days
	From, To calendars.Minutes
	New      *NewWork    // of a task or lorry that is new, or what one that isn't gets
	After    []string    // of a link: tasks and givens; of a task: what it uses, or does without; ids or names
	Link     NewLink     // of a link
	Measure  *NewMeasure // of a measure

	Pos     Pos           // in a what-if file; zero elsewhere
	Text    string        // as read; empty when no text was
	Columns ChangeColumns // of its parts in Text
}

// ChangeKind is what a change does.
type ChangeKind uint8

// The kinds of change.
const (
	ChangeShift   ChangeKind = iota // Name, a delivery or given, Length later
	ChangeBook                      // Name, a delivery, comes at At
	ChangeGive                      // Name, a given, is there from At
	ChangeStretch                   // Name, a task, Length longer
	ChangeDrop                      // Name, a task or a delivery, is taken out
	ChangeHeads                     // Name, a crew, has Heads more on Dates
	ChangeWork                      // Name, a crew, works on Dates[0] from From to To
	ChangeAway                      // Name, a machine or crew, over Span or on Dates
	ChangeWet                       // on Dates
	ChangeWindy                     // on Dates
	ChangeOpen                      // Name, site or gate, on Dates[0] from From to To
	ChangeClose                     // Name, site or gate, over Span or on Dates
	ChangeClosure                   // of Name, site or gate, that begins on Dates[0], at From, Length later
	ChangeSlot                      // Name, a machine with slots, is ours over Span as well
	ChangeSign                      // Name, a task, may be signed by an appointment at At as well
	ChangeStop                      // Name, a task, stands still over Span or on Dates
	ChangeTask                      // Name, a new task, as New says
	ChangeLorry                     // Name, a new lorry, comes at At, as New says
	ChangeLink                      // Name, a task or an unloading, comes after After, as Link says
	ChangeUnlink                    // Name, a task or an unloading, doesn't come after After any more
	ChangeNeeds                     // Name, a task, needs so many of crews and machines, as New says
	ChangeUses                      // Name, a task, uses After, deliveries
	ChangeWithout                   // Name, a task, does without After: crews, machines, deliveries
	ChangeZones                     // Name, a task, is in the zones that New says
	ChangeCure                      // Name, a task, cures for Length
	ChangeName                      // Name, a task or a delivery, is called as New says
	ChangeMeasure                   // Measure may be bought
)

// The names in a change that stand for the hours of the site and of the gate.
const (
	SiteHours = "site"
	GateHours = "gate"
)

// ChangeColumns are where the parts of a change stand in its text, in characters
// from 1.
type ChangeColumns struct{ Name, Amount, When int }

// Moment is a date and a minute of its wall clock.
type Moment struct {
	Date   calendars.Date
	Minute calendars.Minutes
}

// String is the moment as a plan file writes it.
func (m Moment) String() string { return m.Date.String() + " " + calendars.FormatClock(m.Minute) }

// Unsaid stands in From and To of a change for a time that is left out.
const Unsaid calendars.Minutes = -1

// ChangeFault is what is wrong with a change, or why a plan refuses it.
type ChangeFault struct {
	Change string // its text
	Column int    // in characters, from 1
	Text   string // what is wrong
	Hint   string // what to do; may be empty
	Index  int    // of the change in a list
}

// Error is the fault as one line.
func (f *ChangeFault) Error() string {
	s := fmt.Sprintf("%q, column %d: %s", f.Change, f.Column, f.Text)
	if f.Hint != "" {
		s += "; " + f.Hint
	}
	return s
}

// AsChangeFault is the fault of a change in an error; nil when it holds none.
func AsChangeFault(err error) *ChangeFault {
	var f *ChangeFault
	errors.As(err, &f)
	return f
}

// QuoteWord puts a word of a change in quotes for a fault, cut when it is long.
func QuoteWord(s string) string {
	const most = 40
	if runes := []rune(s); len(runes) > most {
		s = string(runes[:most-1]) + "…"
	}
	return `"` + s + `"`
}

// String is the change as a what-if file writes it.
func (c Change) String() string {
	switch c.Kind {
	case ChangeWet:
		return join("wet on", dates(c.Dates))
	case ChangeWindy:
		return join("windy on", dates(c.Dates))
	case ChangeOpen:
		return join(c.Name, "open", c.Dates[0].String(), c.hours())
	case ChangeClose:
		return join(c.Name, "closed", c.span())
	case ChangeClosure:
		at := c.Dates[0].String()
		if c.From != Unsaid {
			at += " " + calendars.FormatClock(c.From)
		}
		return join(c.Name, "closure on", at, shiftText(c.Length))
	case ChangeTask, ChangeLorry:
		return c.added()
	case ChangeLink:
		return join("link", quotedWord(c.Name), "after", quotedList(c.After)) + c.Link.String()
	case ChangeUnlink:
		return join("unlink", quotedWord(c.Name), "after", quotedList(c.After))
	case ChangeName:
		return join("rename", quotedWord(c.Name), "to", `"`+c.New.Name+`"`)
	case ChangeMeasure:
		return join("measure", c.Measure.Of.String()) + ", cost " + c.Measure.Cost.Plain()
	}
	return c.named()
}

// named is a change of something that the plan names.
func (c *Change) named() string {
	name := quotedWord(c.Name)
	switch c.Kind {
	case ChangeShift:
		return join(name, shiftText(c.Length))
	case ChangeBook:
		return join(name, "on", c.At.String())
	case ChangeGive:
		return join(name, "from", c.At.String())
	case ChangeStretch:
		return join(name, calendars.FormatWait(max(c.Length, -c.Length)), way(int(c.Length), "longer", "shorter"))
	case ChangeDrop:
		return join("drop", name)
	case ChangeHeads:
		return join(name, fmt.Sprint(max(c.Heads, -c.Heads)), way(c.Heads, "more", "fewer"), "on", dates(c.Dates))
	case ChangeWork:
		return join(name, "work", c.Dates[0].String(), c.hours())
	case ChangeSlot:
		return join(name, "ours", c.span())
	case ChangeSign:
		return join(name, "appointment", c.At.String())
	case ChangeStop:
		return join(name, "stops", c.span())
	case ChangeAway:
		return join(name, "away", c.span())
	}
	return join(name, c.gets())
}

func join(words ...string) string { return strings.Join(words, " ") }

func way(n int, forward, back string) string {
	if n < 0 {
		return back
	}
	return forward
}

// shiftText is "2d later" or "3h earlier"; whole days count as days.
func shiftText(by calendars.Minutes) string {
	m := max(by, -by)
	text := calendars.FormatWait(m)
	if m >= calendars.Day && m%calendars.Day == 0 {
		text = fmt.Sprintf("%dd", m/calendars.Day)
	}
	return join(text, way(int(by), "later", "earlier"))
}

func dates(list []calendars.Date) string {
	words := make([]string, len(list))
	for i, d := range list {
		words[i] = d.String()
	}
	return strings.Join(words, " and ")
}

func (c *Change) hours() string {
	switch {
	case c.From == Unsaid:
		return "to " + calendars.FormatClock(c.To)
	case c.To == Unsaid:
		return "from " + calendars.FormatClock(c.From)
	}
	return calendars.FormatClock(c.From) + " to " + calendars.FormatClock(c.To)
}

func (c *Change) span() string {
	from, to := c.Span[0], c.Span[1]
	switch {
	case c.Span == [2]Moment{}:
		return "on " + dates(c.Dates)
	case from.Date == to.Date:
		return from.String() + " to " + calendars.FormatClock(to.Minute)
	}
	return from.String() + " to " + to.String()
}
