package report

import (
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/use"
	"build.example/turflast/schedule/show/wording"
)

// Bookings compares, for each machine, the hours needed with the slots that are ours:
// what to book, and what to give back.
func (r *Report) Bookings() *page.Document {
	w := &page.Document{}
	r.short(w)
	w.Heading("Machines: what to book, what to give back")
	if len(r.of.Plan.Machines) == 0 {
		w.Say(wording.NoMachines)
	}
	for _, m := range r.bookings() {
		w.Space()
		w.Say(r.words.MachineNeeded(&m))
		slots := w.Table(2, page.Column{Room: len("give back"), Gap: 2}, page.Column{})
		r.slots(slots, "book", m.Book)
		r.slots(slots, "give back", m.Return)
		if len(m.Book)+len(m.Return) == 0 {
			w.Under(2, "", wording.NothingToBook)
		}
	}
	return w
}

func (r *Report) bookings() []use.Machine {
	return use.Machines(r.of)
}

func (r *Report) slots(t *page.Table, what string, slots []use.Slot) {
	for i := range slots {
		t.Row(what, r.words.Slot(&slots[i]))
	}
}
