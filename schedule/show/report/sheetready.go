package report

import (
	"fmt"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/show/wording"
)

// Ready writes the hand-over list. The error is the writer's.
func (s *Sheets) Ready(y *sheets.Ready) *page.Document {
	w := &page.Document{}
	s.head(w, "hand-over list")
	w.Space()
	w.Say(s.readyWords(y))
	for _, b := range s.r.of.Programme.Breaks {
		w.Broken(0, s.r.words.Break(b))
	}
	words := s.r.words
	s.readyTasks(w, "Work not finished, with the programme's finish", y.Unfinished, s.unfinished)
	if len(y.Unsigned) > 0 {
		w.Heading(fmt.Sprintf("Hold points not signed: %d", len(y.Unsigned)))
		for _, a := range y.Unsigned {
			text := "◌ " + a.Hold.What + " · " + words.Task(a.Task)
			if a.Over.IsReal() {
				text += ", " + words.Moment(a.Over)
			}
			if a.Failed != 0 {
				text += "; failed " + words.Moment(a.Failed)
			}
			s.item(w, a.Number, text)
		}
	}
	s.readyTasks(w, "Still curing", y.Drying, func(t schedule.TaskID) string {
		return "until " + words.Moment(s.r.of.Programme.Tasks[t].Finish.Plus(s.r.of.Plan.Tasks[t].Cure))
	})
	s.readyLorries(w, y)
	if len(y.Snags) > 0 {
		w.Heading(fmt.Sprintf("Snags open: %d", len(y.Snags)))
		for _, x := range y.Snags {
			text := x.Text
			if x.Task != schedule.None {
				text += " · " + words.Task(x.Task)
			}
			w.Mark("- ", text+", since "+words.Moment(x.Opened))
		}
	}
	s.readyTasks(w, "Optional work not finished", y.Optional, s.unfinished)
	s.readyTasks(w, "Optional work left out", y.Dropped, nil)
	return w
}

// readyWords say whether the garden can be handed over now, and why not.
func (s *Sheets) readyWords(y *sheets.Ready) string {
	at := s.r.words.Moment(y.At)
	if y.Can() {
		return "The garden can be handed over now, " + at + "."
	}
	var why []string
	add := func(n int, one, more string) {
		if n > 0 {
			why = append(why, wording.Count(n, one, more))
		}
	}
	add(len(y.Unfinished), "task is not finished", "tasks are not finished")
	add(len(y.Unsigned), "hold point is not signed", "hold points are not signed")
	add(len(y.Drying), "task still cures", "tasks still cure")
	add(len(y.Lorries), "lorry is still to come or go", "lorries are still to come or go")
	add(len(y.Snags), "snag is open", "snags are open")
	text := "The garden can't be handed over now, " + at + ": "
	for i, part := range why {
		switch {
		case i > 0 && i == len(why)-1:
			text += " and "
		case i > 0:
			text += ", "
		}
		text += part
	}
	text += "."
	if s.r.of.Plan.Progress == nil {
		text += " Nothing is logged, so nothing counts as done."
	}
	return text
}

// item is one line of the list with its number.
func (s *Sheets) item(w *page.Document, number int, text string) {
	w.Mark(fmt.Sprintf("%3d  ", number), text)
}

func (s *Sheets) readyTasks(w *page.Document, title string, tasks []schedule.TaskID, more func(schedule.TaskID) string) {
	if len(tasks) == 0 {
		return
	}
	w.Heading(fmt.Sprintf("%s: %d", title, len(tasks)))
	for _, t := range tasks {
		text := s.r.words.Task(t) + " · " + s.r.words.Where(t)
		if more != nil {
			text += ", " + more(t)
		}
		s.item(w, s.book.Numbers.Of(t.Activity()), text)
	}
}

// unfinished says how far a task is, and when the programme finishes it.
func (s *Sheets) unfinished(t schedule.TaskID) string {
	d := &s.r.of.Programme.Tasks[t]
	if d.Finish == calendars.Never {
		return "without a place in the programme"
	}
	text := s.r.words.Moment(d.Finish)
	if s.r.of.Plan.Started(t) {
		text = "in hand, " + s.r.words.Left(t) + ", " + text
	}
	return text
}

func (s *Sheets) readyLorries(w *page.Document, y *sheets.Ready) {
	if len(y.Lorries) == 0 {
		return
	}
	w.Heading(fmt.Sprintf("Lorries still to come or go: %d", len(y.Lorries)))
	for _, p := range y.Lorries {
		text := s.name(s.r.of.Plan.Unload(p.Delivery)) + ", " + s.r.words.Moment(passTime(p))
		if standing := s.standing(p); standing != "" {
			text += "; " + standing
		}
		s.item(w, p.Number, text)
	}
}
