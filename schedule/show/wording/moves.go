package wording

import (
	"fmt"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// dropped lists the tasks that a programme leaves out.
func dropped(g *schedule.Programme) []schedule.TaskID {
	var out []schedule.TaskID
	for t := range g.Tasks {
		if g.Tasks[t].Dropped {
			out = append(out, schedule.TaskID(t))
		}
	}
	return out
}

// leftOut names the tasks that a programme leaves out; empty for none.
func (w *Writer) leftOut(g *schedule.Programme) string {
	var names []string
	for _, t := range dropped(g) {
		names = append(names, w.Task(t))
	}
	return list(names)
}

// LeftOut says which tasks a programme leaves out, as a sentence; empty for
// none.
func (w *Writer) LeftOut(g *schedule.Programme) string {
	if names := w.leftOut(g); names != "" {
		return "Left out for the sake of the dates: " + names + "."
	}
	return ""
}

// Rebooked says that a programme books a delivery for another moment than its plan p, as
// a sentence; empty if it doesn't.
func (w *Writer) Rebooked(p *schedule.Plan, g *schedule.Programme, d schedule.DeliveryID) string {
	was, now := p.Deliveries[d].Arrives, g.Unloads[d].Arrives
	if was == now {
		return ""
	}
	return fmt.Sprintf("Book %s for %s, %s than the plan has it (%s).", w.Delivery(d), w.Moment(now), apart(was, now),
		w.Moment(was))
}

// PlanHas says when the plan books a delivery, as a clause; empty if that is the same
// moment as now, the booking to compare with.
func (w *Writer) PlanHas(d schedule.DeliveryID, now calendars.Instant) string {
	if was := w.plan.Deliveries[d].Arrives; was != now {
		return "the plan has " + w.Moment(was)
	}
	return ""
}

// Move says how a task's start in a programme differs from the agreed one, as a sentence.
func (w *Writer) Move(g *schedule.Programme, m schedule.Move) string {
	name := w.Task(m.Task)
	switch {
	case g.HasNoPlace(m.Task.Activity()):
		return fmt.Sprintf("%s has no place; %s was agreed.", name, w.Moment(m.Was))
	case m.Now == calendars.Never:
		return fmt.Sprintf("%s is left out; %s was agreed.", name, w.Moment(m.Was))
	case m.Was == calendars.Never:
		return fmt.Sprintf("%s starts %s; no start was agreed.", name, w.Moment(m.Now))
	}
	return fmt.Sprintf("%s starts %s, %s than agreed (%s).", name, w.Moment(m.Now), apart(m.Was, m.Now), w.Moment(m.Was))
}

// Chosen says how many people a crew programme puts on a task for which the plan gives a
// range, as a clause: "Joiners 3, of the 2 to 4 that the plan allows". Empty if the plan
// leaves no choice.
func (w *Writer) Chosen(g *schedule.Programme, t schedule.TaskID) string {
	if g.Scope != schedule.Crews || g.Tasks[t].Dropped {
		return ""
	}
	var said []string
	for i, need := range w.plan.Tasks[t].Crew {
		if heads := g.Tasks[t].Heads; need.Least < need.Most && i < len(heads) {
			said = append(said, fmt.Sprintf("%s %d, of the %d to %d that the plan allows",
				w.plan.Crews[need.Crew].Name, heads[i], need.Least, need.Most))
		}
	}
	return list(said)
}

// ItHas is [Writer.Chosen] as a sentence; empty if the plan leaves no choice.
func (w *Writer) ItHas(g *schedule.Programme, t schedule.TaskID) string {
	if chosen := w.Chosen(g, t); chosen != "" {
		return "It has " + chosen + "."
	}
	return ""
}
