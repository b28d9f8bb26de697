package wording

import (
	"fmt"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// The clauses below stand under the row of a task or a delivery.

// AlsoIn names the zones of a task other than its first; empty for none.
func (w *Writer) AlsoIn(t schedule.TaskID) string {
	others := w.plan.Tasks[t].Zones[1:]
	if len(others) == 0 {
		return ""
	}
	return "also in " + w.Zones(others)
}

// Pauses says when a task pauses though its place is open.
func (w *Writer) Pauses(s calendars.Span) string {
	return fmt.Sprintf("pauses %s, with its place open", w.Span(s))
}

// Cures says how long a task cures, and until when; empty when it doesn't.
func (w *Writer) Cures(g *schedule.Programme, t schedule.TaskID) string {
	cure := w.plan.Tasks[t].Cure
	if cure == 0 {
		return ""
	}
	return fmt.Sprintf("cures %s, %s", clock(cure), w.CuresUntil(g, t))
}

// HoldOver says when the hold point of a task is over; empty when it has none, or when it
// is signed.
func (w *Writer) HoldOver(g *schedule.Programme, t schedule.TaskID) string {
	hold := w.plan.Tasks[t].Hold
	if hold == nil || w.plan.Started(t) && w.plan.Progress.Tasks[t].Signed != 0 {
		return ""
	}
	return fmt.Sprintf("%s: over %s", hold.What, w.Moment(g.Tasks[t].Signed))
}

// SlotAtGate says when a lorry is unloaded or loaded; empty when that is over.
func (w *Writer) SlotAtGate(g *schedule.Programme, d schedule.DeliveryID) string {
	if w.plan.Unloaded(d) {
		return ""
	}
	u := &g.Unloads[d]
	text := w.unloading(d) + " " + w.Span(calendars.Span{Start: u.Start, End: u.Finish})
	if u.Waiting > 0 {
		text += ", after " + w.waitingTime(d, u.Waiting)
	}
	return text
}

// FirstUsed says which task uses a delivery first, and when.
func (w *Writer) FirstUsed(g *schedule.Programme, t schedule.TaskID) string {
	return fmt.Sprintf("first used by %s, %s", w.Task(t), w.Moment(g.Tasks[t].Start))
}

// Keeps says how long a delivery of living stock keeps, and until when; empty for other
// goods.
func (w *Writer) Keeps(g *schedule.Programme, d schedule.DeliveryID) string {
	s, arrives := &w.plan.Deliveries[d], g.Unloads[d].Arrives
	if s.Keep == 0 {
		return ""
	}
	return fmt.Sprintf("keeps %s, until %s", w.keep(s, arrives), w.Moment(s.KeepsUntil(arrives)))
}

// keep says how long living stock keeps, and how much of that is over when it comes.
func (w *Writer) keep(d *schedule.Delivery, arrives calendars.Instant) string {
	if over := calendars.Minutes(arrives.Plus(d.Keep) - d.KeepsUntil(arrives)); over > 0 {
		return fmt.Sprintf("%s, %s of it over when it comes", clock(d.Keep), clock(over))
	}
	return clock(d.Keep)
}

// TwoFloats explains a figure with two floats, as [Writer.Slip] gives it.
const TwoFloats = `"3 h of 7 h": it may slip 3 h; logic alone, hands unlimited, allows 7 h`
