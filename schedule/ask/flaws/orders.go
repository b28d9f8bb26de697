package flaws

import (
	"fmt"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Orders warns of deliveries whose date to order by is past now, for the bookings of
// the plan, unless its progress shows that they were ordered.
func Orders(p *schedule.Plan, now calendars.Instant) schedule.Problems {
	var out schedule.Problems
	words := p.Site.Figures()
	for i := range p.Deliveries {
		id, d := schedule.DeliveryID(i), &p.Deliveries[i]
		if !p.OrderPast(id, d.Arrives, now) {
			continue
		}
		by, _ := p.OrderBy(id, d.Arrives)
		out = append(out, schedule.Problem{
			Pos: d.Pos, Warning: true, Hint: "see that it is ordered, or book it for later",
			Text: fmt.Sprintf("delivery %s had to be ordered by %s, to come %s",
				d.ID, words.Day(by), words.Moment(d.Arrives)),
		})
	}
	return out
}
