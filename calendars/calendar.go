package calendars

import (
	"iter"
	"slices"
)

// Calendar is an immutable set of openings over a bounded time line. Openings
// are half-open, sorted, disjoint and never touch. All lookups are constant
// time for evenly spread openings and logarithmic at worst; none allocates.
//
// Every operation can be read off two numberings of the open minutes: rank, the
// number of open minutes before an instant, and at, the start of the k-th.
type Calendar struct {
	open   []opening
	total  Minutes
	origin Instant
	byTime []int32 // bucket of clock time -> first opening that ends after the bucket's start
	byRank []int32 // bucket of open minutes -> opening that holds the bucket's first minute
}

// opening keeps the number of open minutes before it beside its ends.
type opening struct {
	start, end Instant
	before     Minutes
}

// bucketBits sets the width of a lookup bucket: 512 minutes, about one opening.
const bucketBits = 9

// New makes a calendar of spans in any order; empty ones are dropped and those
// that touch or overlap become one opening.
func New(spans []Span) *Calendar {
	sorted := slices.Clone(spans)
	slices.SortFunc(sorted, func(a, b Span) int { return int(a.Start) - int(b.Start) })
	c := &Calendar{open: make([]opening, 0, len(sorted))}
	for _, s := range sorted {
		if s.End <= s.Start {
			continue
		}
		if n := len(c.open); n > 0 && s.Start <= c.open[n-1].end {
			c.open[n-1].end = max(c.open[n-1].end, s.End)
			continue
		}
		c.open = append(c.open, opening{start: s.Start, end: s.End})
	}
	c.index()
	return c
}

func (c *Calendar) index() {
	for i := range c.open {
		c.open[i].before = c.total
		c.total += Minutes(c.open[i].end - c.open[i].start)
	}
	if len(c.open) == 0 {
		return
	}
	c.origin = c.open[0].start
	last := c.open[len(c.open)-1].end
	c.byTime = make([]int32, int(last-c.origin)>>bucketBits+1)
	i := int32(0)
	for b := range c.byTime {
		from := c.origin + Instant(b<<bucketBits)
		for int(i) < len(c.open)-1 && c.open[i].end <= from {
			i++
		}
		c.byTime[b] = i
	}
	c.byRank = make([]int32, int(c.total-1)>>bucketBits+1)
	i = 0
	for b := range c.byRank {
		k := Minutes(b << bucketBits)
		for int(i) < len(c.open)-1 && c.open[i+1].before <= k {
			i++
		}
		c.byRank[b] = i
	}
}

// find is the first opening that ends after t, or len(c.open).
func (c *Calendar) find(t Instant) int {
	if len(c.open) == 0 || t < c.origin {
		return 0
	}
	b := int(t-c.origin) >> bucketBits
	if b >= len(c.byTime) {
		return len(c.open)
	}
	i := int(c.byTime[b])
	for i < len(c.open) && c.open[i].end <= t {
		i++
	}
	return i
}

// rank is the number of open minutes before t.
func (c *Calendar) rank(t Instant) Minutes {
	i := c.find(t)
	if i == len(c.open) {
		return c.total
	}
	o := c.open[i]
	if t <= o.start {
		return o.before
	}
	return o.before + Minutes(t-o.start)
}

// at is the start of the k-th open minute, counted from zero.
func (c *Calendar) at(k Minutes) Instant {
	if k < 0 {
		return Past
	}
	if k >= c.total {
		return Never
	}
	i := int(c.byRank[k>>bucketBits])
	for i+1 < len(c.open) && c.open[i+1].before <= k {
		i++
	}
	o := c.open[i]
	return o.start + Instant(k-o.before)
}

// IsOpen says whether the minute that starts at t is open.
func (c *Calendar) IsOpen(t Instant) bool {
	i := c.find(t)
	return i < len(c.open) && c.open[i].start <= t
}

// Next is the start of the first open minute at or after t, or Never.
func (c *Calendar) Next(t Instant) Instant {
	i := c.find(t)
	if t == Never || i == len(c.open) {
		return Never
	}
	return max(t, c.open[i].start)
}

// Last is the start of the latest open minute at or before t, or Past.
func (c *Calendar) Last(t Instant) Instant {
	if t == Past {
		return Past
	}
	if t == Never {
		return c.at(c.total - 1)
	}
	return c.at(c.rank(t+1) - 1)
}

// Add is the earliest instant that has w open minutes between t and it; t
// itself when w is 0; Never when too few are left. A negative w subtracts.
func (c *Calendar) Add(t Instant, w Minutes) Instant {
	switch {
	case t == Past || t == Never || w == 0:
		return t
	case w < 0:
		return c.Subtract(t, -w)
	}
	last := c.at(c.rank(t) + w - 1)
	if last == Never {
		return Never
	}
	return last + 1
}

// Subtract is the latest instant that has w open minutes between it and t; t
// itself when w is 0; Past when too few came before. A negative w adds.
func (c *Calendar) Subtract(t Instant, w Minutes) Instant {
	switch {
	case t == Past || t == Never || w == 0:
		return t
	case w < 0:
		return c.Add(t, -w)
	}
	return c.at(c.rank(t) - w)
}

// Between counts the open minutes from a to b; negative when b is before a.
func (c *Calendar) Between(a, b Instant) Minutes { return c.rank(b) - c.rank(a) }

// Total is the number of open minutes on the whole time line.
func (c *Calendar) Total() Minutes { return c.total }

// Place puts w minutes of work as early as possible at or after t: it starts
// on an open minute and finishes at the end of one. (Never, Never) when too
// little is left. w must be positive.
func (c *Calendar) Place(t Instant, w Minutes) (start, finish Instant) {
	i := c.find(t)
	if t == Never || i == len(c.open) {
		return Never, Never
	}
	o := c.open[i]
	start = max(t, o.start)
	if finish = start + Instant(w); finish <= o.end {
		return start, finish
	}
	last := c.at(o.before + Minutes(start-o.start) + w - 1)
	if last == Never {
		return Never, Never
	}
	return start, last + 1
}

// PlaceBack puts w minutes of work as late as possible with its finish at or
// before t. (Past, Past) when too little came before. w must be positive.
func (c *Calendar) PlaceBack(t Instant, w Minutes) (start, finish Instant) {
	if t == Past {
		return Past, Past
	}
	k := c.rank(t)
	if k < w {
		return Past, Past
	}
	finish = c.at(k-1) + 1
	if i := c.find(finish - 1); c.open[i].start <= finish-Instant(w) {
		return finish - Instant(w), finish
	}
	return c.at(k - w), finish
}

// PlaceUntil puts w minutes of work as early as possible with its finish at or
// after t. (Never, Never) when there is no such place. w must be positive.
func (c *Calendar) PlaceUntil(t Instant, w Minutes) (start, finish Instant) {
	if t == Never {
		return Never, Never
	}
	k := Minutes(0)
	if t != Past {
		k = max(c.rank(t-1)-w+1, 0)
	}
	if k+w > c.total {
		return Never, Never
	}
	return c.at(k), c.at(k+w-1) + 1
}

// Fit is the earliest start at or after t from which w minutes run unbroken in
// one opening, or Never. w must be positive.
func (c *Calendar) Fit(t Instant, w Minutes) Instant {
	if t == Never {
		return Never
	}
	for i := c.find(t); i < len(c.open); i++ {
		if start := max(t, c.open[i].start); start+Instant(w) <= c.open[i].end {
			return start
		}
	}
	return Never
}

// FitBack is the latest start from which w minutes run unbroken in one opening
// and end at or before t, or Past. w must be positive.
func (c *Calendar) FitBack(t Instant, w Minutes) Instant {
	if t == Past {
		return Past
	}
	for i := min(c.find(t), len(c.open)-1); i >= 0; i-- {
		if start := min(t, c.open[i].end) - Instant(w); start >= c.open[i].start {
			return start
		}
	}
	return Past
}

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
			if !yield(Span{max(from, c.open[i].start), min(to, c.open[i].end)}) {
				return
			}
		}
	}
}

// Intersect is the time at which all the calendars are open.
func Intersect(first *Calendar, rest ...*Calendar) *Calendar {
	for _, other := range rest {
		if other != first {
			first = intersect(first, other)
		}
	}
	return first
}

func intersect(a, b *Calendar) *Calendar {
	c := &Calendar{}
	for i, j := 0, 0; i < len(a.open) && j < len(b.open); {
		s, e := max(a.open[i].start, b.open[j].start), min(a.open[i].end, b.open[j].end)
		if s < e {
			c.open = append(c.open, opening{start: s, end: e})
		}
		if a.open[i].end < b.open[j].end {
			i++
		} else {
			j++
		}
	}
	c.index()
	return c
}
