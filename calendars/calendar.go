package calendars

import (
	"cmp"
	"iter"
	"math/bits"
	"slices"
)

// Calendar is an immutable set of openings over a bounded time line. Openings
// are half-open, sorted, disjoint and never touch. Lookups take constant time
// for evenly spread openings and logarithmic time at worst, whatever the
// openings are; none allocates. Memory is linear in the number of openings.
//
// Every operation can be read off two numberings of the open minutes: rank, the
// number of open minutes before an instant, and at, the start of the k-th.
//
// Work of no minutes may be placed at any moment: the operations that place
// work answer with the moment asked for when w is 0 or less.
type Calendar struct {
	first, last Instant // start of the first opening, end of the last; equal when there is none
	total       Minutes
	open        []opening
	byTime      buckets // clock time -> first opening that ends after it
	byRank      buckets // open minutes -> opening that holds the minute
	longs       []Minutes
}

// opening keeps the number of open minutes before it beside its ends.
type opening struct {
	start, end Instant
	before     Minutes
}

// reach bounds the openings, about two thousand years each side of 1970, so
// that no sum of times or minutes overflows.
const reach Instant = 1<<30 - 1

// New makes a calendar of spans in any order; empty ones are dropped and those
// that touch or overlap become one opening.
func New(spans []Span) *Calendar {
	byStart := func(a, b Span) int { return cmp.Compare(a.Start, b.Start) }
	if !slices.IsSortedFunc(spans, byStart) {
		spans = slices.Clone(spans)
		slices.SortFunc(spans, byStart)
	}
	open := make([]opening, 0, len(spans))
	for _, s := range spans {
		s = Span{max(s.Start, -reach), min(s.End, reach)}
		if s.End <= s.Start {
			continue
		}
		if n := len(open); n > 0 && s.Start <= open[n-1].end {
			open[n-1].end = max(open[n-1].end, s.End)
			continue
		}
		open = append(open, opening{start: s.Start, end: s.End})
	}
	return build(open)
}

// build indexes sorted, disjoint openings.
func build(open []opening) *Calendar {
	c := &Calendar{open: open}
	c.index()
	return c
}

// index makes all that is looked up from the openings, in the memory it has if
// that is enough.
func (c *Calendar) index() {
	open := c.open
	c.first, c.last, c.total = 0, 0, 0
	for i := range open {
		open[i].before = c.total
		c.total += Minutes(open[i].end - open[i].start)
	}
	if len(open) == 0 {
		return
	}
	c.first, c.last = open[0].start, open[len(open)-1].end
	c.byTime.fill(int(c.last-c.first), len(open), func(i int) int { return int(open[i].end - c.first) })
	c.byRank.fill(int(c.total), len(open), func(i int) int {
		return int(open[i].before) + int(open[i].end-open[i].start)
	})
	c.longs = longs(c.longs, open)
}

// find is the first opening that ends after t, or len(c.open).
func (c *Calendar) find(t Instant) int {
	if t < c.first {
		return 0
	}
	if t >= c.last {
		return len(c.open)
	}
	b := uint(t-c.first) >> (c.byTime.shift & 31)
	lo, hi := int(c.byTime.at[b]), int(c.byTime.at[b+1])
	for hi-lo > 1 {
		if mid := int(uint(lo+hi) >> 1); c.open[mid].end <= t {
			lo = mid
		} else {
			hi = mid
		}
	}
	if c.open[lo].end <= t {
		lo++
	}
	return lo
}

// rank is the number of open minutes before t.
func (c *Calendar) rank(t Instant) Minutes {
	i := c.find(t)
	if i == len(c.open) {
		return c.total
	}
	o := c.open[i]
	return o.before + Minutes(max(t, o.start)-o.start)
}

// at is the start of the k-th open minute, counted from zero; k must be one.
func (c *Calendar) at(k Minutes) Instant {
	o := c.open[c.holder(k)]
	return o.start + Instant(k-o.before)
}

// holder is the opening that holds the k-th open minute.
func (c *Calendar) holder(k Minutes) int {
	b := uint(k) >> (c.byRank.shift & 31)
	lo, hi := int(c.byRank.at[b]), int(c.byRank.at[b+1])
	for hi-lo > 1 {
		if mid := int(uint(lo+hi) >> 1); c.open[mid].before <= k {
			lo = mid
		} else {
			hi = mid
		}
	}
	if hi > lo && c.open[hi].before <= k {
		return hi
	}
	return lo
}

// IsOpen says whether the minute that starts at t is open.
func (c *Calendar) IsOpen(t Instant) bool {
	i := c.find(t)
	return i < len(c.open) && c.open[i].start <= t
}

// Next is the start of the first open minute at or after t, or Never.
func (c *Calendar) Next(t Instant) Instant {
	i := c.find(t)
	if i == len(c.open) {
		return Never
	}
	return max(t, c.open[i].start)
}

// Last is the start of the latest open minute at or before t, or Past.
func (c *Calendar) Last(t Instant) Instant {
	i := c.find(t)
	if i < len(c.open) && c.open[i].start <= t {
		return t
	}
	if i == 0 {
		return Past
	}
	return c.open[i-1].end - 1
}

// Add is the earliest instant that has w open minutes between t and it; t
// itself when w is 0; Never when too few are left. A negative w subtracts.
func (c *Calendar) Add(t Instant, w Minutes) Instant {
	if t == Past || t == Never || w == 0 {
		return t
	}
	if w < 0 {
		return c.subtract(t, -int(w))
	}
	return c.add(t, int(w))
}

// Subtract is the latest instant that has w open minutes between it and t; t
// itself when w is 0; Past when too few came before. A negative w adds.
func (c *Calendar) Subtract(t Instant, w Minutes) Instant {
	if t == Past || t == Never || w == 0 {
		return t
	}
	if w < 0 {
		return c.add(t, -int(w))
	}
	return c.subtract(t, int(w))
}

func (c *Calendar) add(t Instant, w int) Instant {
	k := int(c.rank(t)) + w
	if k > int(c.total) {
		return Never
	}
	return c.at(Minutes(k-1)) + 1
}

func (c *Calendar) subtract(t Instant, w int) Instant {
	k := int(c.rank(t)) - w
	if k < 0 {
		return Past
	}
	return c.at(Minutes(k))
}

// Between counts the open minutes from a to b; negative when b is before a.
func (c *Calendar) Between(a, b Instant) Minutes { return c.rank(b) - c.rank(a) }

// Total is the number of open minutes on the whole time line.
func (c *Calendar) Total() Minutes { return c.total }

// Opening is the opening that holds t, else the next one; ok is false when
// there is none.
func (c *Calendar) Opening(t Instant) (s Span, ok bool) {
	i := c.find(t)
	if i == len(c.open) {
		return Span{}, false
	}
	return Span{c.open[i].start, c.open[i].end}, true
}

// Openings yields the openings that meet [from, to), cut to it, in order.
func (c *Calendar) Openings(from, to Instant) iter.Seq[Span] {
	return func(yield func(Span) bool) {
		for i := c.find(from); i < len(c.open) && c.open[i].start < to; i++ {
			s := Span{max(from, c.open[i].start), min(to, c.open[i].end)}
			if s.Start < s.End && !yield(s) {
				return
			}
		}
	}
}

// buckets narrow a search over rising values: at[b] is the first index whose
// value is above b<<shift, or the last index.
type buckets struct {
	shift uint8
	at    []int32
}

// fill makes two to four buckets for each of n rising values, the last of which
// is top.
func (b *buckets) fill(top, n int, value func(int) int) {
	b.shift = 0
	if wide := top / (2 * n); wide > 1 {
		b.shift = uint8(bits.Len(uint(wide)) - 1)
	}
	b.at = slices.Grow(b.at[:0], top>>b.shift+2)[:top>>b.shift+2]
	k := 0
	for i := range n {
		// The buckets that begin below the value; for the last value, all that are left.
		below := len(b.at)
		if i < n-1 {
			below = (value(i)-1)>>b.shift + 1
		}
		for ; k < below; k++ {
			b.at[k] = int32(i)
		}
	}
}
