package wording

import (
	"fmt"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/mend"
)

// WouldMend is the heading of what would mend a broken date.
const WouldMend = "What would mend it"

// Ask stands before a mend that the show or a neighbour must grant.
const Ask = "Ask: "

// mostBreaks is how many broken dates are named where nothing mends them.
const mostBreaks = 2

// MendsLead says what the mends that follow have in common, as a sentence; empty when
// each meets every date, and while there may be more to come of none. G is the programme
// in which dates break.
func (w *Writer) MendsLead(g *schedule.Programme, r *mend.Result) string {
	switch {
	case len(r.Mends) == 0 && r.Tried < r.Of:
		return ""
	case len(r.Mends) == 0:
		return w.nothingMends(g, r)
	case r.Mends[0].Brings == mend.Handover:
		return "Nothing that was tried, by itself, brings every date back. These bring the hand-over back:"
	case r.Mends[0].Brings == mend.Nearer:
		return "Nothing that was tried, by itself, mends it. These come nearest:"
	}
	return ""
}

// nothingMends says which dates nothing mends, what was tried, by kind, and what wasn't.
func (w *Writer) nothingMends(g *schedule.Programme, r *mend.Result) string {
	text := "Nothing that was tried mends this or brings it nearer."
	for i := range g.Blocked[:min(mostBreaks, len(g.Blocked))] {
		text += fmt.Sprintf(" %s has no place even so.", w.NameFirst(g.Blocked[i].Activity))
	}
	for _, b := range g.Breaks[:min(mostBreaks, len(g.Breaks))] {
		text += " " + w.Break(b)
	}
	if more := len(g.Breaks) - mostBreaks; more > 0 {
		text += " " + Count(more, "other date breaks.", "other dates break.")
	}
	var tried, untried []string
	for _, k := range r.Kinds {
		if k.Tried > 0 {
			tried = append(tried, kindOfAct(k.Kind, k.Tried))
		}
		if k.Untried > 0 {
			untried = append(untried, kindOfAct(k.Kind, k.Untried))
		}
	}
	if len(tried) == 0 {
		text += " Nothing could be tried."
	} else {
		text += fmt.Sprintf(" Tried: %s, %d of them solved anew or ruled out by proof.", list(tried), r.Tried)
	}
	if len(untried) > 0 {
		text += " Not tried: " + list(untried) + "."
	}
	return text
}

// kindOfAct counts things of one kind that could be done.
func kindOfAct(k mend.Kind, n int) string {
	said := [...][2]string{
		mend.OwnMeasure: {"measure of the plan", "measures of the plan"},
		mend.CrewHours:  {"hour more of a crew", "hours more of crews"}, mend.Heads: {"head more", "heads more"},
		mend.Stops:    {"stop of work for other work", "stops of work for other work"},
		mend.LeftOut:  {"optional task left out", "optional tasks left out"},
		mend.Rebooked: {"booking moved", "bookings moved"}, mend.Slots: {"slot more of a machine", "slots more of machines"},
		mend.Appointments: {"appointment more", "appointments more"},
		mend.PlaceHours:   {"hour more of site or gate", "hours more of site or gate"},
	}[k]
	return Count(n, said[0], said[1])
}

// MendsSoFar says how far the search for mends is, and which key ends it, as a sentence;
// empty once it is over.
func MendsSoFar(r *mend.Result, key string) string {
	if r.Tried >= r.Of {
		return ""
	}
	return fmt.Sprintf("Looking for what would mend it: %d of %d tried. %s ends the search.", r.Tried, r.Of, key)
}

// MendsRest says how many more do as much, and what wasn't solved with, as sentences;
// empty for none, and where nothing mends it: there the lead says so.
func MendsRest(r *mend.Result) string {
	if len(r.Mends) == 0 {
		return ""
	}
	var said []string
	if r.More > 0 {
		said = append(said, Count(r.More, "other does as much.", "others do as much."))
	}
	if r.Idle > 0 {
		said = append(said, Count(r.Idle, "other brings nothing in the order programmed.",
			"others bring nothing in the order programmed."))
	}
	if r.Untried > 0 {
		said = append(said, Count(r.Untried, "other wasn't tried.", "others weren't tried."))
	}
	return strings.Join(said, " ")
}

// WithEach is a sentence that is true with every mend of a list.
func WithEach(said string) string { return "With each of these: " + lower(said) }

// Mend says what could be done, what it costs where that is known, and what it brings, as
// a sentence. The writer must be that of the plan without it, g the programme of that.
func (w *Writer) Mend(g *schedule.Programme, m *mend.Mend) string {
	text := w.Act(&m.Act) + w.meanwhile(m)
	if m.Ask {
		text = Ask + text
	} else {
		text = Capital(text)
	}
	if m.Cost > 0 {
		text += ", " + w.Money(m.Cost)
	}
	return fmt.Sprintf("%s: %s, %s.", text, w.gain(g, m), taskMoves(m.Moved))
}

// CliffOfAll is what is said of the cliff with every one of several mends; empty when that
// differs.
func (w *Writer) CliffOfAll(mends []*mend.Mend) (said string) {
	for k, x := range mends {
		if text := w.Cliff(x); k == 0 {
			said = text
		} else if text != said {
			return ""
		}
	}
	if len(mends) < 2 {
		return ""
	}
	return said
}

// Cliff says where a little more work makes the last finish jump with a mend, as a
// sentence; empty where nothing does.
func (w *Writer) Cliff(m *mend.Mend) string {
	x := m.Cliff
	if x == nil {
		return ""
	}
	amount, done := "a minute", "it is done"
	if x.Spare > 0 {
		amount = work(x.Spare + 1)
	}
	if t := &m.Plan.Tasks[x.Task]; x.Cures && t.Cure > 0 {
		done = "its " + clock(t.Cure) + " cure ends"
	} else if x.Cures {
		done = "it is signed"
	}
	return fmt.Sprintf("%s more on %s, and %s %s: %s.", Capital(amount), m.Plan.Tasks[x.Task].Name, done,
		w.Moment(x.Done), against(x.Margin, "line"))
}

// gain says what a mend brings, as a clause.
func (w *Writer) gain(g *schedule.Programme, m *mend.Mend) string {
	after := m.Programme
	margin := against(after.Handover, "line")
	if after.Handover.Time > 0 {
		margin = work(after.Handover.Time) + " in hand"
	}
	broken := g.Handover.Time < 0 || g.Finish == calendars.Never
	switch {
	case m.Brings == mend.EveryDate && broken:
		return margin + " again"
	case m.Brings == mend.EveryDate:
		return "every date holds again, " + margin
	case m.Brings == mend.Handover:
		return fmt.Sprintf("%s again, %s still", margin, Count(len(after.Breaks), "date breaks", "dates break"))
	case after.Finish == calendars.Never:
		return "less is left without a place"
	case broken:
		return fmt.Sprintf("%s, %s", margin, w.sooner(g, after))
	}
	return "what breaks is less late, " + margin
}

// meanwhile says for what work stops, and when that has cured or is signed, as a clause;
// empty for any other mend.
func (w *Writer) meanwhile(m *mend.Mend) string {
	if !m.Stops() {
		return ""
	}
	d, t := &m.Programme.Tasks[m.For], &m.Plan.Tasks[m.For]
	text := " for " + t.Name
	switch {
	case t.Cure > 0 && d.Finish.Plus(t.Cure) == d.Done:
		text += fmt.Sprintf(", whose %s cure then ends %s", clock(t.Cure), w.Moment(d.Done))
	case t.Hold != nil:
		text += fmt.Sprintf(", which is then signed %s", w.Moment(d.Signed))
	default:
		text += fmt.Sprintf(", which is then finished %s", w.Moment(d.Finish))
	}
	return text
}

// sooner says how much sooner the last required work is done.
func (w *Writer) sooner(was, now *schedule.Programme) string {
	switch {
	case was.Finish == calendars.Never:
		return "not never"
	case now.Finish >= was.Finish:
		return "and less breaks"
	}
	if m := w.site().Between(now.Finish, was.Finish); m > 0 {
		return work(m) + " sooner"
	}
	return elapsed(now.Finish, was.Finish) + " sooner on the clock"
}

// taskMoves says how many tasks move, as a clause.
func taskMoves(n int) string {
	switch n {
	case 0:
		return "no task moves"
	case 1:
		return "one task moves"
	}
	return fmt.Sprintf("%d tasks move", n)
}

// Act says what could be done, as a clause: "masons until 19:00 on Tue 4 May".
func (w *Writer) Act(a *mend.Act) string {
	if a.Measure != schedule.None {
		return w.Measure(&w.plan.Measures[a.Measure])
	}
	c := &a.Changes[len(a.Changes)-1]
	switch c.Kind {
	case schedule.ChangeWork:
		who := w.crewNamed(c.Name)
		if len(a.Changes) > 1 {
			who += ", and the site open,"
		}
		return fmt.Sprintf("%s %s on %s", who, longerTo(c), w.Day(c.Dates[0]))
	case schedule.ChangeOpen:
		return fmt.Sprintf("the %s open %s on %s", c.Name, longerTo(c), w.Day(c.Dates[0]))
	case schedule.ChangeHeads:
		return fmt.Sprintf("%d more of %s on %s", c.Heads, w.crewNamed(c.Name), w.Day(c.Dates[0]))
	case schedule.ChangeSlot:
		return fmt.Sprintf("%s ours %s as well", w.machineNamed(c.Name), w.Span(calendars.Span{
			Start: w.instant(c.Span[0]), End: w.instant(c.Span[1])}))
	case schedule.ChangeStop:
		return fmt.Sprintf("%s stopped %s", w.Task(w.plan.FindTask(c.Name)), w.Span(calendars.Span{
			Start: w.instant(c.Span[0]), End: w.instant(c.Span[1])}))
	case schedule.ChangeSign:
		t := w.plan.FindTask(c.Name)
		return fmt.Sprintf("an appointment %s for %s (%s)", w.Moment(w.instant(c.At)), w.Task(t), w.hold(t))
	case schedule.ChangeBook:
		d := w.plan.FindDelivery(c.Name)
		at, was := w.instant(c.At), w.plan.Deliveries[d].Arrives
		return fmt.Sprintf("%s booked for %s, %s", w.Delivery(d), w.Moment(at), apart(was, at))
	}
	return w.Task(w.plan.FindTask(c.Name)) + " left out"
}

// longerTo says until when, or from when on, a change makes hours longer.
func longerTo(c *schedule.Change) string {
	switch {
	case c.From == schedule.Unsaid:
		return "until " + calendars.FormatClock(c.To)
	case c.To == schedule.Unsaid:
		return "from " + calendars.FormatClock(c.From)
	}
	return fmt.Sprintf("%s-%s as well", calendars.FormatClock(c.From), calendars.FormatClock(c.To))
}

func (w *Writer) machineNamed(id string) string {
	for i := range w.plan.Machines {
		if w.plan.Machines[i].ID == id {
			return w.plan.Machines[i].Name
		}
	}
	return id
}

func (w *Writer) instant(m schedule.Moment) calendars.Instant {
	t, _ := calendars.At(w.plan.Site.Location, m.Date, m.Minute)
	return t
}
