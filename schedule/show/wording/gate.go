package wording

import (
	"fmt"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/sheets"
)

// NothingPasses is what an empty gate list says.
const NothingPasses = "Nothing comes or goes."

// LorriesAtOnce says how many lorries may be unloaded or loaded at a time.
func LorriesAtOnce(n int) string { return Count(n, "lorry", "lorries") + " at a time." }

// Comes says when a lorry comes and how long it waits, or what has happened to it; then
// who unloads it, and how long its load keeps. Moments on the date of beside are given
// by their time alone.
func (w *Writer) Comes(b *sheets.Book, p *sheets.Pass, beside calendars.Instant) string {
	text := w.LorrySoFar(b.Programme, p.Delivery, beside)
	if p.State == sheets.Ahead {
		text = w.stands(b.Programme, p.Delivery, beside)
		if so := w.LorrySoFar(b.Programme, p.Delivery, beside); so != "" && !p.Refused {
			text = so + " " + text
		}
		if amiss := w.Amiss(p); amiss != "" {
			text += "; " + amiss
		}
		text += "."
	}
	if team := w.UnloadTeam(p.Delivery); team != "" {
		text += " " + team + "."
	}
	if p.Keep != 0 && p.State != sheets.Ticked {
		text += fmt.Sprintf(" Keeps %s, until %s.", w.keep(&w.plan.Deliveries[p.Delivery], p.Arrives), w.Moment(p.Keep))
	}
	return text
}

// stands says when a lorry comes, until when it stands there for nothing, and for how
// long after that.
func (w *Writer) stands(g *schedule.Programme, d schedule.DeliveryID, beside calendars.Instant) string {
	u := &g.Unloads[d]
	text := ""
	if at := w.plan.Deliveries[d].Loaded; at != 0 {
		text = "Loaded " + w.Then(at, beside) + ". "
	}
	text += fmt.Sprintf("Comes %s, waits until %s", w.Then(u.Arrives, beside),
		w.Then(u.Arrives.Plus(w.plan.Deliveries[d].Waits), u.Arrives))
	if u.Waiting > 0 {
		text += " for nothing, then " + w.waitingTime(d, u.Waiting)
	}
	return text
}

// waitingTime is how long a lorry stands beyond what it stands for nothing, with its
// cost where the plan has a rate.
func (w *Writer) waitingTime(d schedule.DeliveryID, waiting calendars.Minutes) string {
	text := clock(waiting) + " of waiting time"
	if s := &w.plan.Deliveries[d]; s.WaitingRate > 0 {
		text += " (" + w.Money(s.WaitingCost(waiting)) + ")"
	}
	return text
}

// AllWaitingTime is the waiting time of all lorries together, with its cost where the
// plan has rates; empty for none.
func (w *Writer) AllWaitingTime(g *schedule.Programme) string {
	all, cost := calendars.Minutes(0), schedule.Money(0)
	for d := range g.Unloads {
		all += g.Unloads[d].Waiting
		cost += w.plan.Deliveries[d].WaitingCost(g.Unloads[d].Waiting)
	}
	switch {
	case all == 0:
		return ""
	case cost == 0:
		return clock(all)
	}
	return clock(all) + ", " + w.Money(cost)
}

// Amiss says what is wrong with a lorry that hasn't come, as a clause; empty if nothing
// is.
func (w *Writer) Amiss(p *sheets.Pass) string {
	switch {
	case p.Refused:
		return "it was refused at the gate"
	case p.Overdue != 0:
		return "it is overdue: booked for " + w.Then(p.Overdue, p.Arrives)
	}
	return ""
}

// UsedBy names the tasks that a lorry is for, as a sentence; empty for none.
func (w *Writer) UsedBy(b *sheets.Book, p *sheets.Pass) string {
	if len(p.Users) == 0 {
		return ""
	}
	return "For " + w.starts(b, p.Users, p.Slot.Start) + "."
}

// starts names tasks with their numbers and starts, at most mostNamed of them.
func (w *Writer) starts(b *sheets.Book, tasks []schedule.TaskID, beside calendars.Instant) string {
	var said []string
	for _, t := range tasks {
		said = append(said, w.numbered(b, t.Activity())+", "+w.Then(b.Programme.Tasks[t].Start, beside))
	}
	return some(said, mostNamed, "more")
}
