package wording

import (
	"fmt"
	"slices"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/sheets"
)

// FactKind says what a fact of a run sheet is about.
type FactKind uint8

// The kinds of fact, in the order of a sheet.
const (
	FactHappened FactKind = iota // what has happened to it
	FactWhere                    // until when, where, with whom and which machines
	FactBefore                   // what must be done before
	FactGate                     // what comes or goes through the gate for it, and when
	FactAfter                    // what waits for it
	FactDone                     // when it is done, and who signs it off
	FactSlip                     // how long it may slip before it hurts, on the lead's copy
	FactWeather                  // the weather it needs, and the hours of loud work
	FactRoom                     // the room it takes from others
	FactCare                     // its hazards
	FactNote                     // the plan's own note
	FactBreak                    // a date that it breaks
)

// Role is the role of a fact on a page: what has happened stands out, what comes before
// and after is quiet.
func (k FactKind) Role() page.Role {
	switch k {
	case FactHappened:
		return page.Strong
	case FactBefore, FactAfter:
		return page.Quiet
	case FactBreak:
		return page.Late
	}
	return page.Plain
}

// Fact is one thing that a run sheet says of a line, as sentences.
type Fact struct {
	Kind FactKind
	Text string
}

// together are the kinds of fact that make one paragraph.
var together = [...][]FactKind{
	{FactHappened}, {FactWhere}, {FactBefore, FactGate}, {FactAfter}, {FactDone},
	{FactSlip, FactWeather, FactRoom, FactCare, FactNote},
}

// SheetParagraphs is [Writer.SheetLine] in paragraphs. The kind of a paragraph is the
// first of the kinds that may be in it. Each broken date has a paragraph of its own.
func (w *Writer) SheetParagraphs(b *sheets.Book, l sheets.Line) []Fact {
	facts := w.SheetLine(b, l)
	var out []Fact
	for _, kinds := range together {
		var said []string
		for _, f := range facts {
			if slices.Contains(kinds, f.Kind) {
				said = append(said, f.Text)
			}
		}
		if len(said) > 0 {
			out = append(out, Fact{kinds[0], strings.Join(said, " ")})
		}
	}
	for _, f := range facts {
		if f.Kind == FactBreak {
			out = append(out, f)
		}
	}
	return out
}

// factList gathers facts whose text isn't empty.
type factList []Fact

func (f *factList) add(kind FactKind, text string) {
	if text = strings.TrimSpace(text); text != "" {
		*f = append(*f, Fact{kind, text})
	}
}

// SheetLine is all that a run sheet says about one of its lines.
func (w *Writer) SheetLine(b *sheets.Book, l sheets.Line) []Fact {
	if id, ok := w.plan.Task(l.Activity); ok {
		return w.taskLine(b, l, id)
	}
	return w.lorryLine(b, l)
}

func (w *Writer) taskLine(b *sheets.Book, l sheets.Line, id schedule.TaskID) []Fact {
	var out factList
	t, d := &w.plan.Tasks[id], &b.Programme.Tasks[id]
	done := sheets.StateOf(w.plan, l.Activity) == sheets.Ticked
	out.add(FactHappened, w.SoFar(id, l.Span.Start))
	if done {
		out.add(FactNote, w.noted(b, l))
		return out
	}
	out.add(FactWhere, dotted(w.until(l, d.Start, d.Finish), w.Where(id), w.Team(id, d.Heads)))
	if l.First && !w.plan.Started(id) {
		out.add(FactBefore, w.before(b, l)+" "+w.handsBefore(d.Why, l))
	}
	out.add(FactGate, w.brought(b, l, t))
	out.add(FactAfter, w.follows(b, l))
	w.doneFacts(&out, l, t, d)
	if b.Lead {
		out.add(FactSlip, w.MaySlip(b.Programme, id))
	}
	out.add(FactWeather, w.weather(t, l))
	out.add(FactRoom, w.roomTaken(t))
	if len(t.Hazards) > 0 {
		out.add(FactCare, "Take care: "+strings.Join(t.Hazards, ", ")+".")
	}
	if t.Note != "" {
		out.add(FactNote, "Note: "+strings.TrimSuffix(t.Note, ".")+".")
	}
	out.add(FactNote, w.noted(b, l))
	for _, k := range b.Programme.Breaks {
		if k.Activity == l.Activity {
			out.add(FactBreak, w.Break(k))
		}
	}
	return out
}

// doneFacts say when a task is done, how long it cures, and who signs it off.
func (w *Writer) doneFacts(out *factList, l sheets.Line, t *schedule.Task, d *schedule.TaskDates) {
	if t.By != 0 && l.Last {
		out.add(FactDone, "It must be done by "+w.Then(t.By, l.Span.Start)+".")
	}
	if t.DoneWhen != "" {
		out.add(FactDone, "Done when "+strings.TrimSuffix(t.DoneWhen, ".")+".")
	}
	if t.Cure > 0 && l.Last {
		out.add(FactDone, fmt.Sprintf("Cures %s, until %s.", clock(t.Cure), w.Then(d.Finish.Plus(t.Cure), l.Span.Start)))
	}
	if t.Hold != nil && l.Last {
		out.add(FactDone, w.signOff(t.Hold, d, l.Span.Start))
	}
}

func (w *Writer) lorryLine(b *sheets.Book, l sheets.Line) []Fact {
	var out factList
	id, _ := w.plan.Delivery(l.Activity)
	d, u := &w.plan.Deliveries[id], &b.Programme.Unloads[id]
	out.add(FactHappened, w.LorrySoFar(b.Programme, id, l.Span.Start))
	if sheets.StateOf(w.plan, l.Activity) == sheets.Ticked {
		return out
	}
	out.add(FactWhere, dotted(w.until(l, u.Start, u.Finish), "Gate", w.UnloadTeam(id)))
	if !w.plan.Arrived(id) {
		out.add(FactBefore, w.before(b, l))
		out.add(FactGate, w.stands(b.Programme, id, l.Span.Start)+".")
	}
	if d.Keep > 0 {
		until := w.Then(d.KeepsUntil(u.Arrives), l.Span.Start)
		out.add(FactGate, fmt.Sprintf("Keeps %s, until %s.", w.keep(d, u.Arrives), until))
	}
	out.add(FactAfter, w.follows(b, l))
	out.add(FactNote, w.noted(b, l))
	if b.Lead && !w.plan.Arrived(id) {
		out.add(FactSlip, w.mayCome(b.Programme, id))
	}
	for _, k := range b.Programme.Breaks {
		if k.Activity == l.Activity || k.Stock == id {
			out.add(FactBreak, w.Break(k))
		}
	}
	return out
}

// noted says what was noted about the activity of a line, and which of its snags are
// open.
func (w *Writer) noted(b *sheets.Book, l sheets.Line) string {
	var said []string
	for _, n := range b.Notes {
		if n.Activity == l.Activity {
			said = append(said, fmt.Sprintf("Noted %s by %s: %s.", w.Then(n.At, l.Span.Start), n.By,
				strings.TrimSuffix(n.Text, ".")))
		}
	}
	for _, s := range b.Snags {
		if s.Task.Activity() == l.Activity {
			said = append(said, "Snag: "+strings.TrimSuffix(s.Text, ".")+".")
		}
	}
	return strings.Join(said, " ")
}

// Noted is a note about nothing in particular.
func (w *Writer) Noted(n *sheets.Note) string {
	return fmt.Sprintf("%s %s: %s", w.Time(n.At), n.By, n.Text)
}

// The words before room to sign by hand: who signs a hold point, who has checked a day's
// sheet, and when.
const (
	SignedBy  = "Signed by"
	CheckedBy = "Checked by"
	SignedAt  = "at"
)

// CareInBrief names the hazards of a day in one sentence, and whom it defers to; empty for
// none.
func (w *Writer) CareInBrief(hazards []string, deference string) string {
	if len(hazards) == 0 {
		return ""
	}
	return "Take care: " + strings.Join(hazards, ", ") + ". " + deference
}

// NoCrew heads the work that no crew does.
const NoCrew = "No crew of its own"

// NoWork is what a day without work says.
const NoWork = "No work on this day."

// NoWorkForCrew is what the sheet of a whole build says to a crew that isn't needed.
const NoWorkForCrew = "The programme has no work for this crew."

// dotted joins the parts that aren't empty.
func dotted(parts ...string) string {
	var said []string
	for _, p := range parts {
		if p != "" {
			said = append(said, p)
		}
	}
	return strings.Join(said, " · ")
}

// until says by when a line is done, or until when it goes on if that is on another day, and
// when its work began if that was.
func (w *Writer) until(l sheets.Line, start, finish calendars.Instant) string {
	if start == finish {
		return "At " + w.Time(start)
	}
	s := "Done by " + w.Time(l.Span.End)
	if !l.Last {
		s = fmt.Sprintf("Until %s, done by %s", w.Time(l.Span.End), w.Moment(finish))
	}
	if !l.First {
		s += fmt.Sprintf(" (%s %s)", fact(w.plan.Begun(l.Activity), "begun", "to begin"), w.Moment(start))
	}
	return s
}

// mostTies is how many things before or after a line are named.
const mostTies = 2

// before says what must be done before a line, other than unloading.
func (w *Writer) before(b *sheets.Book, l sheets.Line) string {
	var said []string
	all := 0
	for _, tie := range b.Before(l.Activity) {
		if w.isLorry(tie.Activity) {
			continue
		}
		all++
		if sheets.StateOf(w.plan, tie.Activity) == sheets.Ticked && tie.Free <= w.plan.Now() {
			continue
		}
		said = append(said, w.tieBefore(b, tie, l.Span.Start))
	}
	if t, ok := w.plan.Task(l.Activity); ok {
		for _, g := range w.plan.Tasks[t].Givens {
			if from := w.plan.Givens[g].From; from > max(w.plan.Now(), l.Span.Start.Plus(-calendars.Day)) {
				said = append(said, fmt.Sprintf("%s, from %s", w.plan.Givens[g].What, w.Then(from, l.Span.Start)))
			}
		}
	}
	switch {
	case len(said) == 0 && all > 0:
		return "All that comes before it is done."
	case len(said) == 0:
		return ""
	}
	return "First: " + some(said, mostTies, "earlier") + "."
}

// some joins the first of many, up to the most to be named, and counts the rest.
func some(all []string, most int, which string) string {
	if n := len(all) - most; n > 0 {
		all = append(all[:most:most], fmt.Sprintf("%d %s", n, which))
	}
	return strings.Join(all, "; ")
}

// numbered names an activity with its number: "Bed the court (34)".
func (w *Writer) numbered(b *sheets.Book, a schedule.Activity) string {
	return fmt.Sprintf("%s (%d)", w.Activity(a), b.Number(a))
}

// tieBefore names what comes first, and says from when on it holds nothing back.
func (w *Writer) tieBefore(b *sheets.Book, tie sheets.Tie, beside calendars.Instant) string {
	then := func(at calendars.Instant) string { return w.Then(at, beside) }
	s := fmt.Sprintf("%s, %s %s", w.numbered(b, tie.Activity), w.howFree(b, tie), then(tie.Free))
	if t, ok := w.plan.Task(tie.Activity); ok && w.plan.Progress != nil && tie.Hold &&
		w.plan.Progress.Tasks[t].Failed != 0 {
		s += " (its sign-off failed: don't start before it is signed)"
	}
	if tie.Kind.ToFinish() {
		s += " before this is finished"
	}
	if tie.HasWithin {
		s += fmt.Sprintf(" and at most %s between", clock(tie.Within))
	}
	return s
}

// howFree says what frees a line from what comes first: a fact where it is logged, else what
// is to come.
func (w *Writer) howFree(b *sheets.Book, tie sheets.Tie) string {
	t := schedule.TaskID(tie.Activity)
	switch d := &b.Programme.Tasks[t]; {
	case !tie.Kind.FromFinish():
		return fact(w.plan.Started(t), "begun", "to begin")
	case tie.Hold && tie.Free == d.Signed:
		return fact(w.plan.Finished(t) && w.plan.Progress.Tasks[t].Signed != 0, "signed", "to be signed by")
	case tie.Free > tie.At:
		return fact(w.plan.Finished(t) && tie.Free <= w.plan.Now(), "cured", "cured by")
	}
	if w.plan.Finished(t) && w.plan.Progress.Tasks[t].Ended != 0 {
		return "cancelled"
	}
	return fact(w.plan.Finished(t), "done", "done by")
}

// handsBefore says what a line waits for if its start is fixed by a machine, room, the
// gate, or work that it is kept apart from.
func (w *Writer) handsBefore(why []schedule.Reason, l sheets.Line) string {
	if len(why) == 0 || why[0].Kind < schedule.ByMachine || why[0].Kind > schedule.ByAlone {
		return ""
	}
	return Capital(w.Reason(why[0], l.Span.Start, l.Activity)) + "."
}

// brought says what comes through the gate for a task.
func (w *Writer) brought(b *sheets.Book, l sheets.Line, t *schedule.Task) string {
	var said []string
	for _, id := range t.Uses {
		d, u := &w.plan.Deliveries[id], &b.Programme.Unloads[id]
		s := w.numbered(b, w.plan.Unload(id))
		switch {
		case w.plan.LoggedOver(id):
			s += ", unloaded " + w.Then(u.Finish, l.Span.Start)
		case w.plan.Unloaded(id):
			s += ", here"
		case u.Start.IsReal():
			s += ", unloaded by " + w.Then(u.Finish, l.Span.Start)
		}
		if more := w.StillToCome(b.Programme, id); more != "" {
			s += ", " + more
		}
		if d.Keep > 0 {
			s += fmt.Sprintf(", keeps until %s", w.Then(d.KeepsUntil(u.Arrives), l.Span.Start))
		}
		said = append(said, s)
	}
	if len(said) == 0 {
		return ""
	}
	return "Uses " + strings.Join(said, "; ") + "."
}
