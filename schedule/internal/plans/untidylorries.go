package plans

import (
	"math/rand/v2"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/site/sitelog"
)

// lorries is what somebody logs of the lorries of a programme besides that they came: each
// sometimes, roughly when the programme has it.
func lorries(r *rand.Rand, p *schedule.Plan, g *schedule.Programme) []sitelog.Event {
	var out []sitelog.Event
	for i := range p.Deliveries {
		u := &g.Unloads[i]
		add := func(what sitelog.Kind, at calendars.Instant) {
			if r.IntN(3) == 0 {
				at = at.Plus(calendars.Minutes(r.IntN(200) - 60))
				out = append(out, sitelog.Event{What: what, Delivery: p.Deliveries[i].ID, At: at})
			}
		}
		add(sitelog.Ordered, u.Arrives.Plus(-calendars.Day))
		add(sitelog.Confirmed, u.Arrives.Plus(-calendars.Day/2))
		over := sitelog.Unloaded
		if p.Deliveries[i].Out {
			over = sitelog.Gone
		}
		add(over, u.Finish)
	}
	return out
}
