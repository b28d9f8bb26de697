package wording

import (
	"fmt"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/sheets"
)

// DaysAhead says how many days a look-ahead covers, and from which on.
func (w *Writer) DaysAhead(days int, from calendars.Date) string {
	return fmt.Sprintf("%s ahead from %s", Count(days, "day", "days"), w.Day(from))
}

// CrewsAtWork says how many of each crew are at work on a date, for the crews that have
// work on it; empty if there are none.
func (w *Writer) CrewsAtWork(b *sheets.Book, on calendars.Date) string {
	var said []string
	for c := range w.plan.Crews {
		if d := b.Of(on, schedule.CrewID(c)); len(d.Lines) > 0 && d.Heads > 0 {
			said = append(said, fmt.Sprintf("%s %d", w.plan.Crews[c].Name, d.Heads))
		}
	}
	if len(said) == 0 {
		return ""
	}
	return "At work: " + strings.Join(said, ", ") + "."
}

// Needs says what must be there or be signed before the task of a line begins, and isn't
// yet: lorries, givens and sign-offs; empty for none. While nothing is logged, what is
// due before since counts as there.
func (w *Writer) Needs(b *sheets.Book, l sheets.Line, t schedule.TaskID, since calendars.Instant) string {
	var said []string
	add := func(due calendars.Instant, what, how string) {
		if w.plan.Progress != nil || due >= since {
			said = append(said, what+", "+how+" "+w.Then(due, l.Span.Start))
		}
	}
	for _, d := range w.plan.Tasks[t].Uses {
		if !w.plan.Unloaded(d) {
			add(b.Programme.Unloads[d].Finish, w.numbered(b, w.plan.Unload(d)), "unloaded by")
		}
	}
	for _, g := range w.plan.Tasks[t].Givens {
		if given := &w.plan.Givens[g]; given.From > w.plan.Now() {
			add(given.From, given.What, "from")
		}
	}
	for _, tie := range b.Before(l.Activity) {
		if before, ok := w.plan.Task(tie.Activity); ok && tie.Hold && sheets.StateOf(w.plan, tie.Activity) != sheets.Ticked {
			add(tie.Free, fmt.Sprintf("%s (%d)", w.hold(before), b.Number(tie.Activity)), "to be signed by")
		}
	}
	if len(said) == 0 {
		return ""
	}
	return "Needs " + strings.Join(said, "; ") + "."
}
