package wording

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/sheets"
)

// Ready says whether the garden can be handed over now, and why not.
func (w *Writer) Ready(y *sheets.Ready) string {
	at := w.Moment(y.At)
	if y.Can() {
		return "The garden can be handed over now, " + at + "."
	}
	var why []string
	add := func(n int, one, more string) {
		if n > 0 {
			why = append(why, Count(n, one, more))
		}
	}
	add(len(y.Unfinished), "task is not finished", "tasks are not finished")
	add(len(y.Unsigned), "hold point is not signed", "hold points are not signed")
	add(len(y.Drying), "task still cures", "tasks still cure")
	add(len(y.Lorries), "lorry is still to come or go", "lorries are still to come or go")
	add(len(y.Snags), "snag is open", "snags are open")
	text := "The garden can't be handed over now, " + at + ": " + list(why) + "."
	if w.plan.Progress == nil {
		text += " Nothing is logged, so nothing counts as done."
	}
	return text
}

// Unfinished says how far a task is, and when the programme finishes it, as a clause.
func (w *Writer) Unfinished(g *schedule.Programme, t schedule.TaskID) string {
	finish := g.Tasks[t].Finish
	switch {
	case finish == calendars.Never:
		return "without a place in the programme"
	case w.plan.Started(t):
		return w.Moment(finish) + ", in hand: " + w.Left(t)
	}
	return w.Moment(finish)
}

// CuresUntil says until when a task cures, as a clause.
func (w *Writer) CuresUntil(g *schedule.Programme, t schedule.TaskID) string {
	return "until " + w.Moment(g.Tasks[t].Finish.Plus(w.plan.Tasks[t].Cure))
}

// NotSigned says which hold point of which task isn't signed, when it is to be over, and
// whether it failed.
func (w *Writer) NotSigned(a *sheets.Appointment) string {
	text := openMark + " " + a.Hold.What + " · " + w.Task(a.Task)
	if a.Over.IsReal() {
		text += ", " + w.Moment(a.Over)
	}
	if a.Failed != 0 {
		text += "; failed " + w.Moment(a.Failed)
	}
	return text
}

// OpenSnag says what is to be put right, where, and since when.
func (w *Writer) OpenSnag(s *sheets.Snag) string {
	text := s.Text
	if s.Task != schedule.None {
		text += " · " + w.Task(s.Task)
	}
	return text + ", since " + w.Moment(s.Opened)
}
