package verify

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// keeping is how an activity keeps another from being worked on: in its own worked
// minutes or, whole, from its start to its finish and some time after.
type keeping struct {
	whole bool
	after calendars.Minutes
}

// pairs says of two activities how the first keeps the second away.
type pairs map[[2]schedule.Activity]keeping

// keep adds a way in which one activity keeps another away.
func (p pairs) keep(x, y schedule.Activity, k keeping) {
	was := p[[2]schedule.Activity{x, y}]
	p[[2]schedule.Activity{x, y}] = keeping{was.whole || k.whole, max(was.after, k.after)}
}

// apart keeps two tasks' whole spans apart.
func (p pairs) apart(x, y schedule.TaskID) {
	p.keep(x.Activity(), y.Activity(), keeping{whole: true})
	p.keep(y.Activity(), x.Activity(), keeping{whole: true})
}

// kept lists what keeps pairs of activities apart by the words of the plan alone.
func (b *bounds) kept() pairs {
	out := make(pairs)
	for i := range b.p.Tasks {
		t, x := &b.p.Tasks[i], schedule.TaskID(i)
		for _, other := range t.Apart {
			out.apart(x, other)
		}
		if t.Closes.Timed {
			b.eachBehind(x, func(other schedule.TaskID) {
				out.keep(x.Activity(), other.Activity(), keeping{true, t.Closes.For})
			})
		}
		if len(t.Clears) == 0 {
			continue
		}
		for y := range b.p.Activities() {
			if zones, machines := b.workplace(y); y != x.Activity() && inZones(t.Clears, zones, machines) {
				out.keep(x.Activity(), y, keeping{whole: t.Stays})
			}
		}
	}
	for i := range b.p.Rules {
		if b.p.Rules[i].Kind == schedule.Apart {
			b.keptByRule(schedule.RuleID(i), out)
		}
	}
	return out
}

func (b *bounds) keptByRule(id schedule.RuleID, out pairs) {
	r := &b.p.Rules[id]
	for _, x := range b.bound(r.First, id) {
		for _, y := range b.bound(r.Then, id) {
			if x != y && (r.Everywhere || meet(&b.p.Tasks[x], &b.p.Tasks[y])) {
				out.apart(x, y)
			}
		}
	}
}

// workplace is where an activity is: its zones, none for a lorry, and its machines.
func (b *bounds) workplace(a schedule.Activity) ([]schedule.ZoneID, []schedule.MachineNeed) {
	if d, ok := b.p.Delivery(a); ok {
		return nil, b.p.Deliveries[d].Unload.Machines
	}
	return b.p.Tasks[a].Zones, b.p.Tasks[a].Machines
}

// possible says whether each activity has moments left.
func (b *bounds) possible() bool {
	for a := range schedule.Activity(len(b.own)) {
		if b.wanted(a) && b.late[a] < b.start[a] {
			return false
		}
	}
	return true
}

// settle narrows the moments between which required work must lie if all of it is to
// be done by a moment, and says whether there are such moments. Of two activities that
// can't be at work at once, one comes first: where only one can, the other waits for it
// (disjunctive pairs: Carlier and Pinson, 1989, from memory).
func (b *bounds) settle(until calendars.Instant) bool {
	for again := true; again && b.possible(); {
		again = false
		for y := range schedule.Activity(len(b.own)) {
			for x := range y {
				if !b.bounded(x) || !b.bounded(y) {
					continue
				}
				news, possible := b.turn(x, y)
				if !possible {
					return false
				}
				again = again || news
			}
		}
		if again {
			b.early()
			b.latest(until)
		}
	}
	return b.possible()
}

// turn makes one of two activities that can't be at work at once wait for the other if
// only that one can come first. It says whether that is new, and whether either can.
func (b *bounds) turn(x, y schedule.Activity) (news, possible bool) {
	first, then := b.apart[[2]schedule.Activity{x, y}], b.apart[[2]schedule.Activity{y, x}]
	forth, back := b.fits(x, y, first.after), b.fits(y, x, then.after)
	switch {
	case forth && back || !b.inTurn(x, y):
		return false, true
	case forth:
		return b.follow(x, y, first.after), true
	case back:
		return b.follow(y, x, then.after), true
	}
	return false, false
}

// wanted says whether an activity must be over for all required work to be done: a lorry
// for optional work alone only if some of that counts and uses it.
func (b *bounds) wanted(a schedule.Activity) bool {
	d, ok := b.p.Delivery(a)
	if !ok {
		return b.here[a]
	}
	used := slices.ContainsFunc(b.p.Users(d), func(t schedule.TaskID) bool { return b.here[t] })
	return b.placed(a) && (used || b.awaited(d))
}

// fits says whether one activity can be over some time before another begins.
func (b *bounds) fits(first, then schedule.Activity, after calendars.Minutes) bool {
	return b.end[first].Plus(after) <= b.late[then]
}

// follow makes an activity wait for another, and says whether that is new.
func (b *bounds) follow(first, then schedule.Activity, after calendars.Minutes) bool {
	if b.end[first].Plus(after) <= b.start[then] && b.due[first].Plus(after) <= b.late[then] {
		return false
	}
	x := tie{from: first, to: then, bare: true}
	x.Wait = schedule.Wait{Kind: schedule.Cure, Time: after}
	for i := range b.ties {
		if b.ties[i] == x {
			return false
		}
	}
	b.ties = append(b.ties, x)
	return true
}

// inTurn says whether one of two activities must be over before the other begins: they
// can't be at work at once, and neither can begin in a pause of the other.
func (b *bounds) inTurn(x, y schedule.Activity) bool {
	if !b.clash(x, y) {
		return false
	}
	held := b.heldByBoth(x, y)
	inPause := func(of, other schedule.Activity) bool {
		return !b.unbroken[of] && !b.apart[[2]schedule.Activity{of, other}].whole && !(held && b.stays(of)) &&
			b.pausesFor(of, other)
	}
	return !inPause(x, y) && !inPause(y, x)
}

// pausesFor says whether an activity may begin in a pause of another with which it can't be
// at work at once. At the next minute that both work in whatever their heads, one of them
// must be over: until then it has time for all its work, or the other for its last.
func (b *bounds) pausesFor(of, other schedule.Activity) bool {
	span := calendars.Span{Start: min(b.start[of], b.start[other]), End: max(b.due[of], b.due[other])}
	pauses := open{span}.less(b.fullest(of).meet(b.fullest(other)))
	hand := func(a schedule.Activity, s calendars.Span) open {
		return b.own[a].meet(open{{Start: max(s.Start, b.start[a]), End: min(s.End, b.due[a])}})
	}
	for _, s := range pauses {
		first, then := hand(of, s), hand(other, s)
		within := b.start[of] < s.Start && s.End < b.due[of]
		if len(then) > 0 && (len(first) > 0 || within && then.total() >= b.takes[other]) {
			return true
		}
	}
	return false
}

// both is the time in which two activities could both be at work.
func (b *bounds) both(x, y schedule.Activity) open {
	return open{{Start: max(b.start[x], b.start[y]), End: max(b.due[x], b.due[y])}}
}

// clash says whether two activities can't be at work at once.
func (b *bounds) clash(x, y schedule.Activity) bool {
	_, one := b.apart[[2]schedule.Activity{x, y}]
	_, other := b.apart[[2]schedule.Activity{y, x}]
	return one || other || b.heldByBoth(x, y) || b.fewHeads(x, y, b.own[x].meet(b.both(x, y)).meet(b.own[y]))
}

// follows says whether ties alone put an activity after the end of another.
func (b *bounds) follows(first, then schedule.Activity) bool {
	reached := []schedule.Activity{first}
	for k := 0; k < len(reached); k++ {
		for i := range b.ties {
			x := &b.ties[i]
			lead := x.Wait.Kind == schedule.Lag && x.Wait.Time < 0
			if x.from == reached[k] && x.Kind.FromFinish() && !x.Kind.ToFinish() && !lead && !slices.Contains(reached, x.to) {
				reached = append(reached, x.to)
			}
		}
	}
	return slices.Contains(reached, then)
}

// fewHeads says whether some crew that two activities need hasn't enough for both in any
// minute of some time.
func (b *bounds) fewHeads(x, y schedule.Activity, in open) bool {
	for _, one := range b.p.CrewOf(x) {
		for _, other := range b.p.CrewOf(y) {
			if one.Crew == other.Crew && len(b.hours.atWork(in, one.Crew, one.Least+other.Least)) == 0 {
				return true
			}
		}
	}
	return false
}

// heldByBoth says whether two activities need more together of a machine, of room or of
// the gate than there ever is.
func (b *bounds) heldByBoth(x, y schedule.Activity) bool {
	for i := range b.shared {
		o := &b.shared[i]
		if o.Crew != schedule.None {
			continue
		}
		one, other := b.amountOf(x, o), b.amountOf(y, o)
		if one > 0 && other > 0 && one+other > b.most(o) {
			return true
		}
	}
	return false
}

// amountOf is the least that an activity takes of something while it is worked on.
func (b *bounds) amountOf(a schedule.Activity, o *schedule.Overfull) int {
	if _, lorry := b.p.Delivery(a); lorry && o.Gate {
		return 1
	}
	zones, machines := b.workplace(a)
	return b.amount(o, b.p.CrewOf(a), machines, zones)
}

// most is how much there ever is of something that isn't a crew.
func (b *bounds) most(o *schedule.Overfull) int {
	switch {
	case o.Machine != schedule.None:
		return b.p.Machines[o.Machine].Count
	case o.Zone != schedule.None:
		return b.p.Zones[o.Zone].People
	case b.p.Site.Gate != nil:
		return b.p.Site.Gate.AtOnce
	}
	return 1 << 30
}

// stays says whether an activity holds machines and room through its pauses.
func (b *bounds) stays(a schedule.Activity) bool {
	t, ok := b.p.Task(a)
	return ok && b.p.Tasks[t].Stays
}

// fullest is when an activity can be worked on by the most heads that it may have.
func (b *bounds) fullest(a schedule.Activity) open {
	t, ok := b.p.Task(a)
	if !ok {
		return b.own[a]
	}
	most := make([]int, len(b.p.Tasks[t].Crew))
	for k, need := range b.p.Tasks[t].Crew {
		most[k] = need.Most
	}
	return b.workable(t, most, always(1)[0].span)
}
