package sheets

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/site/progress"
)

// Book makes the sheets of one programme. Its methods but [Book.Logged] only read it, so
// they are safe for concurrent use.
type Book struct {
	network.Case
	Numbers *Numbers
	Lead    bool // it is the lead's copy: with slips and margins, and not the aim and "done by" alone

	// What the site log says besides progress; empty without a log.
	Notes []Note
	Snags []Snag // open
	// Planned is when each task was to be, as agreed or issued last, or else by the plan as it
	// is written; nil where the forecast alone says what is due.
	Planned  *schedule.Programme
	standing *progress.Standing
	Overdue  map[schedule.DeliveryID]calendars.Instant // the missed bookings of lorries that haven't come
}

// New returns the book of a programme.
func New(c network.Case, n *Numbers) *Book { return &Book{Case: c, Numbers: n} }

// Note is what somebody noted about a task or a delivery, or about neither.
type Note struct {
	Activity schedule.Activity // or Nothing
	At       calendars.Instant
	By       string
	Text     string
}

// Snag is a fault to be put right before the hand-over.
type Snag struct {
	ID     string
	Task   schedule.TaskID // or None
	Text   string
	Opened calendars.Instant
}

// Everyone stands for all crews.
const Everyone schedule.CrewID = schedule.None

// Told are the ids of the crews that a sheet is for: of one crew its own, of everyone's those
// of all and, for what no crew does, the empty one.
func Told(p *schedule.Plan, crew schedule.CrewID) []string {
	if crew != Everyone {
		return []string{p.Crews[crew].ID}
	}
	var out []string
	for i := range p.Crews {
		out = append(out, p.Crews[i].ID)
	}
	return append(out, "")
}

// Number is the short number of an activity.
func (b *Book) Number(a schedule.Activity) int { return b.Numbers.Of(a) }

// State is how far an activity is by the plan's progress.
type State uint8

// The states, in the order in which they are reached.
const (
	Ahead    State = iota // not begun; a lorry that hasn't come
	InHand                // begun; a lorry that is there
	Unsigned              // the work is finished, its hold point isn't signed
	Ticked                // over, and signed if it has a hold point
)

// StateOf says how far an activity is; everything is ahead in a plan without
// progress.
func StateOf(p *schedule.Plan, a schedule.Activity) State {
	t, task := p.Task(a)
	d, lorry := p.Delivery(a)
	switch {
	case p.Over(a) && task && p.Tasks[t].Hold != nil && p.Progress.Tasks[t].Signed == 0:
		return Unsigned
	case p.Over(a):
		return Ticked
	case p.Begun(a), lorry && p.Arrived(d):
		return InHand
	}
	return Ahead
}

// Line is a stretch of one day in which a task or an unloading is worked on.
type Line struct {
	Activity schedule.Activity
	Number   int
	Span     calendars.Span // from the first minute of the day to the last
	First    bool           // the work begins in it
	Last     bool           // the work is finished in it
}

// Lines lists the work of a date, of a crew or of everyone, by its start.
func (b *Book) Lines(on calendars.Date, crew schedule.CrewID) []Line {
	day := b.day(on)
	var out []Line
	for a := range b.Plan.Activities() {
		if !b.Programme.Of(a).Start.IsReal() || b.Programme.LeavesOut(a) || !Needs(b.Plan.CrewOf(a), crew) {
			continue
		}
		spans := b.worked(a)
		if s := across(spans, day); s.Start != 0 {
			out = append(out, Line{a, b.Number(a), s, s.Start == spans[0].Start, s.End == spans[len(spans)-1].End})
		}
	}
	slices.SortStableFunc(out, func(a, c Line) int { return cmp.Compare(a.Span.Start, c.Span.Start) })
	return out
}

// Needs reports whether a crew is among those needed; Everyone always is.
func Needs(crew []schedule.CrewNeed, c schedule.CrewID) bool {
	return c == Everyone || slices.ContainsFunc(crew, func(n schedule.CrewNeed) bool { return n.Crew == c })
}

// worked returns the stretches of an activity. For an unloading, and for a task without
// work, that is the one from its start to its finish.
func (b *Book) worked(a schedule.Activity) []calendars.Span {
	if t, task := b.Plan.Task(a); task && len(b.Programme.Tasks[t].Work) > 0 {
		return b.Programme.Tasks[t].Work
	}
	d := b.Programme.Of(a)
	return []calendars.Span{{Start: d.Start, End: d.Finish}}
}

// DaysOf lists the stretches of an activity by day: on each day from its first minute to
// its last. None is worked without dates.
func (b *Book) DaysOf(a schedule.Activity) []calendars.Span {
	if !b.Programme.Of(a).Start.IsReal() {
		return nil
	}
	var out []calendars.Span
	spans := b.worked(a)
	for on := b.date(spans[0].Start); on <= b.date(spans[len(spans)-1].End); on++ {
		if s := across(spans, b.day(on)); s.Start != 0 {
			out = append(out, s)
		}
	}
	return out
}

// across returns the stretch from the first to the last of the spans that lie in
// another, cut to it; the zero span if none does.
func across(spans []calendars.Span, in calendars.Span) (s calendars.Span) {
	for _, w := range spans {
		if w.Start < in.End && (w.End > in.Start || w.Start == w.End && w.Start >= in.Start) {
			if s == (calendars.Span{}) {
				s.Start = max(w.Start, in.Start)
			}
			s.End = min(w.End, in.End)
		}
	}
	return s
}

// day is the span of a date at the site.
func (b *Book) day(on calendars.Date) calendars.Span {
	from, _ := calendars.At(b.Plan.Site.Location, on, 0)
	to, _ := calendars.At(b.Plan.Site.Location, on+1, 0)
	return calendars.Span{Start: from, End: to}
}

// date is the civil date of a moment at the site.
func (b *Book) date(t calendars.Instant) calendars.Date {
	return calendars.DateIn(t, b.Plan.Site.Location)
}

// Days returns the first and the last date of the sheets: those of the window, and of
// work and arrivals outside it.
func (b *Book) Days() (first, last calendars.Date) {
	from, to := b.Plan.Site.Opens, b.Plan.Site.Handover
	for i := range b.Programme.Tasks {
		if d := &b.Programme.Tasks[i]; d.Start.IsReal() && d.Finish.IsReal() {
			from, to = min(from, d.Start), max(to, d.Finish)
		}
	}
	for i := range b.Programme.Unloads {
		if u := &b.Programme.Unloads[i]; u.Arrives.IsReal() {
			from, to = min(from, u.Arrives), max(to, u.Arrives+1)
		}
	}
	return b.date(from), b.date(to - 1)
}
