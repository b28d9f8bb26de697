package sheets

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Order is what must be ordered ahead.
type Order struct {
	Delivery schedule.DeliveryID
	Arrives  calendars.Instant // as the programme books it
	By       calendars.Date    // the last date to order it for that
	Past     bool              // that date is over, and nothing in the log shows that it was ordered
}

// Orders lists what must be ordered ahead for the bookings of a programme and
// isn't behind us as at a moment, by the date to order it by: so those come first
// whose date is past.
func Orders(p *schedule.Plan, g *schedule.Programme, now calendars.Instant) []Order {
	var out []Order
	for i := range p.Deliveries {
		d, arrives := schedule.DeliveryID(i), g.Unloads[i].Arrives
		by, ok := p.OrderBy(d, arrives)
		if !ok || p.Settled(d) || arrives <= now {
			continue
		}
		out = append(out, Order{d, arrives, by, p.OrderPast(d, arrives, now)})
	}
	slices.SortStableFunc(out, func(a, b Order) int {
		return cmp.Or(cmp.Compare(a.By, b.By), cmp.Compare(a.Arrives, b.Arrives))
	})
	return out
}
