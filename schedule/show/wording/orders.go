package wording

import (
	"fmt"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/show/sheets"
)

// NoOrders is what the list of orders says when nothing is left to order.
const NoOrders = "Nothing that is still to come has to be ordered ahead."

// OrderPast says that the date to order a delivery by is past, as a sentence.
func (w *Writer) OrderPast(o sheets.Order) string {
	return fmt.Sprintf("Order date past: %s had to be ordered by %s, to come %s.",
		w.Delivery(o.Delivery), w.Day(o.By), w.Moment(o.Arrives))
}

// MoreOrders says how many orders more have a date that is past, as a sentence.
func MoreOrders(n int) string {
	return fmt.Sprintf("Order date past for %d more; \"turflast orders\" lists all.", n)
}

// OrderNow says by when to order a delivery, seen from a date, and when it then
// comes, as sentences.
func (w *Writer) OrderNow(o sheets.Order, today calendars.Date) string {
	text := "Order by " + w.Day(o.By)
	switch days := int(o.By - today); {
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
