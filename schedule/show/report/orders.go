package report

import (
	"fmt"
	"io"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/show/wording"
)

// Orders adds the orders whose date is past as at a moment, and those that aren't confirmed,
// and returns r.
func (r *Report) Orders(now calendars.Instant) *Report {
	for _, o := range sheets.Orders(r.of.Plan, r.of.Programme, now) {
		switch {
		case o.Past:
			r.overdue = append(r.overdue, o)
		case o.Ordered != 0:
			r.unsure = append(r.unsure, o)
		}
	}
	return r
}

// mostOrders is how many orders the top of a page names.
const mostOrders = 3

// openOrders adds the orders whose date is past, which come before all else: nobody
// but the lead places them, and each day makes them later. Then come those that aren't
// confirmed.
func (r *Report) openOrders(w *page.Document) {
	for i, o := range r.overdue {
		if more := len(r.overdue) - i; i == mostOrders && more > 1 {
			w.Broken(0, wording.MoreOrders(more))
			break
		}
		w.Broken(0, r.words.OrderPast(o))
	}
	for i, o := range r.unsure {
		if more := len(r.unsure) - i; i == mostOrders && more > 1 {
			w.Say(wording.MoreNotConfirmed(more))
			break
		}
		w.Say(r.words.NotConfirmed(o))
	}
}

// orderList is what [Sheets.OrdersJSON] writes.
type orderList struct {
	Format  string `json:"format" const:"turflast.orders"`
	Version int    `json:"version" const:"1"`
	sheetObject
	At     calendars.Instant `json:"at" doc:"the moment it is of"`
	Orders []orderLine       `json:"orders" doc:"to place, by date: those already past first, then those not confirmed"`
}

type order struct {
	Delivery schedule.DeliveryID `json:"delivery" doc:"that must be ordered ahead"`
	What     string              `json:"what" doc:"what comes"`
	Arrives  calendars.Instant   `json:"arrives" doc:"as the programme books it"`
	By       calendars.Date      `json:"order_by,omitempty" doc:"the last date to order it for that, where the plan says"`
	Past     bool                `json:"past,omitempty" doc:"that date is over, and the log shows no sign of the order"`
	Ordered  *calendars.Instant  `json:"ordered,omitempty" doc:"when it was ordered, by the log; it isn't confirmed"`
	Waits    string              `json:"waits_for,omitempty" doc:"the item of the desk list before which it isn't ordered"`
	Settled  calendars.Date      `json:"settled_by,omitempty" doc:"the date of that"`
	Soonest  calendars.Date      `json:"soonest,omitempty" doc:"when it comes then, if that is after its booking"`
}

// orderLine is an order with the number of its lorry.
type orderLine struct {
	Number int `json:"number" doc:"of its lorry on every sheet"`
	order
}

func (r *Report) order(o sheets.Order) order {
	out := order{Delivery: o.Delivery, What: r.of.Plan.Deliveries[o.Delivery].What, Arrives: o.Arrives, By: o.By,
		Past: o.Past}
	if o.Ordered != 0 {
		out.Ordered = &o.Ordered
	}
	if o.Waits.Item != schedule.None {
		out.Waits, out.Settled, out.Soonest = r.of.Plan.Desk[o.Waits.Item].ID, o.Waits.On, o.Waits.Soonest
	}
	return out
}

// Orders is the list of orders to place, by date, as at a moment.
func (s *Sheets) Orders(now calendars.Instant) *page.Document {
	w := &page.Document{}
	s.head(w, "orders to place")
	all := sheets.Orders(s.r.of.Plan, s.r.of.Programme, now)
	if len(all) == 0 {
		w.Space()
		w.Say(wording.NoOrders)
	}
	underTitles(w, all, orderTitle, func(o sheets.Order) { s.order(w, o, s.date(now)) })
	return w
}

// underTitles writes a list whose items stand under headings, in the order of the list.
func underTitles[T any](w *page.Document, all []T, title func(T) string, item func(T)) {
	for i, x := range all {
		if of := title(x); i == 0 || of != title(all[i-1]) {
			w.Heading(of)
		} else {
			w.Space()
		}
		item(x)
	}
}

// orderTitle is the heading that an order stands under.
func orderTitle(o sheets.Order) string {
	switch {
	case o.Past:
		return "Order date past"
	case o.Ordered != 0:
		return "Ordered, not confirmed"
	}
	return "To order"
}

// order adds an order as seen from a date.
func (s *Sheets) order(w *page.Document, o sheets.Order, today calendars.Date) {
	unload := s.r.of.Plan.Unload(o.Delivery)
	w.Add(page.Item{Lead: fmt.Sprintf("%3d  ", s.book.Number(unload)), Text: s.named(unload, "")})
	text := s.r.words.OrderNow(o, today)
	if more := s.r.words.OrderWaits(o.Waits); more != "" {
		text += " " + more
	}
	if o.Past {
		w.Broken(underOrder, text)
		return
	}
	w.Under(underOrder, "", text)
}

// underOrder is the indent of what stands under an order.
const underOrder = len("  1  ")

// OrdersJSON writes the orders to place as at a moment as one JSON object. The error is
// the writer's.
func (s *Sheets) OrdersJSON(out io.Writer, now calendars.Instant) error {
	return s.r.write(out, orderList{sheetObject: s.top(), At: now, Orders: s.orderLines(now)})
}

// OrdersTable writes the orders to place as at a moment as a table. The error is the
// writer's.
func (s *Sheets) OrdersTable(out io.Writer, now calendars.Instant) error {
	return s.r.table(out, s.orderLines(now))
}

func (s *Sheets) orderLines(now calendars.Instant) []orderLine {
	return each(sheets.Orders(s.r.of.Plan, s.r.of.Programme, now), func(o sheets.Order) orderLine {
		return orderLine{s.book.Number(s.r.of.Plan.Unload(o.Delivery)), s.r.order(o)}
	})
}
