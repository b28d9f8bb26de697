package learner

import (
	"cmp"
	"slices"
)

// resource is a capacity and who takes it.
type resource struct {
	capacity int32     // the most there ever is
	short    []segment // when there is less, by how much
	users    []int32   // takers
	stale    bool      // a user's bounds have moved
}

// table is scratch space for the time table of one resource at a time.
type table struct {
	events   []int64
	segments []segment
	most     int32
}

// add adds an amount over a span.
func (t *table) add(start, end, amount int32) {
	t.events = append(t.events, int64(start)<<32+int64(amount), int64(end)<<32-int64(amount))
}

// fill builds the time table of what is certainly in use: by each activity from its
// latest start to its earliest end, and by what isn't there.
func (s *solver) fill(r *resource) {
	t := &s.table
	t.events, t.segments, t.most = t.events[:0], t.segments[:0], 0
	for _, g := range r.short {
		t.add(g.start, g.end, g.used)
	}
	for _, k := range r.users {
		u := &s.takers[k]
		start, end := s.high(u.activity), s.reach(u, s.low(u.activity))
		if start >= end || !s.active(u, now) {
			continue
		}
		open := s.spell(u).open
		if u.stays || open == nil {
			t.add(start, end, u.amount)
			continue
		}
		for _, g := range open[after(open, start):] {
			if g.start >= end {
				break
			}
			t.add(max(start, g.start), min(end, g.end), u.amount)
		}
	}
	slices.Sort(t.events)
	used, at := int32(0), int32(0)
	for _, e := range t.events {
		amount := int32(e)
		when := int32((e - int64(amount)) >> 32)
		if when > at && used > 0 {
			t.segments = append(t.segments, segment{at, when, used})
			t.most = max(t.most, used)
		}
		at, used = when, used+amount
	}
	s.work += int64(len(r.users) + 2*len(t.events))
}

// tabulate keeps a resource's users out of where it is full. It returns false in a
// dead end.
func (s *solver) tabulate(k int32) bool {
	r := &s.resources[k]
	s.fill(r)
	if s.table.most > r.capacity {
		for _, g := range s.table.segments {
			if g.used > r.capacity {
				s.why = s.why[:0]
				s.explainTable(k, (g.start+g.end-1)/2, nobody, 0, int32(len(s.trail)))
				return false
			}
		}
	}
	for _, k := range r.users {
		u := &s.takers[k]
		if s.table.most+u.amount <= r.capacity || !s.active(u, now) {
			continue
		}
		if low, high := s.low(u.activity), s.high(u.activity); low < high && !s.pushLater(k, low, high) {
			return false
		}
	}
	return true
}

// pushLater moves the bounds of a taker's activity out of where its resource is full,
// first the lower, then the upper.
func (s *solver) pushLater(k, low, high int32) bool {
	u := &s.takers[k]
	room := s.resources[u.resource].capacity - u.amount
	segments := s.table.segments
	own := segment{high, s.spell(u).end(low) + u.own, 0} // its share of the time table
	at := low
	for _, g := range segments[after(segments, low):] {
		if g.start >= s.reach(u, at) {
			break
		}
		if g.used <= room || g.start >= own.start && g.end <= own.end {
			continue
		}
		for at < g.end {
			moment, taken := s.lastTaken(u, max(at, g.start), min(g.end, s.reach(u, at)))
			if !taken {
				break
			}
			if !s.set(lower(u.activity, moment+1), reason{byTable, k, moment}) {
				return false
			}
			at = s.low(u.activity)
		}
	}
	return s.pushEarlier(k, s.high(u.activity), own)
}

func (s *solver) pushEarlier(k, high int32, own segment) bool {
	u := &s.takers[k]
	room := s.resources[u.resource].capacity - u.amount
	segments := s.table.segments
	at := high
	for i := upTo(segments, s.reach(u, high)) - 1; i >= 0; i-- {
		g := segments[i]
		if g.end <= at {
			break
		}
		if g.used <= room || g.start >= own.start && g.end <= own.end {
			continue
		}
		for g.end > at && g.start < s.reach(u, at) {
			moment, taken := s.firstTaken(u, max(g.start, at), min(g.end, s.reach(u, at)))
			if !taken {
				break
			}
			if !s.set(upper(u.activity, s.holding(u, moment)-1), reason{byTable, k, moment}) {
				return false
			}
			at = s.high(u.activity)
		}
	}
	return true
}

// nobody is no activity; now is after every step.
const (
	nobody = -1
	now    = 1<<31 - 1
)

// cover is a taker that certainly takes at a moment, and the step since which it does.
type cover struct {
	*taker
	since int32
}

// explainTable appends to s.why who besides whom was certainly under way at a
// moment before the step at: just enough of them to leave no room for amount,
// those first that were so longest.
func (s *solver) explainTable(k, moment, whom, amount, at int32) {
	s.cover(k, moment, whom, at)
	spare := amount - s.resources[k].there(moment) - 1
	for i, c := range s.covers {
		if spare += c.amount; spare >= 0 {
			s.covers = s.covers[:i+1]
			break
		}
	}
	for i := len(s.covers) - 1; i >= 0; i-- {
		c := s.covers[i]
		if c.amount <= spare {
			spare -= c.amount
			continue
		}
		s.why = append(s.why, upper(c.activity, moment), lower(c.activity, s.holding(c.taker, moment)))
		if c.way != anyWay {
			s.why = append(s.why, s.done(c.way))
		}
	}
}

// cover sets s.covers to who besides whom was certainly under way at a moment before the
// step at, those first that were so longest.
func (s *solver) cover(k, moment, whom, at int32) {
	r := &s.resources[k]
	s.covers = s.covers[:0]
	for _, k := range r.users {
		u := &s.takers[k]
		if u.activity == whom || !s.takes(u, moment) || !s.active(u, at) {
			continue
		}
		begun, runs := upper(u.activity, moment), lower(u.activity, s.holding(u, moment))
		if s.boundAt(begun.side, at) < begun.least || s.boundAt(runs.side, at) < runs.least {
			continue
		}
		since := max(s.cause(begun), s.cause(runs))
		if u.way != anyWay {
			since = max(since, s.cause(s.done(u.way)))
		}
		s.covers = append(s.covers, cover{u, since})
	}
	s.work += int64(2 * len(r.users))
	slices.SortFunc(s.covers, func(a, b cover) int {
		return cmp.Or(cmp.Compare(a.since, b.since), cmp.Compare(b.amount, a.amount), cmp.Compare(a.activity, b.activity))
	})
}

// there is the capacity at a moment.
func (r *resource) there(moment int32) int32 {
	if k := after(r.short, moment); k < len(r.short) && r.short[k].start <= moment {
		return r.capacity - r.short[k].used
	}
	return r.capacity
}
