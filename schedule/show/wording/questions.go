package wording

import (
	"fmt"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/show/sheets"
)

// mostAsked is how many questions the head of a sheet asks before it counts the rest.
const mostAsked = 3

// Questions asks, at the head of a sheet, what should have been ticked off by now: each with
// the command that answers it. Empty if nothing should.
func (w *Writer) Questions(b *sheets.Book, all []sheets.Question) []string {
	var out []string
	for i := range all {
		if more := len(all) - i; i == mostAsked {
			return append(out, fmt.Sprintf("And %s.", Count(more, "more tick is missing", "more ticks are missing")))
		}
		name := ""
		if all[i].Kind == sheets.IsBack {
			name = w.plan.Machines[all[i].Machine].Name
		} else {
			name = w.numbered(b, all[i].Activity)
		}
		out = append(out, w.asked(name, &all[i])+" "+w.answers(b, &all[i]))
	}
	return out
}

// QuestionInBrief is the first of the questions in a line, with the keys that answer it, and
// how many more there are; empty if there is none. No key answers for a machine.
func (w *Writer) QuestionInBrief(b *sheets.Book, all []sheets.Question, now, earlier string) string {
	if len(all) == 0 {
		return ""
	}
	text, q := "", &all[0]
	if q.Kind == sheets.IsBack {
		m := &w.plan.Machines[q.Machine]
		text = fmt.Sprintf("%s \"turflast log back %s\"", w.asked(m.Name, q), m.ID)
	} else {
		number := fmt.Sprint(b.Number(q.Activity))
		text = fmt.Sprintf("%s %s %s: now, %s %s: earlier, not yet: leave it · %s", w.asked(number, q), now, number,
			earlier, number, w.Activity(q.Activity))
	}
	if more := len(all) - 1; more > 0 {
		text += fmt.Sprintf(" · %d more", more)
	}
	return text
}

// asked asks whether something that has a name has happened, and says when it was due.
func (w *Writer) asked(name string, q *sheets.Question) string {
	due := "due now by the forecast"
	switch {
	case q.Kind == sheets.HasCome:
		due = "booked for " + w.Then(q.Due, w.plan.Now())
	case q.Kind == sheets.IsBack:
		due = "which was to be by " + w.Then(q.Due, w.plan.Now())
	case q.Planned:
		due = "planned for " + w.Then(q.Due, w.plan.Now())
	}
	ask := [...]string{
		sheets.HasBegun: "Has %s begun, %s?", sheets.IsFinished: "Is %s finished, %s?",
		sheets.IsSigned: "Is %s signed, %s?", sheets.HasCome: "Has %s come, %s?",
		sheets.IsBack: "Is %s back, %s?",
	}[q.Kind]
	return fmt.Sprintf(ask, name, due)
}

// answers names the commands that answer a question: as planned, at a time, not yet.
func (w *Writer) answers(b *sheets.Book, q *sheets.Question) string {
	if q.Kind == sheets.IsBack {
		id := w.plan.Machines[q.Machine].ID
		return fmt.Sprintf("As planned: \"turflast log back %s --at '%s'\"; at another time: that with it; not yet: "+
			"\"turflast log away %s --until MOMENT\".", id, w.written(q.At), id)
	}
	n := b.Number(q.Activity)
	kind := [...]string{sheets.HasBegun: "start", sheets.IsFinished: "finish", sheets.IsSigned: "sign",
		sheets.HasCome: "arrive"}[q.Kind]
	not := [...]string{
		sheets.HasBegun:   "log nothing, and it is taken to begin from now on",
		sheets.IsFinished: fmt.Sprintf("\"turflast log left %d LENGTH\"", n),
		sheets.IsSigned:   fmt.Sprintf("log nothing, or \"turflast log fail %d WHY\"", n),
		sheets.HasCome:    fmt.Sprintf("\"turflast log rebook %d MOMENT\"", n),
	}[q.Kind]
	return fmt.Sprintf("As planned: \"turflast log %s %d --at '%s'\"; at another time: that with it; not yet: %s.",
		kind, n, w.written(q.At), not)
}

// written is a moment as commands take it.
func (w *Writer) written(at calendars.Instant) string {
	return at.In(w.plan.Site.Location).Format("2006-01-02 15:04")
}
