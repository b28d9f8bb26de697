package sheets

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Desk is an item of the desk list that isn't settled.
type Desk struct {
	Item  schedule.DeskID
	By    calendars.Date        // by when it is to be settled; 0 when what it comes before has no place
	Past  bool                  // that date is over
	Holds []schedule.DeliveryID // whose order waits for it, and isn't placed
}

// DeskList lists what is still to be settled as at a moment, by date, what is overdue first,
// and what comes before something without a place last. Dates go by a programme.
func DeskList(p *schedule.Plan, g *schedule.Programme, now calendars.Instant) []Desk {
	var out []Desk
	today := calendars.DateIn(now, p.Site.Location)
	for i := range p.Desk {
		id := schedule.DeskID(i)
		if p.DeskSettled(id) != 0 {
			continue
		}
		d := Desk{Item: id, By: p.DeskBy(id, g)}
		d.Past = d.By != 0 && d.By < today
		for _, lorry := range p.WaitFor(id) {
			if ordered, _ := p.Ordered(lorry); ordered == 0 && !p.Settled(lorry) {
				d.Holds = append(d.Holds, lorry)
			}
		}
		out = append(out, d)
	}
	slices.SortStableFunc(out, func(a, b Desk) int {
		if (a.By == 0) != (b.By == 0) {
			return cmp.Compare(b.By, a.By)
		}
		return cmp.Compare(a.By, b.By)
	})
	return out
}

// Waits is what an order waits for.
type Waits struct {
	Item schedule.DeskID // that is settled last, or None
	On   calendars.Date  // when it was settled, or is to be
	Open bool            // something of it isn't settled
	// Soonest is the date on which the load can come then, if that is after its booking; else 0.
	Soonest calendars.Date
}

// waits is what the order of a delivery waits for as at a moment.
func waits(p *schedule.Plan, g *schedule.Programme, d schedule.DeliveryID, now calendars.Instant) (w Waits) {
	w.Item, w.On, w.Open = p.Approval(d, g, now)
	w.Soonest, _ = p.ApprovedTooLate(d, g, now)
	return w
}
