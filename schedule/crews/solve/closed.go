package solve

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// owner is one of those whose hours an activity needs.
type owner struct {
	closed  schedule.Closed
	crew    schedule.CrewID
	machine schedule.MachineID
	hours   *calendars.Calendar
}

// closed returns the reason that hours hold a node's start from a moment on: the
// first owner that opens only at the start, or all owners together when none does.
// When the node's calendar is open at that moment, the reason is that its work
// must be unbroken.
func (a *assembly) closed(number int32, from calendars.Instant) schedule.Reason {
	k := a.Number[number]
	start := a.t.Start[k]
	r := nothing(schedule.ByClosedHours)
	r.Event, r.Until = from, start
	if a.Calendars[a.Nodes[k].Calendar].IsOpen(from) {
		r.Kind = schedule.ByUnbroken
		return r
	}
	r.Closed = schedule.ClosedTogether
	for _, o := range a.owners(number) {
		if o.hours.Next(from) == start {
			r.Closed, r.Crew, r.Machine = o.closed, o.crew, o.machine
			break
		}
	}
	return r
}

// owners lists those whose hours a task or an unloading needs, its place first.
func (a *assembly) owners(number int32) []owner {
	p, hours := a.Plan, a.Hours
	of := a.Activity(number)
	if d, ok := p.Delivery(of); ok {
		u := &p.Deliveries[d].Unload
		heads := make([]int, len(u.Crew))
		for i, c := range u.Crew {
			heads[i] = c.Least
		}
		return append([]owner{{schedule.ClosedGate, schedule.None, schedule.None, hours.Gate}},
			a.handOwners(hours.Site, u.Crew, heads, u.Machines)...)
	}
	t := &p.Tasks[of]
	out := []owner{{schedule.ClosedSite, schedule.None, schedule.None, hours.Places[t.Zones[0]]}}
	if p.OffSite(t) {
		out[0].closed = schedule.ClosedPlace
	} else if t.Loud && hours.Loud != nil {
		out = append(out, owner{schedule.ClosedLoud, schedule.None, schedule.None, hours.Loud})
	}
	if dry := hours.Dry(t.Zones[0]); dry != nil && t.Weather&schedule.Dry != 0 {
		out = append(out, owner{schedule.ClosedWet, schedule.None, schedule.None, dry})
	}
	return append(out, a.handOwners(out[0].hours, t.Crew, a.Heads[of], t.Machines)...)
}

// handOwners lists crews and machines as owners. A machine without slots of its
// own keeps the hours of its place.
func (a *assembly) handOwners(
	place *calendars.Calendar, crew []schedule.CrewNeed, heads []int, machines []schedule.MachineNeed,
) []owner {
	var out []owner
	for i, c := range crew {
		out = append(out, owner{schedule.ClosedCrew, c.Crew, schedule.None, a.Hours.AtWork(c.Crew, heads[i])})
	}
	for _, m := range machines {
		there := a.Hours.There(m.Machine, m.Count)
		if there == nil {
			there = place
		}
		out = append(out, owner{schedule.ClosedMachine, schedule.None, m.Machine, there})
	}
	return out
}
