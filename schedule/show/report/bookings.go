package report

import (
	"fmt"

	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/use"
)

// Bookings writes for each machine the hours needed against the slots that are
// ours, what to book and what to give back. The error is the writer's.
func (r *Report) Bookings() *page.Document {
	w := &page.Document{}
	r.short(w)
	w.Heading("Machines: what to book, what to give back")
	if len(r.of.Plan.Machines) == 0 {
		w.Say("The plan has no machines.")
	}
	for _, m := range r.bookings() {
		w.Space()
		w.Say(r.bookedWords(&m))
		slots := w.Table(2, page.Column{Room: len("give back"), Gap: 2}, page.Column{})
		r.slots(slots, "book", m.Book)
		r.slots(slots, "give back", m.Return)
		if len(m.Book)+len(m.Return) == 0 {
			w.Under(2, "", "nothing to book, nothing to give back")
		}
	}
	return w
}

func (r *Report) bookings() []use.Machine {
	return use.Machines(r.of)
}

// bookedWords says how much of a machine is needed and how much is ours.
func (r *Report) bookedWords(m *use.Machine) string {
	name := r.of.Plan.Machines[m.Machine].Name
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

func (r *Report) slots(t *page.Table, what string, slots []use.Slot) {
	for _, s := range slots {
		text := r.words.Span(s.Span)
		if s.Count > 1 {
			text += fmt.Sprintf(", %d of them", s.Count)
		}
		if s.Used > 0 {
			text += fmt.Sprintf(", used %s", r.words.Work(s.Used))
		}
		t.Row(what, text)
	}
}
