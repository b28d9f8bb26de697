package report

import (
	"bufio"
	"fmt"
	"io"

	"build.example/turflast/schedule/show/use"
)

// Bookings writes for each machine the hours needed against the slots that are
// ours, what to book and what to give back. The error is the writer's.
func (r *Report) Bookings(out io.Writer) error {
	w := &page{out: bufio.NewWriter(out)}
	w.paragraph("", r.plan.Garden)
	w.paragraph("", r.words.Margin(r.prog))
	w.paragraph("", r.words.Verdict(r.prog))
	w.heading("Machines: what to book, what to give back")
	if len(r.plan.Machines) == 0 {
		w.line("The plan has no machines.")
	}
	for _, m := range r.bookings() {
		w.line("")
		w.paragraph("", r.bookedWords(&m))
		r.slots(w, "book", m.Book)
		r.slots(w, "give back", m.Return)
		if len(m.Book)+len(m.Return) == 0 {
			w.line("  nothing to book, nothing to give back")
		}
	}
	return w.out.Flush()
}

func (r *Report) bookings() []use.Machine {
	return use.Machines(r.of)
}

// bookedWords says how much of a machine is needed and how much is ours.
func (r *Report) bookedWords(m *use.Machine) string {
	name := r.plan.Machines[m.Machine].Name
	s := fmt.Sprintf("%s: needed %s", name, r.words.Work(m.Needed))
	if m.Slots {
		s += fmt.Sprintf(" of the %s that are ours", r.words.Work(m.Ours))
	} else {
		s += "; the plan names no slots that are ours"
	}
	if m.Cost > 0 {
		s += fmt.Sprintf("; %s for the hours needed", r.words.Money(m.Cost))
	}
	if m.Short > 0 {
		s += fmt.Sprintf("; at worst %d more needed at a time, as \"plan --people\" says", m.Short)
	}
	return s + "."
}

func (r *Report) slots(w *page, what string, slots []use.Slot) {
	for _, s := range slots {
		text := r.words.Span(s.Span)
		if s.Count > 1 {
			text += fmt.Sprintf(", %d of them", s.Count)
		}
		if s.Used > 0 {
			text += fmt.Sprintf(", used %s", r.words.Work(s.Used))
		}
		w.hanging(len("  give back  "), "  "+what, text)
	}
}
