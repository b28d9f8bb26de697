package flaws

import (
	"fmt"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
)

// Desk warns of items of the desk list whose date is over now and that aren't settled, then
// of deliveries that can't come as booked since their order waits for an item. Dates go by
// the logic programme.
func Desk(p *schedule.Plan, now calendars.Instant) schedule.Problems {
	if len(p.Desk) == 0 {
		return nil
	}
	s, err := solve.New(p)
	if err != nil {
		return nil // Of names the ring
	}
	g := s.Logic().Programme
	var out schedule.Problems
	words, today := p.Site.Figures(), calendars.DateIn(now, p.Site.Location)
	for i := range p.Desk {
		item, by := &p.Desk[i], p.DeskBy(schedule.DeskID(i), g)
		if by == 0 || by >= today || p.DeskSettled(schedule.DeskID(i)) != 0 {
			continue
		}
		out = append(out, schedule.Problem{
			Pos: item.Pos, Warning: true, Hint: "settle it and log that, or give it a later date",
			Text: fmt.Sprintf("desk item %s had to be settled by %s", item.ID, words.Day(by)),
		})
	}
	for i := range p.Deliveries {
		id, d := schedule.DeliveryID(i), &p.Deliveries[i]
		soonest, late := p.ApprovedTooLate(id, g, now)
		if !late || p.OrderPast(id, d.Arrives, now) {
			continue // an order that is late anyway is told by Orders
		}
		last, on, _ := p.Approval(id, g, now)
		out = append(out, schedule.Problem{
			Pos: d.Pos, Warning: true, Hint: "settle it sooner, or book the lorry for later",
			Text: fmt.Sprintf("delivery %s is ordered after desk item %s, on %s: it comes %s at the soonest, not %s",
				d.ID, p.Desk[last].ID, words.Day(on), words.Day(soonest), words.Moment(d.Arrives)),
		})
	}
	return out
}
