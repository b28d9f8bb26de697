// Package whatif reads changes to a plan as people say them, and makes changed
// copies of plans.
//
// A change is one line:
//
//	stone 2d later                                  a delivery, or a given, by the clock
//	stone 4h earlier
//	stone on 2027-05-04 10:00                       a delivery's booking
//	power from 2027-05-03 16:00                     a given
//	frame 3h longer                                 a task, by its working time
//	frame 1h30m shorter
//	drop pots                                       a task, required or not
//	joiners 2 more on 2027-05-05                    a crew's heads on dates
//	joiners 1 fewer on 2027-05-05 and 2027-05-06
//	joiners work 2027-05-06 to 20:00                a crew's hours on a date
//	crane away 2027-05-05 07:00 to 12:00            a machine, or a whole crew
//	crane away on 2027-05-05
//	wet on 2027-05-04                               work that must be dry stands still
//	site open 2027-05-06 to 20:00                   the site or the gate, longer in the evening
//	site open 2027-05-06 from 06:00                 in the morning
//	site open 2027-05-02 09:00 to 15:00             or for a time of its own
//	site closed 2027-05-05 12:00 to 14:00
//	site closed on 2027-05-05
//	site closure on 2027-05-05 2h later             a closure of the plan, moved
//	site closure on 2027-05-05 12:00 1d earlier     by its start, where a date has several
//
// What a change names is an id of the plan, or a name, in double quotes when it
// has spaces or is a word of the change itself: "Larch frame" 3h longer. Dates
// are joined by "and" or a comma. The end of a span is a time of the same day,
// or a date and time.
//
// What the changes mean:
//
//   - A delivery that is moved comes then and not otherwise: its movable range
//     no longer holds.
//   - Work shared by heads, longer by 3 hours, is so much more work as the heads
//     of the logic programme do in 3 hours; fewer heads take longer over it. The
//     best and worst working times move along.
//   - A task that is dropped is gone with its links, and with the paths through it.
//   - On a wet day, work that must be dry stands still all day, and the next
//     morning until its place has been open for as long as the plan says that
//     it takes to dry.
//   - Hours are said for a date on which the site, gate or crew may have been
//     closed; closures still hold. Crews and a gate without hours of their own
//     keep the site's longer hours too.
//   - Of a task in hand, what is left gets longer or shorter. What has happened
//     can't be changed.
//   - Measures go that name a dropped task, or would buy hours that are open then.
package whatif

import (
	"fmt"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Kind is what a change does.
type Kind uint8

// The kinds of change.
const (
	Shift   Kind = iota // Name, a delivery or given, Length later
	Book                // Name, a delivery, comes at At
	Give                // Name, a given, is there from At
	Stretch             // Name, a task, Length longer
	Drop                // Name, a task
	Heads               // Name, a crew, has Heads more on Dates
	Work                // Name, a crew, works on Dates[0] from From to To
	Away                // Name, a machine or crew, over Span or on Dates
	Wet                 // on Dates
	Open                // Name, site or gate, on Dates[0] from From to To
	Close               // Name, site or gate, over Span or on Dates
	Closure             // of Name, site or gate, that begins on Dates[0], at From, Length later
)

// Moment is a date and a minute of its wall clock.
type Moment struct {
	Date   calendars.Date
	Minute calendars.Minutes
}

// Unsaid stands in From and To for a time that isn't said.
const Unsaid calendars.Minutes = -1

// Change is one change, as Parse reads it. Which of its fields say something
// depends on its kind.
type Change struct {
	Kind     Kind
	Name     string
	Length   calendars.Minutes // negative: earlier or shorter
	Heads    int               // negative: fewer
	Dates    []calendars.Date
	At       Moment
	Span     [2]Moment // both zero when Dates say the whole days
	From, To calendars.Minutes

	Pos schedule.Pos // in a what-if file; zero elsewhere

	text    string // as read
	columns columns
}

// columns are where the parts of a change stand in its text, from 1.
type columns struct{ name, amount, when int }

// Set is a named list of changes.
type Set struct {
	Name    string
	Note    string // may be empty
	Changes []Change
}

// Fault is what is wrong with a change, or why a plan refuses it.
type Fault struct {
	Change string // its text
	Column int    // in characters, from 1
	Text   string // what is wrong
	Hint   string // what to do; may be empty
	Index  int    // of the change in a list
}

// Error is the fault as one line.
func (f *Fault) Error() string {
	s := fmt.Sprintf("%q, column %d: %s", f.Change, f.Column, f.Text)
	if f.Hint != "" {
		s += "; " + f.Hint
	}
	return s
}

// String is the change as [Parse] reads it.
func (c Change) String() string {
	switch c.Kind {
	case Wet:
		return join("wet on", dates(c.Dates))
	case Open:
		return join(c.Name, "open", c.Dates[0].String(), c.hours())
	case Close:
		return join(c.Name, "closed", c.span())
	case Closure:
		at := c.Dates[0].String()
		if c.From != Unsaid {
			at += " " + calendars.FormatClock(c.From)
		}
		return join(c.Name, "closure on", at, length(c.Length), way(c.Length, "later", "earlier"))
	}
	return c.named()
}

// named is a change of a thing that the plan names.
func (c *Change) named() string {
	switch c.Kind {
	case Shift:
		return join(name(c.Name), length(c.Length), way(c.Length, "later", "earlier"))
	case Book:
		return join(name(c.Name), "on", c.At.String())
	case Give:
		return join(name(c.Name), "from", c.At.String())
	case Stretch:
		return join(name(c.Name), calendars.FormatWait(max(c.Length, -c.Length)), way(c.Length, "longer", "shorter"))
	case Drop:
		return join("drop", name(c.Name))
	case Heads:
		return join(name(c.Name), fmt.Sprint(max(c.Heads, -c.Heads)), way(calendars.Minutes(c.Heads), "more", "fewer"), "on", dates(c.Dates))
	case Work:
		return join(name(c.Name), "work", c.Dates[0].String(), c.hours())
	}
	return join(name(c.Name), "away", c.span())
}

func join(words ...string) string { return strings.Join(words, " ") }

func way(n calendars.Minutes, forward, back string) string {
	if n < 0 {
		return back
	}
	return forward
}

// length counts whole days as such.
func length(m calendars.Minutes) string {
	m = max(m, -m)
	if m >= calendars.Day && m%calendars.Day == 0 {
		return fmt.Sprintf("%dd", m/calendars.Day)
	}
	return calendars.FormatWait(m)
}

// String is the moment as a plan file writes it.
func (m Moment) String() string { return m.Date.String() + " " + calendars.FormatClock(m.Minute) }

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
	if c.Span == [2]Moment{} {
		return "on " + dates(c.Dates)
	}
	if c.Span[0].Date == c.Span[1].Date {
		return c.Span[0].String() + " to " + calendars.FormatClock(c.Span[1].Minute)
	}
	return c.Span[0].String() + " to " + c.Span[1].String()
}

// name puts quotes around a name that would be read as something else.
func name(s string) string {
	if strings.ContainsAny(s, " ,") || isKeyword(s) || s == "" {
		return `"` + s + `"`
	}
	return s
}

func isKeyword(s string) bool {
	switch s {
	case "drop", "wet", site, gate:
		return true
	}
	return false
}

// The places whose hours a change may name.
const (
	site = "site"
	gate = "gate"
)
