package sheets

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/use"
)

// Deed is what somebody off the site has to be told or asked.
type Deed uint8

// The deeds, in the order in which they stand on a date.
const (
	ToSettle   Deed = iota // an item of the desk list
	ToOrder                // a load that must be ordered ahead
	ToMove                 // a booking that the programme has at another moment than the plan
	ToCallOff              // a lorry of which all that uses its load is left out
	ToBook                 // a machine's hours that aren't ours
	ToAsk                  // somebody who signs
	ToGiveBack             // a machine's hours that are ours, in which it isn't used
)

// Errand is one thing to order, book, call off or give back, and the last date for it.
type Errand struct {
	Deed     Deed
	By       calendars.Date
	Past     bool                // that date is over, what it is about isn't
	Delivery schedule.DeliveryID // of orders, moves and lorries called off
	Machine  schedule.MachineID  // of hours to book or to give back
	Slot     *use.Slot
	SignOff  *Appointment // of what is to be asked
	Desk     *Desk        // of what is to be settled
	At       calendars.Instant
}

// Errands lists what is to be ordered, booked, called off and given back, as at a moment, by
// the last date for it, what is past its date first. The notice that the plan gives is kept;
// where it gives none that is the day itself.
func (b *Book) Errands(now calendars.Instant) []Errand {
	var out []Errand
	for _, d := range DeskList(b.Plan, b.Programme, now) {
		if d.By != 0 {
			out = append(out, Errand{Deed: ToSettle, By: d.By, Desk: &d, At: calendars.Never})
		}
	}
	for _, o := range Orders(b.Plan, b.Programme, now) {
		out = append(out, Errand{Deed: ToOrder, By: o.By, Delivery: o.Delivery, At: o.Arrives})
	}
	out = append(out, b.lorryErrands()...)
	for _, m := range use.Machines(b.Case) {
		for i := range m.Book {
			s := &m.Book[i]
			out = append(out, Errand{Deed: ToBook, By: b.date(s.Span.Start), Machine: m.Machine, Slot: s, At: s.Span.Start})
		}
		for i := range m.Return {
			s := &m.Return[i]
			out = append(out, Errand{Deed: ToGiveBack, By: b.date(s.Span.Start), Machine: m.Machine, Slot: s, At: s.Span.Start})
		}
	}
	for _, a := range b.Appointments() {
		if a.Signed == 0 && a.At.IsReal() {
			by := b.date(a.At.Plus(-noticeOf(a.Hold.Notice)))
			out = append(out, Errand{Deed: ToAsk, By: by, SignOff: &a, At: a.At})
		}
	}
	out = slices.DeleteFunc(out, func(e Errand) bool { return e.At <= now })
	for i := range out {
		out[i].Past = out[i].By < b.date(now)
	}
	slices.SortStableFunc(out, func(x, y Errand) int {
		return cmp.Or(cmp.Compare(x.By, y.By), cmp.Compare(x.Deed, y.Deed), cmp.Compare(x.At, y.At))
	})
	return out
}

// lorryErrands lists the bookings to move and the lorries to call off.
func (b *Book) lorryErrands() (out []Errand) {
	for i := range b.Plan.Deliveries {
		d := schedule.DeliveryID(i)
		was, now := b.Plan.Deliveries[i].Arrives, b.Programme.Unloads[i].Arrives
		by := func(t calendars.Instant) calendars.Date {
			return b.date(t.Plus(-noticeOf(b.Plan.Deliveries[i].Notice)))
		}
		users := b.Plan.Users(d)
		used := slices.ContainsFunc(users, func(t schedule.TaskID) bool { return !b.Programme.Tasks[t].Dropped })
		switch {
		case b.Plan.Arrived(d) || !now.IsReal():
		case len(users) > 0 && !used:
			out = append(out, Errand{Deed: ToCallOff, By: by(now), Delivery: d, At: now})
		case was != now:
			out = append(out, Errand{Deed: ToMove, By: by(min(was, now)), Delivery: d, At: now})
		}
	}
	return out
}

func noticeOf(n *calendars.Minutes) calendars.Minutes {
	if n == nil {
		return 0
	}
	return *n
}
