package critical_test

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
)

// oracle is an independent model: it knows only whether a minute is open, and
// tries starts one by one.
type oracle struct {
	s    network.Spec
	open [][]bool // by calendar, from minute base on

	// unplaced stands in for the finish of a node that can't start where it
	// now stands: too early on the way up, too late on the way down, so that
	// no other node moves further than it must.
	unplaced calendars.Instant
}

// The oracle's minutes run over [low, high); calendars are open only within
// [base, top).
const (
	low  = calendars.Instant(1_000)
	base = calendars.Instant(2_000)
	top  = calendars.Instant(2_160)
	high = calendars.Instant(2_600)
)

func (o *oracle) isOpen(cal int32, t calendars.Instant) bool {
	return t >= base && t < top && o.open[cal][t-base]
}

// add walks to the instant with m open minutes after t.
func (o *oracle) add(cal int32, t calendars.Instant, m calendars.Minutes) calendars.Instant {
	for ; m > 0; t++ {
		if t >= top {
			return calendars.Never
		}
		if o.isOpen(cal, t) {
			m--
		}
	}
	return t
}

func (o *oracle) subtract(cal int32, t calendars.Instant, m calendars.Minutes) calendars.Instant {
	for ; m > 0; t-- {
		if t <= base {
			return calendars.Past
		}
		if o.isOpen(cal, t-1) {
			m--
		}
	}
	return t
}

// finish is where work from start ends; ok is false when it can't start there.
func (o *oracle) finish(i int32, start calendars.Instant) (calendars.Instant, bool) {
	n := &o.s.Nodes[i]
	if n.Work == 0 {
		return start, true
	}
	if !o.isOpen(n.Calendar, start) {
		return 0, false
	}
	end := o.add(n.Calendar, start, n.Work)
	return end, end != calendars.Never && (!n.Unbroken || end == start.Plus(n.Work))
}

func (o *oracle) signed(i int32, finish calendars.Instant) calendars.Instant {
	n := &o.s.Nodes[i]
	if n.Hold == network.None {
		return finish
	}
	h := o.s.Holds[n.Hold]
	if len(h.Appointments) == 0 {
		return o.add(n.Place, finish, h.Takes)
	}
	for _, a := range h.Appointments {
		if a >= finish {
			return a.Plus(h.Takes)
		}
	}
	return calendars.Never
}

// allows is the moment that an arc allows its follower's event.
func (o *oracle) allows(a *network.Arc, start, finish calendars.Instant) calendars.Instant {
	n := &o.s.Nodes[a.From]
	at := start
	if a.Kind.FromFinish() {
		at = finish
	}
	place := o.s.Nodes[a.To].Place
	switch {
	case a.Wait.Kind == schedule.Cure:
		at += calendars.Instant(a.Wait.Time)
	case a.Wait.Kind == schedule.Lag && a.Wait.Time >= 0:
		at = o.add(place, at, a.Wait.Time)
	case a.Wait.Kind == schedule.Lag:
		at = o.subtract(place, at, -a.Wait.Time)
	case a.Kind.FromFinish():
		at += calendars.Instant(n.Cure)
	}
	if a.Kind.FromFinish() && n.Hold != network.None {
		at = max(at, o.signed(a.From, finish))
	}
	return at
}

func (o *oracle) end(i int32, start calendars.Instant) calendars.Instant {
	if end, ok := o.finish(i, start); ok {
		return end
	}
	return o.unplaced
}

// holds says whether an arc, and its longest wait, hold for two starts.
func (o *oracle) holds(a *network.Arc, from, to calendars.Instant) (arc, within bool) {
	if from == calendars.Never {
		return to == calendars.Never, true
	}
	if to == calendars.Past {
		return from == calendars.Past, true
	}
	fromEnd := o.end(a.From, from)
	if to == calendars.Never {
		return true, !a.HasWithin
	}
	if from == calendars.Past {
		return true, !a.HasWithin
	}
	toEnd := o.end(a.To, to)
	follows := to
	if a.Kind.ToFinish() {
		follows = toEnd
	}
	event := from
	if a.Kind.FromFinish() {
		event = fromEnd
	}
	return o.allows(a, from, fromEnd) <= follows, !a.HasWithin || follows <= event.Plus(a.Within)
}

// early is the least starts: each node is moved on, minute by minute, until
// all its own constraints hold for the others as they stand, until none moves.
func (o *oracle) early() []calendars.Instant {
	o.unplaced = low
	at := make([]calendars.Instant, len(o.s.Nodes))
	for i := range at {
		at[i] = max(o.s.Nodes[i].Earliest, low)
	}
	for moved := true; moved; {
		moved = false
		for i := range at {
			for at[i] != calendars.Never && !o.earlyFits(int32(i), at) {
				if at[i]++; at[i] >= high {
					at[i] = calendars.Never
				}
				moved = true
			}
		}
	}
	return at
}

func (o *oracle) earlyFits(i int32, at []calendars.Instant) bool {
	if _, ok := o.finish(i, at[i]); !ok {
		return false
	}
	for k := range o.s.Arcs {
		a := &o.s.Arcs[k]
		arc, within := o.holds(a, at[a.From], at[a.To])
		if a.To == i && !arc || a.From == i && !within {
			return false
		}
	}
	return true
}

// late is the greatest starts, from the other side. An optional node bounds optional
// ones alone.
func (o *oracle) late() []calendars.Instant {
	o.unplaced = high
	at := make([]calendars.Instant, len(o.s.Nodes))
	for i := range at {
		at[i] = high - 1
	}
	for moved := true; moved; {
		moved = false
		for i := range at {
			for at[i] != calendars.Past && !o.lateFits(int32(i), at) {
				if at[i]--; at[i] < low {
					at[i] = calendars.Past
				}
				moved = true
			}
		}
	}
	return at
}

func (o *oracle) lateFits(i int32, at []calendars.Instant) bool {
	if !o.meets(i, at[i]) {
		return false
	}
	for k := range o.s.Arcs {
		a := &o.s.Arcs[k]
		if !o.s.Nodes[i].Optional && (o.s.Nodes[a.From].Optional || o.s.Nodes[a.To].Optional) {
			continue
		}
		arc, within := o.holds(a, at[a.From], at[a.To])
		if a.From == i && !arc || a.To == i && !within {
			return false
		}
	}
	return true
}

// meets says whether a node's own dates hold for a start.
func (o *oracle) meets(i int32, start calendars.Instant) bool {
	n := &o.s.Nodes[i]
	end, ok := o.finish(i, start)
	if !ok || start > n.LatestStart || end > n.LatestFinish {
		return false
	}
	done := end.Plus(n.Cure)
	if n.Hold != network.None {
		done = max(done, o.signed(i, end))
	}
	return done <= n.LatestDone
}
