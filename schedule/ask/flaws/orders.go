package flaws

import (
	"fmt"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Orders warns of deliveries whose date to order by is past now, for the bookings of
// the plan, unless its progress shows that they were ordered; then of those that were and
// whose booking nobody has confirmed.
func Orders(p *schedule.Plan, now calendars.Instant) schedule.Problems {
	var past, unsure schedule.Problems
	words := p.Site.Figures()
	for i := range p.Deliveries {
		id, d := schedule.DeliveryID(i), &p.Deliveries[i]
		switch {
		case p.OrderPast(id, d.Arrives, now):
			by, _ := p.OrderBy(id, d.Arrives)
			past = append(past, schedule.Problem{
				Pos: d.Pos, Warning: true, Hint: "see that it is ordered and log that, or book it for later",
				Text: fmt.Sprintf("delivery %s had to be ordered by %s, to come %s",
					d.ID, words.Day(by), words.Moment(d.Arrives)),
			})
		case p.Unconfirmed(id, d.Arrives, now):
			ordered, _ := p.Ordered(id)
			unsure = append(unsure, schedule.Problem{
				Pos: d.Pos, Warning: true, Hint: "have it confirmed, and log that",
				Text: fmt.Sprintf("delivery %s was ordered %s, to come %s, and isn't confirmed",
					d.ID, words.Moment(ordered), words.Moment(d.Arrives)),
			})
		}
	}
	return append(past, unsure...)
}
