package said

import (
	"fmt"
	"slices"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Happened is what a tick says of its things.
type Happened string

// What can be ticked, in the words of the log's commands.
const (
	Started   Happened = "start"
	Finished  Happened = "finish"
	Left      Happened = "left" // so much work
	Paused    Happened = "pause"
	Resumed   Happened = "resume"
	Arrived   Happened = "arrive"
	Unloaded  Happened = "unloaded"
	Gone      Happened = "gone" // a lorry that was loaded
	Refused   Happened = "refuse"
	Rebooked  Happened = "rebook"
	Ordered   Happened = "ordered"
	Confirmed Happened = "confirmed" // as booked
	Signed    Happened = "sign"
	Failed    Happened = "fail"
	Appointed Happened = "appointment" // somebody comes to sign, or doesn't
	Loaded    Happened = "loaded"      // living stock lifted or cut, a mix batched
	Short     Happened = "short"       // something of a load is missing
	Away      Happened = "away"        // a machine
	Back      Happened = "back"        // a machine
	SlotGot   Happened = "slot"        // of a machine
	SlotLost  Happened = "lost"        // a slot of a machine
	Given     Happened = "given"
	Settled   Happened = "settled" // an item of the desk list
	Wet       Happened = "wet"
	Windy     Happened = "windy"
	Frost     Happened = "frost"
	Heat      Happened = "heat"
	People    Happened = "people"
	DutyDone  Happened = "duty" // a daily duty
	Accident  Happened = "accident"
	NearMiss  Happened = "near-miss"
	Note      Happened = "note"
	Snag      Happened = "snag"
	Undone    Happened = "undo"
	Cancelled Happened = "cancel"
	Added     Happened = "add" // work that isn't in the plan

	AsPlanned Happened = "as planned" // what should have happened by now, of some things or of all
)

// Tick is something that happened.
type Tick struct {
	What    Happened
	IDs     []string           // of tasks, lorries, desk items, one crew or a given, as the kind has it
	At      *schedule.Moment   // nil: just now
	Started *schedule.Moment   // of Finished: when it was started, if that is said too
	Came    *schedule.Moment   // of Unloaded and Gone: when it came, if that is said too
	To      *schedule.Moment   // of Rebooked and Appointed; of Short: the rest comes; of Away: it is back
	Was     *schedule.Moment   // of Appointed: the appointment that isn't any more
	Date    calendars.Date     // of weather, People and DutyDone
	Span    [2]schedule.Moment // of slots; of weather and People, for a part of the date
	Left    calendars.Minutes
	Takes   calendars.Minutes // of Failed: putting it right, 0 when it isn't said; of a condition and of Added
	By      string            // who signed, did a duty or saw an accident; empty when it isn't said
	Crew    string            // of Started, Failed, a condition and Added: who is at it, an id; empty when it isn't said
	Heads   int               // of Crew; 0 when it isn't said
	People  int
	Text    string           // of Signed: on condition of what
	Zone    string           // of Added: an id
	After   []string         // of Added: ids of tasks that come before it
	Before  []string         // and of those that come after it
	Until   *schedule.Moment // of a condition and of Added: by when it is to be done; nil when it isn't said
}

// String is the tick in its normal form: the words of the log's commands.
func (t Tick) String() string {
	words := []string{string(t.What)}
	add := func(format string, args ...any) { words = append(words, fmt.Sprintf(format, args...)) }
	if len(t.IDs) > 0 {
		add("%s", strings.Join(t.IDs, ", "))
	}
	if more := t.figures(); more != "" {
		add("%s", more)
	}
	if t.At != nil {
		add("%s", *t.At)
	}
	if t.Started != nil {
		add("started %s", *t.Started)
	}
	if by := t.by(); by != "" {
		add("%s", by)
	}
	if t.Came != nil {
		add("came %s", *t.Came)
	}
	words = t.told(words)
	if t.What == Failed && (t.Takes != 0 || t.Crew != "") {
		words[len(words)-1] += ", " + t.right()
	}
	return strings.Join(words, " ")
}

// told adds the text of a tick to the words of its normal form, with what plans the work
// that it is.
func (t *Tick) told(words []string) []string {
	switch {
	case t.Text == "":
		return words
	case t.What == Signed:
		return append(words, "on condition", t.Text+",", t.plan())
	}
	words[len(words)-1] += ":"
	if t.What == Added {
		return append(words, t.Text, "in", t.Zone+",", t.plan())
	}
	return append(words, t.Text)
}

// figures is the part of the normal form that only some kinds have, behind the things.
func (t *Tick) figures() string {
	switch t.What {
	case Left:
		return calendars.FormatWait(t.Left)
	case Rebooked:
		return fmt.Sprintf("to %s", t.To)
	case Short, Away:
		return t.then()
	case Appointed:
		return t.appointment()
	case SlotGot, SlotLost:
		return fmt.Sprintf("%s to %s", t.Span[0], t.Span[1])
	case Wet, Windy, Frost, Heat:
		return t.Date.String() + t.hours()
	case DutyDone:
		return t.onDate()
	case People:
		return fmt.Sprintf("%d on %s", t.People, t.Date) + t.hours()
	}
	return ""
}

// Ticks understands what happened: "58 59 done 4pm", "slate here 7:05, 21 started". The
// error is a *Doubt.
func (g *Garden) Ticks(text string) ([]Tick, error) {
	return ticks.understand(g, text, g.TickExample())
}

// TickExample is something that could have happened in this garden, in words that are
// understood.
func (g *Garden) TickExample() string {
	if len(g.Plan.Tasks) == 0 {
		return "rain yesterday"
	}
	return g.Plan.Tasks[0].ID + " started"
}

// speaksOfTicks says whether a part of a text, between signs, reads like a tick of
// something by its name.
func (g *Garden) speaksOfTicks(text string) bool {
	named := func(m meaning[Tick]) bool { return len(m.list) == 0 || len(m.list[0].IDs) > 0 }
	for part := range strings.FieldsFuncSeq(text, func(r rune) bool { return strings.ContainsRune(",;.", r) }) {
		s := g.saying(strings.TrimSpace(part))
		if len(s.words) > 1 && len(s.words) <= mostWords && slices.ContainsFunc(events.whole(s), named) {
			return true
		}
	}
	return false
}

// tick is a tick of the things found.
func (f found) tick(what Happened) Tick {
	t := Tick{What: what, At: f.at, Started: f.started, Text: f.text, Crew: f.crew, Heads: f.heads, By: f.by}
	for _, th := range f.things {
		t.IDs = append(t.IDs, th.id)
	}
	return t
}

// simply makes a tick of a kind.
func simply(what Happened) func(*Garden, found) []meaning[Tick] {
	return func(_ *Garden, f found) []meaning[Tick] { return as(f, f.tick(what)) }
}

// doubtful makes a tick of a kind that must be asked.
func doubtful(what Happened, why string) func(*Garden, found) []meaning[Tick] {
	return func(_ *Garden, f found) []meaning[Tick] { return asking(f, why, f.tick(what)) }
}

// unsaid asks for what is missing, without a choice.
func unsaid[T fmt.Stringer](why string) func(*Garden, found) []meaning[T] {
	return func(_ *Garden, f found) []meaning[T] { return asking[T](f, why) }
}

// leftOf is a task of which work is left.
func leftOf(_ *Garden, f found) []meaning[Tick] {
	t := f.tick(Left)
	t.Left = f.length.minutes
	return as(f, t)
}

// cameAnd is a lorry that was unloaded, or went, of which it is said too when it came.
func cameAnd(what Happened) func(*Garden, found) []meaning[Tick] {
	return func(_ *Garden, f found) []meaning[Tick] {
		t := f.tick(what)
		t.Came, t.Started = t.Started, nil
		return as(f, t)
	}
}

// lorryLeft is a lorry that left: one that is loaded goes, any other was unloaded or sent
// away.
func lorryLeft(g *Garden, f found) []meaning[Tick] {
	for _, th := range f.things {
		if !g.Plan.Deliveries[th.at].Out {
			why := schedule.QuoteWord(th.id) + " brings something: was it unloaded, or sent away, and why"
			return append(asking(f, why, f.tick(Unloaded)), asking[Tick](f, why)...)
		}
	}
	return as(f, f.tick(Gone))
}

// rebooked is a lorry that comes at another moment.
func rebooked(_ *Garden, f found) []meaning[Tick] {
	t := f.tick(Rebooked)
	t.To, t.At = f.at, nil
	return as(f, t)
}

// about is the date that is said, or that of the hours that are; today without either.
func (g *Garden) about(f found) (found, calendars.Date) {
	if f.span[1].Date != f.span[0].Date {
		f = f.doubting("say it for each date")
	}
	switch {
	case len(f.dates) > 0:
		return f, f.dates[0]
	case f.span[0].Date != 0:
		return f, f.span[0].Date
	}
	return f, g.today()
}

// turnedUp is how many of a crew were there, today unless a date is said.
func turnedUp(g *Garden, f found) []meaning[Tick] {
	f, on := g.about(f)
	t := f.tick(People)
	t.At, t.People, t.Date, t.Span = nil, f.count, on, f.span
	return as(f, t)
}

// fewerTurnedUp is a crew of which some are missing: how many were to come is asked.
func fewerTurnedUp(g *Garden, f found) []meaning[Tick] {
	n := g.Plan.Crews[f.things[0].at].People
	if f.fewer {
		n -= f.count
	} else {
		n += f.count
	}
	f.count = max(n, 0)
	return turnedUp(g, f.doubting("say how many turned up"))
}

// nobody is a crew of which nobody came.
func nobody(g *Garden, f found) []meaning[Tick] {
	f.count = 0
	return turnedUp(g, f)
}

// undone takes back the last tick.
func undone(*Garden, found) []meaning[Tick] { return as(found{}, Tick{What: Undone}) }
