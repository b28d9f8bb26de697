package report

import (
	"io"

	"build.example/turflast/schedule/show/use"
)

// bookingObject is one machine as JSON gives it.
type bookingObject struct {
	Machine string       `json:"machine"`
	Needed  int          `json:"needed_minutes"`
	Ours    *int         `json:"ours_minutes"`
	Missing int          `json:"missing"`
	Book    []slotObject `json:"book"`
	Return  []slotObject `json:"give_back"`
	Cost    *float64     `json:"cost,omitempty"`
}

type slotObject struct {
	From  *moment `json:"from"`
	To    *moment `json:"to"`
	Count int     `json:"count"`
	Used  int     `json:"used_minutes"`
}

// BookingsJSON writes the same as one JSON object: garden, currency, scope, and
// machines, a list of machine (id), needed_minutes, ours_minutes (null without
// slots), missing (the most at a time), book and give_back (lists of from, to, count, used_minutes), and cost
// of the hours needed where a rate is said.
func (r *Report) BookingsJSON(out io.Writer) error {
	list := []bookingObject{}
	for _, m := range r.bookings() {
		o := bookingObject{
			Machine: r.plan.Machines[m.Machine].ID, Needed: int(m.Needed), Missing: m.Short, Book: r.slotObjects(m.Book), Return: r.slotObjects(m.Return),
		}
		if m.Slots {
			ours := int(m.Ours)
			o.Ours = &ours
		}
		if m.Cost > 0 {
			cost := float64(m.Cost) / 100
			o.Cost = &cost
		}
		list = append(list, o)
	}
	return writeJSON(out, struct {
		Format   string          `json:"format"`
		Version  int             `json:"version"`
		Garden   string          `json:"garden"`
		Currency string          `json:"currency,omitempty"`
		Scope    string          `json:"scope"`
		Machines []bookingObject `json:"machines"`
	}{"turflast.bookings", 1, r.plan.Garden, r.plan.Currency, scopes[r.prog.Scope], list})
}

func (r *Report) slotObjects(slots []use.Slot) []slotObject {
	out := []slotObject{}
	for _, s := range slots {
		out = append(out, slotObject{r.moment(s.Span.Start), r.moment(s.Span.End), s.Count, int(s.Used)})
	}
	return out
}
