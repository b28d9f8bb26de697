package verify

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// overfull says whether the work that a programme names must spend more of something
// in a window than is there, if all required work is to be done by the moment to which
// it was settled.
func (b *bounds) overfull(o *schedule.Overfull) bool {
	if !summed(o) || !b.limited(o) {
		return false
	}
	needed, there := b.spent(o)
	return needed > there
}

// spent is the least that the work named must spend of something in a window, and what is
// there of it then.
func (b *bounds) spent(o *schedule.Overfull) (needed, there calendars.Minutes) {
	may := open(nil)
	for _, a := range o.Work {
		if !b.bounded(a) {
			continue
		}
		needed += least(b.spenders(a, o, false), o.Span)
		may = join(append(slices.Clone(may), b.own[a]...))
	}
	return needed, b.there(o, may.meet(open{o.Span}))
}

// bounded says whether an activity is work that must lie between two moments.
func (b *bounds) bounded(a schedule.Activity) bool {
	return b.wanted(a) && b.late[a] != calendars.Never && b.takes[a] > 0
}

// summed says whether a sum of minutes of something that has a name shows what is
// over-full.
func summed(o *schedule.Overfull) bool {
	named := o.Zone != schedule.None || o.Crew != schedule.None || o.Machine != schedule.None || o.Gate
	return named && o.Needed > 0 && o.Alone == schedule.None && o.Span.Start < o.Span.End
}

// limited says whether there is an end to something that is shared.
func (b *bounds) limited(o *schedule.Overfull) bool {
	if o.Zone != schedule.None {
		return b.p.Zones[o.Zone].People > 0
	}
	return !o.Gate || b.p.Site.Gate != nil
}

// spender is an activity of one size that spends some of something between two
// moments.
type spender struct {
	own         open
	takes       calendars.Minutes
	early, late calendars.Span
	held        bool // it spends in its pauses too
	amount      calendars.Minutes
}

// spenders are the sizes that an activity may have, as what they spend of something;
// none of a task with two ranges, on which nothing is counted.
func (b *bounds) spenders(a schedule.Activity, o *schedule.Overfull, pauses bool) []spender {
	t, ok := b.p.Task(a)
	if !ok {
		return []spender{b.spender(a, b.own[a], b.takes[a], b.amountOf(a, o), false)}
	}
	zones, machines := b.workplace(a)
	var out []spender
	for _, crew := range sizes(b.p.Tasks[t].Crew) {
		own, takes := b.working(t, crew)
		held := pauses && b.p.Tasks[t].Stays
		out = append(out, b.spender(a, own, takes, b.amount(o, crew, machines, zones), held))
	}
	return out
}

func (b *bounds) spender(
	a schedule.Activity, own open, takes calendars.Minutes, amount int, held bool,
) spender {
	until := b.due[a]
	late := b.whole(lastFit(b.start[a], b.late[a], func(from calendars.Instant) bool {
		return own.after(from, takes) <= until
	}))
	span := func(from calendars.Instant) calendars.Span {
		return calendars.Span{Start: from, End: own.after(from, takes)}
	}
	return spender{own, takes, span(b.start[a]), span(late), held, calendars.Minutes(amount)}
}

// least is what an activity must spend in a span, the least over the sizes in which it
// can be in time: amounts times minutes.
func least(sizes []spender, in calendars.Span) calendars.Minutes {
	least := calendars.Minutes(-1)
	for i := range sizes {
		s := &sizes[i]
		if s.late.Start < s.early.Start {
			continue
		}
		if spent := s.spends(in) * s.amount; least < 0 || spent < least {
			least = spent
		}
	}
	return max(least, 0)
}

// spends is the least of a span that an activity must be worked on in: in its own
// open minutes that is least when it begins as early or as late as it may. Held through
// its pauses it may be shorter in between, where it has none, if it can lie whole in the
// span.
func (s *spender) spends(in calendars.Span) calendars.Minutes {
	least := calendars.Minutes(calendars.Never)
	if !s.held || s.early.End < in.End && s.late.Start > in.Start {
		least = s.takes
	}
	for _, at := range [...]calendars.Span{s.early, s.late} {
		from, to := max(at.Start, in.Start), min(at.End, in.End)
		switch {
		case from >= to:
			return 0
		case s.held:
			least = min(least, calendars.Minutes(to-from))
		default:
			least = min(least, s.own.count(from, to))
		}
	}
	return least
}

// mostSizes bounds the sizes that a task is looked at in.
const mostSizes = 50

// sizes lists the heads that a task may have, as needs without a range; none when they
// are very many.
func sizes(crew []schedule.CrewNeed) [][]schedule.CrewNeed {
	out := [][]schedule.CrewNeed{crew}
	for k, need := range crew {
		if len(out)*(need.Most-need.Least+1) > mostSizes {
			return nil
		}
		var more [][]schedule.CrewNeed
		for _, one := range out {
			for n := need.Least; n <= need.Most; n++ {
				one = slices.Clone(one)
				one[k].Least, one[k].Most = n, n
				more = append(more, one)
			}
		}
		out = more
	}
	return out
}

// latest finds the latest starts with which all required activities may be done by a
// moment: each round looks at every activity, the last first, until none moves.
func (b *bounds) latest(until calendars.Instant) {
	after := make([][]*tie, len(b.own))
	for i := range b.ties {
		x := &b.ties[i]
		after[x.from] = append(after[x.from], x)
	}
	for moved, rounds := true, 0; moved && rounds <= len(b.own); rounds++ {
		moved = false
		for i := range b.own {
			a := schedule.Activity(len(b.own) - 1 - i)
			if !b.wanted(a) {
				continue
			}
			last := b.last(a, until)
			fits := func(start calendars.Instant) bool { return b.inTime(a, after[a], start, last) }
			if to := min(b.late[a], b.within(a), last); b.late[a] > to || !fits(to) {
				if late := b.whole(lastFit(b.start[a], to, fits)); late != b.late[a] {
					b.late[a], moved = late, true
				}
			}
		}
	}
	for i := range b.own {
		a := schedule.Activity(i)
		last := b.last(a, until)
		b.due[a] = b.whole(lastFit(b.end[a], last, func(finish calendars.Instant) bool {
			return b.leaves(a, after[a], b.start[a], finish, last)
		}))
	}
}

// last is when an activity must be done at the latest for all required work to be done
// by a moment: what isn't required, by the hand-over if that is later.
func (b *bounds) last(a schedule.Activity, until calendars.Instant) calendars.Instant {
	if b.counts(a) {
		return until
	}
	return max(until, b.p.Site.Handover)
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
	if b.wanted(a) && b.done(a, finish) > until {
		return false
	}
	for _, x := range after {
		late := b.late[x.to]
		if late == calendars.Never || !b.wanted(x.to) {
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
	if o.Crew == schedule.None {
		return in.total() * calendars.Minutes(b.most(o))
	}
	n := calendars.Minutes(0)
	for _, team := range b.hours.crews[o.Crew] {
		n += open{team.span}.meet(in).total() * calendars.Minutes(team.heads)
	}
	return n
}
