package verify

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// overfull says whether the work that a programme names must spend more of something
// in a window than is there, if all required work is to be done by a moment.
func (b *bounds) overfull(o *schedule.Overfull) bool {
	if !summed(o) {
		return false
	}
	b.latest(o.Until)
	needed, may := calendars.Minutes(0), open(nil)
	for _, a := range o.Work {
		if t, ok := b.p.Task(a); ok && !b.here[t] || !b.placed(a) || b.late[a] == calendars.Never || b.takes[a] == 0 {
			continue
		}
		needed += b.least(a, o)
		may = join(append(slices.Clone(may), b.own[a]...))
	}
	return needed > b.there(o, may.meet(open{o.Span}))
}

// summed says whether a sum of minutes of something that has a name shows what is
// over-full.
func summed(o *schedule.Overfull) bool {
	named := o.Zone != schedule.None || o.Crew != schedule.None || o.Machine != schedule.None || o.Gate
	return named && o.Needed > 0 && o.Alone == schedule.None && o.Span.Start < o.Span.End
}

// least is what an activity must spend of what is over-full: amounts times minutes,
// the least over the heads that it may have. Nothing is counted on of a task with two
// ranges.
func (b *bounds) least(a schedule.Activity, o *schedule.Overfull) calendars.Minutes {
	t, ok := b.p.Task(a)
	if !ok {
		d, _ := b.p.Delivery(a)
		u := &b.p.Deliveries[d].Unload
		amount := b.amount(o, u.Crew, u.Machines, nil)
		if o.Gate {
			amount = 1
		}
		return b.spends(a, b.own[a], b.takes[a], o.Span) * calendars.Minutes(amount)
	}
	task, least := &b.p.Tasks[t], calendars.Minutes(-1)
	for _, crew := range sizes(task.Crew) {
		own, takes := b.working(t, crew)
		spent := b.spends(a, own, takes, o.Span) * calendars.Minutes(b.amount(o, crew, task.Machines, task.Zones))
		if least < 0 || spent < least {
			least = spent
		}
	}
	return max(least, 0)
}

// sizes lists the heads that a task may have, as needs without a range; none when
// more than one need has a range.
func sizes(crew []schedule.CrewNeed) [][]schedule.CrewNeed {
	ranged := slices.IndexFunc(crew, func(n schedule.CrewNeed) bool { return n.Least < n.Most })
	if ranged < 0 {
		return [][]schedule.CrewNeed{crew}
	}
	if slices.ContainsFunc(crew[ranged+1:], func(n schedule.CrewNeed) bool { return n.Least < n.Most }) {
		return nil
	}
	var out [][]schedule.CrewNeed
	for n := crew[ranged].Least; n <= crew[ranged].Most; n++ {
		one := slices.Clone(crew)
		one[ranged].Least, one[ranged].Most = n, n
		out = append(out, one)
	}
	return out
}

// latest finds the latest starts with which all required tasks may be done by a
// moment: each round looks at every activity, the last first, until none moves.
func (b *bounds) latest(until calendars.Instant) {
	after := make([][]*tie, len(b.own))
	for i := range b.ties {
		x := &b.ties[i]
		after[x.from] = append(after[x.from], x)
	}
	b.until = func(a schedule.Activity) calendars.Instant {
		return lastFit(b.end[a], until, func(finish calendars.Instant) bool {
			return b.leaves(a, after[a], b.start[a], finish, until)
		})
	}
	for moved, rounds := true, 0; moved && rounds <= len(b.own); rounds++ {
		moved = false
		for i := range b.own {
			a := schedule.Activity(len(b.own) - 1 - i)
			fits := func(start calendars.Instant) bool { return b.inTime(a, after[a], start, until) }
			if to := min(b.late[a], b.within(a), until); b.late[a] > to || !fits(to) {
				if late := lastFit(b.start[a], to, fits); late != b.late[a] {
					b.late[a], moved = late, true
				}
			}
		}
	}
}

// within is the latest start that longest waits from what an activity follows allow.
func (b *bounds) within(a schedule.Activity) calendars.Instant {
	late := calendars.Never
	for i := range b.ties {
		x := &b.ties[i]
		if x.to != a || !x.HasWithin || b.late[x.from] == calendars.Never {
			continue
		}
		event := b.late[x.from]
		if x.Kind.FromFinish() {
			_, event = b.place(x.from, event)
		}
		if event != calendars.Never {
			late = min(late, event.Plus(x.Within)) // it starts no later than it finishes
		}
	}
	return late
}

// lastFit is the last moment from one to another that fits, when a moment before one
// that fits always does; the minute before the first when none fits.
func lastFit(from, to calendars.Instant, fits func(calendars.Instant) bool) calendars.Instant {
	lo, hi := from-1, to
	for lo < hi {
		if mid := lo + (hi-lo+1)/2; fits(mid) {
			lo = mid
		} else {
			hi = mid - 1
		}
	}
	return lo
}

// inTime says whether an activity that is begun at a moment, or as soon after it as it
// can be, leaves what follows it time enough.
func (b *bounds) inTime(a schedule.Activity, after []*tie, from, until calendars.Instant) bool {
	start, finish := b.place(a, from)
	return finish != calendars.Never && b.leaves(a, after, start, finish, until)
}

// leaves says whether an activity that starts and finishes at given moments leaves what
// follows it time enough.
func (b *bounds) leaves(a schedule.Activity, after []*tie, start, finish, until calendars.Instant) bool {
	if t, ok := b.p.Task(a); ok && b.here[t] && b.done(a, finish) > until {
		return false
	}
	for _, x := range after {
		late := b.late[x.to]
		if t, ok := b.p.Task(x.to); late == calendars.Never || ok && !b.here[t] {
			continue
		}
		if x.Kind.ToFinish() {
			_, late = b.place(x.to, late)
		}
		if b.free(x, start, finish) > late {
			return false
		}
	}
	return true
}

// spends is the least of a span that an activity must be worked on in: in its own
// open minutes that is least when it begins as early or as late as it may.
func (b *bounds) spends(
	a schedule.Activity, own open, takes calendars.Minutes, s calendars.Span,
) calendars.Minutes {
	least, until := takes, b.until(a)
	late := lastFit(b.start[a], b.late[a], func(from calendars.Instant) bool { return own.after(from, takes) <= until })
	for _, from := range []calendars.Instant{b.start[a], late} {
		end := own.after(from, takes)
		if end > s.End {
			end = s.End
		}
		worked := calendars.Minutes(0)
		if begin := max(from, s.Start); begin < end {
			worked = own.count(begin, end)
		}
		least = min(least, worked)
	}
	return least
}

// amount is what heads and machines take of what is over-full.
func (b *bounds) amount(
	o *schedule.Overfull, crew []schedule.CrewNeed, machines []schedule.MachineNeed, zones []schedule.ZoneID,
) int {
	n, here := 0, slices.Contains(zones, o.Zone)
	for _, need := range crew {
		if need.Crew == o.Crew || here {
			n += need.Least
		}
	}
	for _, need := range machines {
		switch {
		case need.Machine == o.Machine:
			n += need.Count
		case slices.Contains(stands(need, zones), o.Zone):
			n += need.Count * b.p.Machines[need.Machine].Places
		}
	}
	return n
}

// there is what there is of something in some time.
func (b *bounds) there(o *schedule.Overfull, in open) calendars.Minutes {
	n := in.total()
	switch {
	case o.Crew != schedule.None:
		n = 0
		for _, team := range b.hours.crews[o.Crew] {
			n += open{team.span}.meet(in).total() * calendars.Minutes(team.heads)
		}
		return n
	case o.Machine != schedule.None:
		return n * calendars.Minutes(b.p.Machines[o.Machine].Count)
	case o.Zone != schedule.None:
		return n * calendars.Minutes(b.p.Zones[o.Zone].People)
	}
	if b.p.Site.Gate == nil {
		return calendars.Minutes(calendars.Never)
	}
	return n * calendars.Minutes(b.p.Site.Gate.AtOnce)
}
