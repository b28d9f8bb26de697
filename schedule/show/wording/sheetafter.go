package wording

import (
	"fmt"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/safety"
	"build.example/turflast/schedule/show/sheets"
)

// follows says what waits for a line.
func (w *Writer) follows(b *sheets.Book, l sheets.Line) string {
	ties := b.After(l.Activity)
	var said []string
	straight := ""
	for _, tie := range ties {
		said = append(said, w.numbered(b, tie.Activity)+", "+w.Then(tie.At, l.Span.Start))
		if tie.HasWithin {
			straight += fmt.Sprintf(" %s must follow within %s.", w.numbered(b, tie.Activity), clock(tie.Within))
		}
	}
	switch {
	case len(said) > 0:
		return "Then: " + some(said, mostTies, "more") + "." + straight
	case b.Programme.Of(l.Activity).OnChain:
		return "The hand-over waits for it."
	}
	return ""
}

// signOff says who signs a task off, and when.
func (w *Writer) signOff(h *schedule.HoldPoint, d *schedule.TaskDates, beside calendars.Instant) string {
	switch {
	case !d.Signed.IsReal():
		return fmt.Sprintf("%s %s: no appointment is left.", openMark, h.What)
	case len(h.Appointments) > 0:
		return fmt.Sprintf("%s %s: appointment %s, over %s.", openMark, h.What,
			w.Then(d.Signed.Plus(-h.Takes), beside), w.Then(d.Signed, beside))
	case d.Signed > d.Finish:
		return fmt.Sprintf("%s %s: from %s, over %s.", openMark, h.What, w.Then(d.Finish, beside), w.Then(d.Signed, beside))
	}
	return fmt.Sprintf("%s %s: as soon as it is finished.", openMark, h.What)
}

// MaySlip says how long a task may slip before it hurts, as a sentence.
func (w *Writer) MaySlip(g *schedule.Programme, t schedule.TaskID) string {
	d := &g.Tasks[t]
	float, hands := d.TotalFloat, " with hands unlimited"
	if g.Scope == schedule.Crews && d.TotalFloat >= 0 && !g.Cut.Floats {
		float, hands = d.CrewFloat, ""
	}
	switch {
	case d.Dropped || !d.Start.IsReal():
		return ""
	case g.Cut.Floats && d.TotalFloat > 0:
		return "How far it may slip wasn't worked out."
	case float == schedule.NoFloat || float < 0:
		return "Too late for every date to be met."
	case float == schedule.FreeRange:
		return "May slip: it hurts nothing."
	case float == 0:
		return "May not slip at all."
	}
	return fmt.Sprintf("May slip %s%s before it hurts.", work(float), hands)
}

// mayCome says how late a lorry may come, as a short sentence.
func (w *Writer) mayCome(g *schedule.Programme, d schedule.DeliveryID) string {
	how := ", as programmed"
	if g.Scope == schedule.Logic {
		how = ", with hands unlimited"
	}
	switch u := &g.Unloads[d]; {
	case !u.Start.IsReal():
		return ""
	case g.Cut.Floats:
		return "How late it may come wasn't worked out."
	case u.LateArrival == calendars.Never:
		return "May come late: it hurts nothing" + how + "."
	case u.LateArrival == u.Arrives:
		return "May not come later" + how + "."
	case u.LateArrival < u.Arrives:
		return "Too late for every date to be met."
	}
	return "May come " + w.LateBy(g, d) + " late" + how + ", before it hurts."
}

// roomTaken says what a task takes from others while it goes on.
func (w *Writer) roomTaken(t *schedule.Task) string {
	var said []string
	if len(t.Clears) > 0 {
		said = append(said, fmt.Sprintf("Nobody else in %s meanwhile.", w.Zones(t.Clears)))
	}
	if t.Closes.Timed {
		s := "Closes the way in until it is finished"
		if t.Closes.For > 0 {
			s += fmt.Sprintf(" and %s longer", clock(t.Closes.For))
		}
		said = append(said, s+".")
	}
	if t.Closes.Orders {
		said = append(said, "Closes the way in for good.")
	}
	if t.OnBoards {
		said = append(said, "Work on boards.")
	}
	return strings.Join(said, " ")
}

// Tired says which guidance the hours of a crew go over, as a sentence with its source.
func (w *Writer) Tired(t sheets.Tired) string {
	name, f := w.plan.Crews[t.Crew].Name, t.Finding
	return name + ": " + tiredWords(f, t.Guidance, w.Day(f.From))
}

func tiredWords(f safety.Finding, g safety.Guidance, from string) string {
	switch f.Kind {
	case safety.LongShift:
		return fmt.Sprintf("a shift of %s; guidance is at most %s (%s).",
			work(f.Size), work(safety.MostShift), safety.ShiftSource)
	case safety.ShortRest:
		return fmt.Sprintf("%s of rest since the shift before; guidance is at least %s (%s).",
			work(f.Size), work(g.Rest), g.Source)
	case safety.NoDayOff:
		return fmt.Sprintf("at work every day since %s; guidance is a day off in seven (%s).", from, g.Source)
	}
	return fmt.Sprintf("%s in the seven days from %s; guidance is at most %s (%s).",
		work(f.Size), from, work(g.Week), g.Source)
}
