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
		if p.Deliveries[i].Out {
			continue
		}
		add(sitelog.Loaded, u.Arrives.Plus(-p.Deliveries[i].Aged-60))
		if r.IntN(5) == 0 {
			at := u.Arrives.Plus(calendars.Minutes(r.IntN(200)))
			e := sitelog.Event{What: sitelog.Short, Delivery: p.Deliveries[i].ID, At: at, Text: "half of it"}
			if r.IntN(2) == 0 {
				e.To = at.Plus(calendars.Minutes(r.IntN(2000)))
			}
			out = append(out, e)
		}
	}
	return out
}

// bookings is what somebody agrees while a programme is built: who comes to sign, and when
// machines are ours.
func bookings(r *rand.Rand, p *schedule.Plan, g *schedule.Programme) []sitelog.Event {
	var out []sitelog.Event
	for i := range p.Tasks {
		if hold := p.Tasks[i].Hold; hold != nil && r.IntN(4) == 0 {
			at := g.Tasks[i].Finish.Plus(-calendars.Minutes(r.IntN(1500)))
			e := sitelog.Event{What: sitelog.Appointed, Task: p.Tasks[i].ID, At: at,
				To: at.Plus(calendars.Minutes(r.IntN(3000)))}
			if n := len(hold.Appointments); n > 0 && r.IntN(2) == 0 {
				e.Was = hold.Appointments[r.IntN(n)]
			}
			out = append(out, e)
		}
	}
	for i := range p.Machines {
		if r.IntN(3) == 0 {
			out = append(out, broken(r, p, &p.Machines[i])...)
		}
		if r.IntN(3) > 0 {
			continue
		}
		at := p.Site.Opens.Plus(calendars.Minutes(r.IntN(5000)))
		e := sitelog.Event{What: sitelog.SlotLost, Machine: p.Machines[i].ID, At: at,
			From: at.Plus(60 * calendars.Minutes(r.IntN(20)))}
		e.Until = e.From.Plus(60 * calendars.Minutes(1+r.IntN(9)))
		if len(p.Machines[i].Ours) > 0 && r.IntN(2) == 0 {
			e.What = sitelog.SlotGot
		}
		out = append(out, e)
	}
	return out
}

// broken is a machine that breaks, and perhaps is back.
func broken(r *rand.Rand, p *schedule.Plan, m *schedule.Machine) []sitelog.Event {
	at := p.Site.Opens.Plus(calendars.Minutes(r.IntN(5000)))
	away := sitelog.Event{What: sitelog.Away, Machine: m.ID, At: at, Text: "broken"}
	if r.IntN(2) == 0 {
		away.Until = at.Plus(calendars.Minutes(1 + r.IntN(2000)))
	}
	if r.IntN(2) == 0 {
		return []sitelog.Event{away}
	}
	return []sitelog.Event{away, {What: sitelog.Back, Machine: m.ID, At: at.Plus(calendars.Minutes(1 + r.IntN(1500)))}}
}
