package solve

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// owner is one of those whose hours an activity needs.
type owner struct {
	closed  schedule.Closed
	crew    schedule.CrewID
	machine schedule.MachineID
	hours   *calendars.Calendar
	within  *calendars.Calendar // who keeps the hours of a place is closed only while that is open; nil for own hours
}

// next is the first moment from t on at which the owner doesn't close by itself.
func (o *owner) next(t calendars.Instant) calendars.Instant {
	at := o.hours.Next(t)
	if o.within == nil || at == t {
		return at
	}
	s, found := o.within.Opening(t)
	switch {
	case !found || s.Start > t:
		return t
	case s.End < at:
		return s.End
	}
	return at
}

// openUntil is the end of the time for which the owner stays open from t, when it is.
func (o *owner) openUntil(t calendars.Instant) calendars.Instant {
	end := t
	if s, found := o.hours.Opening(t); found && s.Start <= t {
		end = s.End
	}
	if o.within == nil {
		return end
	}
	if s, found := o.within.Opening(t); !found {
		return calendars.Never
	} else if s.Start > t {
		return s.Start
	} else if s.End == end {
		return o.within.Next(end)
	}
	return end
}

// closed returns the reasons that hours hold a node's start from a moment on: the
// owners but for whom it could start sooner, or all together when none of them alone
// would keep it. A single owner that opens only at the start comes before
// others, and the place after all others. When the node's calendar is open at that
// moment, the reason is that its work must be unbroken.
func (a *assembly) closed(number int32, from calendars.Instant) []schedule.Reason {
	k := a.Number[number]
	r := nothing(schedule.ByClosedHours)
	r.Event, r.Until = from, a.t.Start[k]
	if a.Calendars[a.Nodes[k].Calendar].IsOpen(from) {
		r.Kind = schedule.ByUnbroken
		return []schedule.Reason{r}
	}
	owners := a.owners(number)
	var out []schedule.Reason
	for _, i := range a.toBlame(k, owners, from) {
		o := &owners[i]
		r.Closed, r.Crew, r.Machine = o.closed, o.crew, o.machine
		out = append(out, r)
	}
	if out == nil {
		r.Closed = schedule.ClosedTogether
		out = append(out, r)
	}
	return out
}

// toBlame lists the owners without whose hours a node could start sooner: one, or the
// fewest each of which alone would keep it; none when that doesn't keep it either.
func (a *assembly) toBlame(k int32, owners []owner, from calendars.Instant) []int {
	best, closed := -1, make([]bool, len(owners))
	for i := range owners {
		closed[i] = !a.soonerWithout(k, owners[i:i+1], from, nil)
		if !a.soonerWithout(k, owners, from, []int{i}) {
			continue
		}
		if best <= 0 || closed[i] && !closed[best] {
			best = i
		}
	}
	if best >= 0 {
		return []int{best}
	}
	var out []int
	for i := range owners {
		if closed[i] {
			out = append(out, i)
		}
	}
	if !a.soonerWithout(k, owners, from, out) {
		return nil
	}
	for n := len(out) - 1; n >= 0; n-- {
		if fewer := slices.Delete(slices.Clone(out), n, n+1); a.soonerWithout(k, owners, from, fewer) {
			out = fewer
		}
	}
	return out
}

// soonerWithout says whether a node could start before its start, from a moment on,
// if some owners were always open.
func (a *assembly) soonerWithout(k int32, owners []owner, from calendars.Instant, open []int) bool {
	length := calendars.Minutes(1)
	if a.Nodes[k].Unbroken {
		length = a.Nodes[k].Work
	}
	for t := from; t < a.t.Start[k]; {
		next, end := t, calendars.Never
		for i := range owners {
			if !slices.Contains(open, i) {
				next, end = max(next, owners[i].next(t)), min(end, owners[i].openUntil(t))
			}
		}
		switch {
		case next > t:
			t = next
		case end == calendars.Never || calendars.Minutes(end-t) >= length:
			return true
		default:
			t = end
		}
	}
	return false
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
		return append([]owner{{schedule.ClosedGate, schedule.None, schedule.None, hours.Gate, nil}},
			a.handOwners(hours.Gate == hours.Site, u.Crew, heads, u.Machines)...)
	}
	t := &p.Tasks[of]
	out := []owner{{schedule.ClosedSite, schedule.None, schedule.None, hours.Places[t.Zones[0]], nil}}
	if p.OffSite(t) {
		out[0].closed = schedule.ClosedPlace
	} else if t.Loud && hours.Loud != nil {
		out = append(out, owner{schedule.ClosedLoud, schedule.None, schedule.None, hours.Loud, nil})
	}
	if dry := hours.Dry(t); dry != nil {
		out = append(out, owner{schedule.ClosedWet, schedule.None, schedule.None, dry, out[0].hours})
	}
	if calm := hours.Calm(t); calm != nil {
		out = append(out, owner{schedule.ClosedWindy, schedule.None, schedule.None, calm, out[0].hours})
	}
	if mild := hours.Mild(t); mild != nil {
		out = append(out, owner{schedule.ClosedHarsh, schedule.None, schedule.None, mild, out[0].hours})
	}
	if goes := hours.Going(t); goes != nil {
		out = append(out, owner{schedule.ClosedStop, schedule.None, schedule.None, goes, out[0].hours})
	}
	return append(out, a.handOwners(!p.OffSite(t), t.Crew, a.Heads[of], t.Machines)...)
}

// handOwners lists crews and machines as owners. onSite says whether the place keeps
// the site's hours, as crews without hours of their own do. A machine without slots is
// there whenever its place is open.
func (a *assembly) handOwners(
	onSite bool, crew []schedule.CrewNeed, heads []int, machines []schedule.MachineNeed,
) []owner {
	var out []owner
	for i, c := range crew {
		o := owner{schedule.ClosedCrew, c.Crew, schedule.None, a.Hours.AtWork(c.Crew, heads[i]), nil}
		if onSite && a.Hours.KeepsSite(c.Crew) {
			o.within = a.Hours.Site
		}
		out = append(out, o)
	}
	for _, m := range machines {
		there := a.Hours.There(m.Machine, m.Count)
		if there != nil {
			out = append(out, owner{schedule.ClosedMachine, schedule.None, m.Machine, there, nil})
		}
	}
	return out
}
