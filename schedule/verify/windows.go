package verify

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// mostCounted bounds the work of looking for something over-full: users looked at in
// windows.
const mostCounted = 100_000

// things lists what activities share: each crew, machine, zone with a limit, and the
// gate if it has one.
func (b *bounds) things() []schedule.Overfull {
	none := schedule.Overfull{Crew: schedule.None, Machine: schedule.None, Zone: schedule.None, Alone: schedule.None}
	var out []schedule.Overfull
	for i := range b.p.Crews {
		o := none
		o.Crew = schedule.CrewID(i)
		out = append(out, o)
	}
	for i := range b.p.Machines {
		o := none
		o.Machine = schedule.MachineID(i)
		out = append(out, o)
	}
	for i := range b.p.Zones {
		if o := none; b.p.Zones[i].People > 0 {
			o.Zone = schedule.ZoneID(i)
			out = append(out, o)
		}
	}
	if o := none; b.p.Site.Gate != nil && b.p.Site.Gate.AtOnce > 0 {
		o.Gate = true
		out = append(out, o)
	}
	return out
}

// weigh says whether required work must spend more of anything than is there, in any
// window between the moments at which its users may begin and end, if all of it is to be
// done by a moment (energetic reasoning: Erschler, Lopez and Thuriot, 1991, from memory).
// What would spend more in a window than others leave there lies outside in part; that
// may settle more.
func (b *bounds) weigh(until calendars.Instant) bool {
	for left := mostCounted; left >= 0; {
		moved := false
		for i := range b.shared {
			for _, pauses := range [...]bool{false, true} {
				over, pushed := b.weighOne(&b.shared[i], pauses, &left)
				if over {
					return true
				}
				moved = moved || pushed
			}
		}
		if !moved {
			return false
		}
		b.early()
		if b.latest(until); !b.settle(until) {
			return true
		}
	}
	return false
}

// users are the activities that need one thing, by the sizes that they may have, and when
// any of it may be in use.
type users struct {
	of       []schedule.Activity
	spend    [][]spender
	from, to []calendars.Instant // the moments at which they may begin and end, rising
	may      open
	stays    bool // some hold it through their pauses
}

func (b *bounds) usersOf(o *schedule.Overfull, pauses bool) users {
	var u users
	for a := range schedule.Activity(len(b.own)) {
		if !b.bounded(a) || b.amountOf(a, o) == 0 {
			continue
		}
		sizes := b.spenders(a, o, pauses && o.Crew == schedule.None)
		u.of, u.spend = append(u.of, a), append(u.spend, sizes)
		for _, s := range sizes {
			u.from, u.to = append(u.from, s.early.Start, s.late.Start), append(u.to, s.early.End, s.late.End)
			u.may, u.stays = join(append(slices.Clone(u.may), s.own...)), u.stays || s.held
		}
	}
	slices.Sort(u.from)
	slices.Sort(u.to)
	u.from, u.to = slices.Compact(u.from), slices.Compact(u.to)
	if pauses {
		u.may = open{always(1)[0].span}
	}
	return u
}

// weighOne looks at one thing, in pauses of what stays too or not: whether it is
// over-full in some window, and else whether that moved anything.
func (b *bounds) weighOne(o *schedule.Overfull, pauses bool, left *int) (over, moved bool) {
	u := b.usersOf(o, pauses)
	if len(u.spend) < 2 || pauses && !u.stays {
		return false, false
	}
	for _, start := range u.from {
		for _, end := range u.to {
			if start >= end {
				continue
			}
			if *left -= len(u.spend); *left < 0 {
				return false, moved
			}
			in := calendars.Span{Start: start, End: end}
			slack := b.there(o, u.may.meet(open{in})) - u.needed(in)
			if slack < 0 {
				return true, moved
			}
			moved = b.pushAll(&u, in, slack) || moved
		}
	}
	return false, moved
}

// needed is what users must spend in a window.
func (u *users) needed(in calendars.Span) (sum calendars.Minutes) {
	for _, sizes := range u.spend {
		sum += least(sizes, in)
	}
	return sum
}

// pushAll narrows the moments of users of one size that would spend more in a window
// than all others leave there, and says whether that moved any.
func (b *bounds) pushAll(u *users, in calendars.Span, slack calendars.Minutes) (moved bool) {
	for k, sizes := range u.spend {
		if len(sizes) == 1 && !sizes[0].held {
			moved = b.push(u.of[k], &sizes[0], in, slack+least(sizes, in)) || moved
		}
	}
	return moved
}

// push narrows the moments of an activity that may spend only so much in a window, and
// says whether that moved any.
func (b *bounds) push(a schedule.Activity, s *spender, in calendars.Span, most calendars.Minutes) bool {
	fits, moved := most/s.amount, false
	if b.unit > 1 {
		fits -= fits % b.unit
	}
	within := func(at calendars.Span) calendars.Minutes {
		from, to := max(at.Start, in.Start), min(at.End, in.End)
		if from >= to {
			return 0
		}
		return s.own.count(from, to)
	}
	if within(s.early) > fits {
		if from := s.own.before(in.End, fits+1) + 1; from > b.start[a] {
			b.start[a], moved = from, true
		}
	}
	if within(s.late) > fits {
		if to := s.own.before(in.Start, s.takes-fits); to < b.late[a] {
			b.late[a], moved = to, true
		}
	}
	return moved
}

// oneAtATime says whether work of which no two can go on at once takes longer in a
// window than it is open for any of it.
func (b *bounds) oneAtATime(o *schedule.Overfull) bool {
	if o.Needed > 0 || o.Alone != schedule.None || o.Span.Start >= o.Span.End {
		return false
	}
	needed, may := calendars.Minutes(0), open(nil)
	for i, x := range o.Work {
		if !b.bounded(x) {
			return false
		}
		for _, y := range o.Work[:i] {
			if !b.clash(x, y) && !b.follows(x, y) && !b.follows(y, x) {
				return false
			}
		}
		minutes := b.spenders(x, o, false)
		for k := range minutes {
			minutes[k].amount = 1
		}
		needed += least(minutes, o.Span)
		may = join(append(slices.Clone(may), b.own[x]...))
	}
	return needed > may.meet(open{o.Span}).total()
}

// crowded says whether a task and some work that may not go on beside it don't both fit
// into a window: in the minutes in which either can be worked on or, where one keeps the
// other away in its pauses, with those.
func (b *bounds) crowded(o *schedule.Overfull) bool {
	if o.Alone == schedule.None || o.Needed > 0 || o.AtOnce > 0 || o.Span.Start >= o.Span.End {
		return false
	}
	t := o.Alone.Activity()
	return b.bounded(t) && slices.Contains(o.Work, t) && slices.ContainsFunc(o.Work, func(x schedule.Activity) bool {
		return x != t && b.bounded(x) && b.dontFit(t, x, o)
	})
}

func (b *bounds) dontFit(x, y schedule.Activity, o *schedule.Overfull) bool {
	one, first := b.apart[[2]schedule.Activity{x, y}]
	other, second := b.apart[[2]schedule.Activity{y, x}]
	if !first && !second {
		return false // nothing keeps them apart
	}
	spends := func(a schedule.Activity, held bool) calendars.Minutes {
		minutes := b.spenders(a, o, false)
		for k := range minutes {
			minutes[k].amount, minutes[k].held = 1, held
		}
		return least(minutes, o.Span)
	}
	may := join(append(slices.Clone(b.own[x]), b.own[y]...)).meet(open{o.Span})
	if spends(x, false)+spends(y, false) > may.total() {
		return true
	}
	return spends(x, one.whole)+spends(y, other.whole) > o.Span.Minutes()
}
