package odds

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/worktime"
)

// afterwards returns a plan in which a missed slot can be made up from a moment on, only
// to measure how late that is: from then on machines are there in all hours, every crew
// has the most people that it ever has, and hold points can be signed on any day, at the
// time of their last appointment.
func afterwards(p *schedule.Plan, from calendars.Instant) *schedule.Plan {
	q := *p
	end := p.Site.Handover.Plus(worktime.Run)
	q.Machines = slices.Clone(p.Machines)
	for i := range q.Machines {
		if m := &q.Machines[i]; len(m.Ours) > 0 {
			m.Ours = append(slices.Clone(m.Ours), calendars.Span{Start: from, End: end})
		}
	}
	first := calendars.DateIn(from, p.Site.Location) + 1
	last := calendars.DateIn(end, p.Site.Location)
	q.Crews = slices.Clone(p.Crews)
	for i := range q.Crews {
		q.Crews[i].PeopleOn = peopleAfter(&q.Crews[i], first, last)
	}
	q.Tasks = slices.Clone(p.Tasks)
	for i := range q.Tasks {
		if h := q.Tasks[i].Hold; h != nil && len(h.Appointments) > 0 {
			more := *h
			more.Appointments = slices.Clone(h.Appointments)
			minute := minuteOf(h.Appointments[len(h.Appointments)-1], p)
			for d := first; d <= last; d++ {
				if at, _ := calendars.At(p.Site.Location, d, minute); at > more.Appointments[len(more.Appointments)-1] {
					more.Appointments = append(more.Appointments, at)
				}
			}
			q.Tasks[i].Hold = &more
		}
	}
	return &q
}

// over returns when both the programme and the window are over.
func over(c network.Case) calendars.Instant {
	last := c.Plan.Site.Handover
	for a := range c.Plan.Activities() {
		if !c.Programme.LeavesOut(a) {
			last = max(last, c.Programme.Done(a))
		}
	}
	return last
}

// peopleAfter returns a crew's people on dates, with the most that it ever has on those
// from first to last.
func peopleAfter(c *schedule.Crew, first, last calendars.Date) []schedule.PeopleOn {
	most := c.People
	for _, on := range c.PeopleOn {
		most = max(most, on.People)
	}
	if most == c.People {
		return c.PeopleOn
	}
	var out []schedule.PeopleOn
	for _, on := range c.PeopleOn {
		if on.On < first {
			out = append(out, on)
		}
	}
	for d := first; d <= last; d++ {
		out = append(out, schedule.PeopleOn{On: d, People: most})
	}
	return out
}

// minuteOf returns the minute of the day of a moment.
func minuteOf(t calendars.Instant, p *schedule.Plan) calendars.Minutes {
	at := t.In(p.Site.Location)
	return calendars.Minutes(at.Hour()*60 + at.Minute())
}
