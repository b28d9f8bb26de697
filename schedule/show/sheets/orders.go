package sheets

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Order is what must be ordered ahead, or was ordered and isn't confirmed.
type Order struct {
	Delivery schedule.DeliveryID
	Arrives  calendars.Instant // as the programme books it
	By       calendars.Date    // the last date to order it for that; 0 when the plan doesn't say how far ahead
	Past     bool              // that date is over, and nothing in the log shows that it was ordered
	Ordered  calendars.Instant // when it was ordered, by the log; nobody has confirmed it yet. Else zero
	Waits    Waits             // for what of the desk list; of one that isn't ordered
}

// Orders lists what must be ordered ahead for the bookings of a programme and
// isn't behind us as at a moment: first what is past the date to order it by, then what
// is ordered and not confirmed, then what is to be ordered, each by date.
func Orders(p *schedule.Plan, g *schedule.Programme, now calendars.Instant) []Order {
	var out []Order
	for i := range p.Deliveries {
		d, arrives := schedule.DeliveryID(i), g.Unloads[i].Arrives
		by, ahead := p.OrderBy(d, arrives)
		ordered, confirmed := p.Ordered(d)
		if !ahead && ordered == 0 || confirmed != 0 || p.Settled(d) || !arrives.IsReal() || arrives <= now {
			continue
		}
		o := Order{d, arrives, by, p.OrderPast(d, arrives, now), ordered, Waits{Item: schedule.None}}
		if ordered == 0 {
			o.Waits = waits(p, g, d, now)
		}
		out = append(out, o)
	}
	slices.SortStableFunc(out, func(a, b Order) int {
		return cmp.Or(cmp.Compare(a.rank(), b.rank()), cmp.Compare(a.By, b.By), cmp.Compare(a.Arrives, b.Arrives))
	})
	return out
}

// rank is the place of an order in the list, before its date.
func (o *Order) rank() int {
	switch {
	case o.Past:
		return 0
	case o.Ordered != 0:
		return 1
	}
	return 2
}
