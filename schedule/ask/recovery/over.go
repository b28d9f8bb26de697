package recovery

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Over says whether it is too late for a measure as at the moment of a plan's
// progress: its hours or days are past, what it brings forward has come or begun.
func Over(p *schedule.Plan, m *schedule.Measure) bool {
	if p.Progress == nil {
		return false
	}
	now := p.Now()
	today := calendars.DateIn(now, p.Site.Location)
	switch {
	case m.Longer != nil:
		return m.Longer.On < today
	case m.People != nil:
		for _, d := range m.People.On {
			if d >= today {
				return false
			}
		}
		return true
	case m.Machine != nil:
		return m.Machine.Span.End <= now
	case m.Earlier != nil:
		d := m.Earlier.Delivery
		return p.Arrived(d) || p.Unloading(d) || p.Deliveries[d].Arrives.Plus(-m.Earlier.By) < now
	case m.Overlap != nil:
		return p.Finished(m.Overlap.First) || p.Started(m.Overlap.Second)
	}
	return p.Started(m.Drop)
}

// possible lists the measures for which it isn't too late.
func possible(p *schedule.Plan) (out []int) {
	for k := range p.Measures {
		if !Over(p, &p.Measures[k]) {
			out = append(out, k)
		}
	}
	return out
}
