package progress

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/site/sitelog"
)

// Booked is a copy of a plan with the appointments and the slots that stand at a moment, by
// what was agreed by then and since the plan was written, without the machines that are away.
// One of which nobody knows until when is away for the rest of the day of the moment.
func Booked(p *schedule.Plan, s *sitelog.State, at calendars.Instant) *schedule.Plan {
	q := *p
	q.Tasks, q.Machines = slices.Clone(p.Tasks), slices.Clone(p.Machines)
	for i := range q.Tasks {
		if said := s.Tasks[q.Tasks[i].ID]; said != nil && len(said.Appointed) > 0 {
			q.Tasks[i].Hold = appointed(q.Tasks[i].Hold, said, at)
		}
	}
	for i := range q.Machines {
		slots(&q.Machines[i], s.Slots)
		for _, a := range s.Away[q.Machines[i].ID] {
			span := calendars.Span{Start: a.From, End: a.Until}
			if a.Until == calendars.Never { // nobody knows: for the rest of the day of the moment
				span.End = dayEnd(p, at)
			}
			q.Machines[i].Away = joined(append(slices.Clip(q.Machines[i].Away), span))
		}
	}
	return &q
}

// dayEnd is the end of the date of a moment on the site's clock.
func dayEnd(p *schedule.Plan, at calendars.Instant) calendars.Instant {
	end, _ := calendars.At(p.Site.Location, calendars.DateIn(at, p.Site.Location)+1, 0)
	return end
}

// appointed is a hold point with the appointments that stand. One that was by appointment
// stays so when none is left. One that wasn't is signed at any time again, once those that
// were agreed are over.
func appointed(planned *schedule.HoldPoint, said *sitelog.Task, at calendars.Instant) *schedule.HoldPoint {
	if planned == nil || planned.OnTheClock {
		return planned
	}
	hold, over := *planned, at.Plus(-planned.Takes-1)
	hold.Appointments = said.Appointments(planned.Appointments)
	switch {
	case len(planned.Appointments) == 0:
		hold.Appointments = slices.DeleteFunc(hold.Appointments, func(t calendars.Instant) bool { return t <= over })
	case len(hold.Appointments) == 0:
		hold.Appointments = []calendars.Instant{over} // it is of no use any more
	}
	return &hold
}

// slots gives a machine the slots that were got, and takes those that were lost, each as was
// said last.
func slots(m *schedule.Machine, said []sitelog.Event) {
	for i := range said {
		e := &said[i]
		if e.Machine != m.ID {
			continue
		}
		span := calendars.Span{Start: e.From, End: e.Until}
		m.Away = calendars.Without(m.Away, []calendars.Closure{{Span: span}})
		if e.What == sitelog.SlotGot {
			m.Ours = joined(append(slices.Clip(m.Ours), span))
			continue
		}
		// Without any slot it would be there at any time.
		if rest := calendars.Without(m.Ours, []calendars.Closure{{Span: span}}); len(rest) > 0 {
			m.Ours = rest
		} else {
			m.Away = joined(append(m.Away, span))
		}
	}
}

// joined sorts spans and makes one of those that touch.
func joined(spans []calendars.Span) []calendars.Span {
	return slices.Collect(calendars.New(spans).Openings(calendars.Past, calendars.Never))
}
