package solve

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/crews/resources"
	"build.example/turflast/schedule/network"
)

// told is what crews have been told: the starts of a reference that lie
// between the moment of the plan's progress and the end of the next day on which the
// site opens, with their heads. Nothing was told of a plan as planned.
type told struct {
	reference *schedule.Programme
	from, to  calendars.Instant
}

// toldBy is what crews know from a reference, which may be nil; nil for nothing.
func (s *Solver) toldBy(g *schedule.Programme) *told {
	p := s.model.Plan
	if p.Progress == nil || g == nil || len(g.Tasks) != len(p.Tasks) {
		return nil
	}
	loc := p.Site.Location
	today := calendars.DateIn(p.Now(), loc)
	midnight := func(d calendars.Date) calendars.Instant {
		at, _ := calendars.At(loc, d, 0)
		return at
	}
	tomorrow := s.model.Hours.Site.Next(midnight(today + 1))
	if !tomorrow.IsReal() {
		return nil
	}
	return &told{reference: g, from: p.Now(), to: midnight(calendars.DateIn(tomorrow, loc) + 1)}
}

// mark notes in a problem what of it crews were told. With hold none of that starts
// sooner than they were told.
func (o *told) mark(p *resources.Problem, hold bool) {
	if o == nil {
		return
	}
	plan, m := p.Model.Plan, p.Model
	add := func(a schedule.Activity, at calendars.Instant, mode uint8) {
		if at < o.from || at >= o.to || m.HasNoPlace(a) || plan.Begun(a) {
			return
		}
		k := m.Node(a)
		p.Told = append(p.Told, crews.Told{Node: int32(k), Start: at, Mode: mode})
		if hold {
			p.Net.Nodes[k].Earliest = max(p.Net.Nodes[k].Earliest, at)
		}
	}
	for i := range o.reference.Tasks {
		if t := &o.reference.Tasks[i]; !t.Dropped && !p.Left(schedule.TaskID(i)) {
			add(schedule.Activity(i), t.Start, modeOf(p, schedule.TaskID(i), t.Heads))
		}
	}
	for i := range plan.Deliveries {
		if i < len(o.reference.Unloads) {
			add(plan.Unload(schedule.DeliveryID(i)), o.reference.Unloads[i].Start, 0)
		}
	}
}

// problem is the problem of a model, with what answers must keep in the place of its
// dates and what crews were told.
func (c *crewSearch) problem(m *network.Model, dropped, free []bool) *resources.Problem {
	p := c.resources.Problem(m, dropped, free)
	c.o.Promise.on(p)
	c.told.mark(p, c.hold)
	if c.line != c.o.Promise.line(c.s.model.Plan) {
		p.HandOver(c.line)
	}
	return p
}
