package progress

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// measures removes the measures that can't be bought any more.
func (b *build) measures() {
	b.p.Measures = slices.DeleteFunc(slices.Clone(b.p.Measures), func(m schedule.Measure) bool { return b.over(&m) })
}

// over says whether it is too late for a measure.
func (b *build) over(m *schedule.Measure) bool {
	switch {
	case m.Longer != nil:
		to, _ := calendars.At(b.p.Site.Location, m.Longer.On, m.Longer.To)
		return to <= b.at
	case m.People != nil:
		return !slices.ContainsFunc(m.People.On, func(d calendars.Date) bool { return b.date(d).End > b.at })
	case m.Machine != nil:
		return m.Machine.Span.End <= b.at
	case m.Earlier != nil:
		d := m.Earlier.Delivery
		return b.p.Arrived(d) || b.p.Deliveries[d].Arrives.Plus(-m.Earlier.By) < b.at
	case m.Overlap != nil:
		return b.p.Started(m.Overlap.Second)
	}
	return m.Drop != schedule.None && b.p.Started(m.Drop)
}
