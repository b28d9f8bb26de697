package report

import (
	"io"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/use"
)

// bookings is what [Report.BookingsJSON] writes.
type bookings struct {
	Format   string          `json:"format" const:"turflast.bookings"`
	Version  int             `json:"version" const:"1"`
	Garden   string          `json:"garden" doc:"its name"`
	Currency string          `json:"currency,omitempty" doc:"ISO 4217"`
	Scope    schedule.Scope  `json:"scope" doc:"what the programme takes into account"`
	Machines []bookingObject `json:"machines" doc:"all machines, in the order of the plan"`
}

type bookingObject struct {
	Machine schedule.MachineID `json:"machine" doc:"the machine"`
	Needed  calendars.Minutes  `json:"needed_minutes" doc:"in use"`
	Ours    *calendars.Minutes `json:"ours_minutes" doc:"of site hours in our slots; null without slots"`
	Missing int                `json:"missing" doc:"the most at a time"`
	Book    []slotObject       `json:"book" doc:"to be booked"`
	Return  []slotObject       `json:"give_back" doc:"to be given back"`
	Cost    schedule.Money     `json:"cost,omitempty" doc:"of the hours needed, where a rate is said"`
}

type slotObject struct {
	calendars.Span
	Count int               `json:"count" doc:"machines"`
	Used  calendars.Minutes `json:"used_minutes" doc:"in use in it"`
}

// BookingsJSON writes what [Report.Bookings] shows as one JSON object. The error is the
// writer's.
func (r *Report) BookingsJSON(out io.Writer) error {
	o := bookings{Garden: r.of.Plan.Garden, Currency: r.of.Plan.Currency, Scope: r.of.Programme.Scope}
	for _, m := range r.bookings() {
		x := bookingObject{m.Machine, m.Needed, nil, m.Short, each(m.Book, newSlot), each(m.Return, newSlot), m.Cost}
		if m.Slots {
			x.Ours = &m.Ours
		}
		o.Machines = append(o.Machines, x)
	}
	return r.write(out, o)
}

func newSlot(s use.Slot) slotObject { return slotObject{s.Span, s.Count, s.Used} }
