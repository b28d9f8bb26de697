// Package sitelog is the append-only record of what happened on site: events, how
// they are written, which of them can be, and what they add up to.
//
// A log is a text of lines, one JSON object a line, in any order. Each event has
// the moment at which it was true, the moment at which it was written and who
// wrote it. Nothing is ever changed or taken out of a log: an event that was wrong
// is undone by another. Moments are written in RFC 3339, on the site's clock;
// lines of older logs leave out the seconds, and mean the same event. A line may say of which
// format it is; one of a newer format than is read here is set aside, and told so.
//
// What counts is the set of events, not the order of lines: they are read in the
// order of the moments at which they were true ([Event.Before]). So two logs that
// were kept apart add up to one ([Merge]). Where two events can't both be, the
// first of them holds, and the other is a [Conflict] that is shown.
package sitelog

import (
	"cmp"
	"fmt"
	"strconv"
	"strings"
	"time"

	"build.example/turflast/calendars"
)

// Kind says what happened.
type Kind string

// The kinds of event, and the fields that they use besides the common ones.
const (
	Started    Kind = "started"         // Task, and perhaps Crew and People: who is at it, if others than planned
	Finished   Kind = "finished"        // Task: its work
	Left       Kind = "left"            // Task, Left
	Paused     Kind = "paused"          // Task, Text: why
	Resumed    Kind = "resumed"         // Task
	Arrived    Kind = "arrived"         // Delivery
	Refused    Kind = "refused"         // Delivery, Text: why
	Rebooked   Kind = "rebooked"        // Delivery, To
	Unloaded   Kind = "unloaded"        // Delivery: all of it
	Gone       Kind = "gone"            // Delivery: a collection that was loaded
	Loaded     Kind = "loaded"          // Delivery: its living stock lifted or cut, its mix batched
	Short      Kind = "short"           // Delivery, Text: what is missing or damaged of a load; perhaps To: the rest comes
	Ordered    Kind = "ordered"         // Delivery
	Confirmed  Kind = "confirmed"       // Delivery: it comes as booked, its sender says
	Signed     Kind = "signed"          // Task: its hold point; perhaps Who signed; on condition: Text, Takes, Crew, Until
	Failed     Kind = "failed"          // Task: its hold point or another check; Text: why; perhaps Takes, Crew, People
	Appointed  Kind = "appointment"     // Task: its hold point; To: one is agreed; Was: one is not any more
	SlotGot    Kind = "slot-got"        // Machine, From, Until: it is ours
	SlotLost   Kind = "slot-lost"       // Machine, From, Until: it isn't
	Away       Kind = "away"            // Machine: broken, or not come yet; perhaps Until: to be back, Text: why
	Back       Kind = "back"            // Machine
	Given      Kind = "given"           // Given: it is there
	Settled    Kind = "settled"         // Desk: an item of the desk list; perhaps Text
	Wet        Kind = "wet"             // Date, or From and Until: dry work stands still
	Windy      Kind = "windy"           // as Wet: calm work stands still
	Frost      Kind = "frost"           // as Wet: mild work stands still
	Heat       Kind = "heat"            // as Wet: mild work stands still
	People     Kind = "people"          // Crew, Date, People: how many turned up, or were there from From to Until
	DutyDone   Kind = "duty"            // Duty, Date: a daily duty was done; perhaps Who did it
	Accident   Kind = "accident"        // Text: what happened; perhaps Zone, Task, and Who saw it
	NearMiss   Kind = "near-miss"       // as Accident: nobody was hurt
	Closed     Kind = "accident-closed" // Of: the accident or near miss that is dealt with; perhaps Text
	Note       Kind = "note"            // Text, and perhaps Task or Delivery
	SnagOpened Kind = "snag-opened"     // Text, and perhaps Task
	SnagClosed Kind = "snag-closed"     // Of: the event that opened it; perhaps Text
	// Added is work that isn't in the plan: Task, the id that it gets; Text, Zone, Takes and Crew;
	// perhaps People, Follows, Precedes and Until.
	Added     Kind = "added"
	Cancelled Kind = "cancelled" // Task, and perhaps Text: why
	Undone    Kind = "undone"    // Of: the event taken back; perhaps Text
)

// Weather says whether an event of this kind is about weather in which some work stood still.
func (k Kind) Weather() bool { return k == Wet || k == Windy || k == Frost || k == Heat }

// Event is one thing that happened.
type Event struct {
	ID      string            // unique; see [NewID]
	What    Kind              //
	At      calendars.Instant // when it was true
	Written calendars.Instant // when it was written
	By      string            // who wrote it

	Task, Delivery, Crew, Given, Machine, Duty, Desk string // their ids in the plan, or empty

	Left        calendars.Minutes // working time with those who are at it
	Takes       calendars.Minutes // working time: of Failed to put it right, 0 when it isn't said; of added work
	To          calendars.Instant // of Rebooked, Short and Appointed: the new arrival, or appointment
	Was         calendars.Instant // of Appointed: one that isn't agreed any more
	Date        calendars.Date    // of weather, People and DutyDone
	From, Until calendars.Instant // of slots; of weather and People, for part of a date; of Away and added work Until
	People      int               // of Started, Failed and added work: of Crew, or 0 when it isn't said
	Text        string
	Of          string

	Who      string // signed, did the duty, or saw the accident
	Zone     string // of Added and accidents: where
	Follows  string // of Added: ids of tasks that it comes after, see [List]
	Precedes string // and of those that it comes before
}

// WholeDay says whether an event of weather or people is about its whole date.
func (e *Event) WholeDay() bool { return e.From == 0 }

// About is the time that an event of weather or people is about, on the clock of a location.
func (e *Event) About(loc *time.Location) calendars.Span {
	if !e.WholeDay() {
		return calendars.Span{Start: e.From, End: e.Until}
	}
	start, _ := calendars.At(loc, e.Date, 0)
	end, _ := calendars.At(loc, e.Date+1, 0)
	return calendars.Span{Start: start, End: end}
}

// Before orders events by the moment at which they were true, then by when they
// were written, then by id: no two of a log are equal in that.
func (e *Event) Before(o *Event) bool { return compare(e, o) < 0 }

func compare(a, b *Event) int {
	return cmp.Or(cmp.Compare(a.At, b.At), cmp.Compare(a.Written, b.Written), cmp.Compare(a.ID, b.ID))
}

// NewID makes the id of an event from the Unix time at which it is written, in
// milliseconds, and a random number: twelve and eight hexadecimal digits. Ids of
// one writer sort by time.
func NewID(milliseconds int64, random uint32) string {
	return fmt.Sprintf("%012x-%08x", uint64(milliseconds)&0xffff_ffff_ffff, random)
}

// WrittenAt is the time in an id, in milliseconds; ok is false for an id of another
// form.
func WrittenAt(id string) (milliseconds int64, ok bool) {
	ms, rest, _ := strings.Cut(id, "-")
	n, err := strconv.ParseInt(ms, 16, 64)
	return n, err == nil && len(ms) == 12 && len(rest) == 8
}

// subject is what an event is about, for a message.
func (e *Event) subject() string {
	return cmp.Or(e.Task, e.Delivery, e.Crew, e.Given, e.Machine, e.Duty, e.Desk, e.Of)
}
