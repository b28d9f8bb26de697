package learner

import (
	"cmp"
	"slices"
)

// resource is a capacity and who takes it.
type resource struct {
	capacity int32
	users    []user
	stale    bool // a user's bounds have moved
}

// user is an activity that takes a resource.
type user struct{ activity, amount int32 }

// segment is a span in which the amount certainly in use is the same.
type segment struct{ start, end, used int32 }

// table is scratch space for the time table of one resource at a time.
type table struct {
	events   []int64
	segments []segment
	most     int32
}

// fill builds the time table of what is certainly under way: each activity from
// its latest start to its earliest finish.
func (s *solver) fill(r *resource) {
	t := &s.table
	t.events, t.segments, t.most = t.events[:0], t.segments[:0], 0
	for _, u := range r.users {
		start, end := s.high(u.activity), s.low(u.activity)+s.duration[u.activity]
		if start < end {
			t.events = append(t.events, int64(start)<<32+int64(u.amount), int64(end)<<32-int64(u.amount))
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

// after is the first segment that ends after a moment.
func (t *table) after(moment int32) int {
	low, high := 0, len(t.segments)
	for low < high {
		if mid := (low + high) / 2; t.segments[mid].end > moment {
			high = mid
		} else {
			low = mid + 1
		}
	}
	return low
}

// upTo is how many segments start before a moment.
func (t *table) upTo(moment int32) int {
	low, high := 0, len(t.segments)
	for low < high {
		if mid := (low + high) / 2; t.segments[mid].start >= moment {
			high = mid
		} else {
			low = mid + 1
		}
	}
	return low
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
	for _, u := range r.users {
		if s.table.most+u.amount <= r.capacity {
			continue
		}
		if low, high := s.low(u.activity), s.high(u.activity); low < high && !s.pushLater(k, u, low, high) {
			return false
		}
	}
	return true
}

// pushLater moves an activity's bounds out of where its resource is full, first
// the lower, then the upper.
func (s *solver) pushLater(k int32, u user, low, high int32) bool {
	room := s.resources[k].capacity - u.amount
	d := s.duration[u.activity]
	segments := s.table.segments
	own := segment{high, low + d, 0} // its share of the time table
	at := low
	for _, g := range segments[s.table.after(low):] {
		if g.start >= at+d {
			break
		}
		if g.used <= room || g.start >= own.start && g.end <= own.end {
			continue
		}
		for at < g.end && g.start < at+d {
			moment := min(g.end, at+d) - 1
			if !s.set(lower(u.activity, moment+1), reason{byTable, k, moment}) {
				return false
			}
			at = moment + 1
		}
	}
	return s.pushEarlier(k, u, high, own)
}

func (s *solver) pushEarlier(k int32, u user, high int32, own segment) bool {
	room := s.resources[k].capacity - u.amount
	d := s.duration[u.activity]
	segments := s.table.segments
	at := high
	for i := s.table.upTo(high+d) - 1; i >= 0; i-- {
		g := segments[i]
		if g.end <= at {
			break
		}
		if g.used <= room || g.start >= own.start && g.end <= own.end {
			continue
		}
		for g.end > at && g.start < at+d {
			moment := max(g.start, at)
			if !s.set(upper(u.activity, moment-d), reason{byTable, k, moment}) {
				return false
			}
			at = moment - d
		}
	}
	return true
}

// nobody is no activity.
const nobody = -1

// cover is a user that is certainly under way at a moment, and the step since
// which it is.
type cover struct {
	user
	since int32
}

// explainTable appends to s.why who besides whom was certainly under way at a
// moment before the step at: just enough of them to leave no room for amount,
// those first that were so longest.
func (s *solver) explainTable(k, moment, whom, amount, at int32) {
	r := &s.resources[k]
	s.covers = s.covers[:0]
	for _, u := range r.users {
		if u.activity == whom {
			continue
		}
		begun, runs := upper(u.activity, moment), lower(u.activity, moment-s.duration[u.activity]+1)
		if s.boundAt(begun.side, at) >= begun.least && s.boundAt(runs.side, at) >= runs.least {
			s.covers = append(s.covers, cover{u, max(s.cause(begun), s.cause(runs))})
		}
	}
	s.work += int64(2 * len(r.users))
	slices.SortFunc(s.covers, func(a, b cover) int {
		return cmp.Or(cmp.Compare(a.since, b.since), cmp.Compare(b.amount, a.amount), cmp.Compare(a.activity, b.activity))
	})
	spare := amount - r.capacity - 1
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
		s.why = append(s.why, upper(c.activity, moment), lower(c.activity, moment-s.duration[c.activity]+1))
	}
}
