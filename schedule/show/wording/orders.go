package wording

import (
	"fmt"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/show/sheets"
)

// NoOrders is what the list of orders says when nothing is left to order.
const NoOrders = "Nothing that is still to come has to be ordered or confirmed."

// OrderPast says that the date to order a delivery by is past, as a sentence.
func (w *Writer) OrderPast(o sheets.Order) string {
	return fmt.Sprintf("Order date past: %s had to be ordered by %s, to come %s.",
		w.Delivery(o.Delivery), w.Day(o.By), w.Moment(o.Arrives))
}

// NotConfirmed says that an order isn't confirmed, as a sentence.
func (w *Writer) NotConfirmed(o sheets.Order) string {
	return fmt.Sprintf("Not confirmed: %s, ordered %s, to come %s.", w.Delivery(o.Delivery), w.Moment(o.Ordered),
		w.Moment(o.Arrives))
}

// MoreOrders says how many orders more have a date that is past, as a sentence.
func MoreOrders(n int) string {
	return fmt.Sprintf("Order date past for %d more; \"turflast orders\" lists all.", n)
}

// MoreNotConfirmed says how many orders more aren't confirmed, as a sentence.
func MoreNotConfirmed(n int) string {
	return fmt.Sprintf("Not confirmed: %d more; \"turflast orders\" lists all.", n)
}

// OrderNow says by when to order a delivery, seen from a date, or when it was ordered, and
// when it then comes, as sentences.
func (w *Writer) OrderNow(o sheets.Order, today calendars.Date) string {
	text := "Order by " + w.Day(o.By)
	switch days := int(o.By - today); {
	case o.Ordered != 0:
		text = "Ordered " + w.Moment(o.Ordered) + ", not confirmed"
	case days == 0:
		text += ", today"
	case days == -1:
		text += ", yesterday"
	case days < 0:
		text += fmt.Sprintf(", %d days ago", -days)
	}
	text += ". Comes " + w.Moment(o.Arrives)
	if other := w.PlanHas(o.Delivery, o.Arrives); other != "" {
		text += "; " + other
	}
	return text + "."
}
