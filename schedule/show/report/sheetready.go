package report

import (
	"fmt"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/sheets"
)

// Ready is the hand-over list.
func (s *Sheets) Ready(y *sheets.Ready) *page.Document {
	w := &page.Document{}
	s.head(w, "hand-over list")
	w.Space()
	w.Say(s.r.words.Ready(y))
	for _, b := range s.r.of.Programme.Breaks {
		w.Broken(0, s.r.words.Break(b))
	}
	words := s.r.words
	unfinished := func(t schedule.TaskID) string { return words.Unfinished(s.r.of.Programme, t) }
	s.readyTasks(w, "Work not finished, with the programme's finish", y.Unfinished, unfinished)
	if len(y.Unsigned) > 0 {
		w.Heading(fmt.Sprintf("Hold points not signed: %d", len(y.Unsigned)))
		for _, a := range y.Unsigned {
			s.item(w, a.Number, words.NotSigned(&a))
		}
	}
	if len(y.Signed) > 0 {
		w.Heading(fmt.Sprintf("Hold points signed: %d", len(y.Signed)))
		for _, a := range y.Signed {
			s.item(w, a.Number, words.WasSigned(&a))
		}
	}
	s.readyTasks(w, "Still curing", y.Drying, func(t schedule.TaskID) string {
		return words.CuresUntil(s.r.of.Programme, t)
	})
	s.readyLorries(w, "Lorries still to come or go", y.Lorries)
	if len(y.Snags) > 0 {
		w.Heading(fmt.Sprintf("Snags open: %d", len(y.Snags)))
		for _, x := range y.Snags {
			w.Mark("- ", words.OpenSnag(&x))
		}
	}
	s.readyTasks(w, "Optional work not finished", y.Optional, unfinished)
	s.readyTasks(w, "Optional work left out", y.Dropped, nil)
	s.readyLorries(w, "Lorries for optional work alone, still to come or go", y.Spare)
	return w
}

// item adds one line of a list after its number.
func (s *Sheets) item(w *page.Document, number int, text string) {
	w.Mark(fmt.Sprintf("%3d  ", number), text)
}

func (s *Sheets) readyTasks(
	w *page.Document, title string, tasks []schedule.TaskID, more func(schedule.TaskID) string,
) {
	if len(tasks) == 0 {
		return
	}
	w.Heading(fmt.Sprintf("%s: %d", title, len(tasks)))
	for _, t := range tasks {
		text := s.r.words.Task(t) + " · " + s.r.words.Where(t)
		if more != nil {
			text += ", " + more(t)
		}
		s.item(w, s.book.Number(t.Activity()), text)
	}
}

func (s *Sheets) readyLorries(w *page.Document, title string, list []sheets.Pass) {
	if len(list) == 0 {
		return
	}
	w.Heading(fmt.Sprintf("%s: %d", title, len(list)))
	for _, p := range list {
		text := s.name(s.r.of.Plan.Unload(p.Delivery)) + ", " + s.r.words.Moment(passTime(p))
		if amiss := s.r.words.Amiss(&p); amiss != "" {
			text += "; " + amiss
		}
		s.item(w, p.Number, text)
	}
}
