package calendars

import "slices"

// Place puts w minutes of work as early as possible at or after t: it starts
// on an open minute and finishes at the end of one. (Never, Never) when too
// little is left.
func (c *Calendar) Place(t Instant, w Minutes) (start, finish Instant) {
	if w <= 0 {
		return t, t
	}
	i := c.find(t)
	if i == len(c.open) {
		return Never, Never
	}
	o := c.open[i]
	start = max(t, o.start)
	if w <= Minutes(o.end-start) {
		return start, start + Instant(w)
	}
	done := o.before + Minutes(start-o.start)
	if w > c.total-done {
		return Never, Never
	}
	return start, c.at(done+w-1) + 1
}

// PlaceBack puts w minutes of work as late as possible with its finish at or
// before t. (Past, Past) when too little came before.
func (c *Calendar) PlaceBack(t Instant, w Minutes) (start, finish Instant) {
	if w <= 0 {
		return t, t
	}
	i := c.find(t)
	if i == len(c.open) || t <= c.open[i].start {
		i--
	}
	if i < 0 {
		return Past, Past
	}
	o := c.open[i]
	finish = min(t, o.end)
	worked := Minutes(finish - o.start)
	if w <= worked {
		return finish - Instant(w), finish
	}
	if w > o.before+worked {
		return Past, Past
	}
	return c.at(o.before + worked - w), finish
}

// PlaceUntil puts w minutes of work as early as possible with its finish at or
// after t. (Never, Never) when there is no such place.
func (c *Calendar) PlaceUntil(t Instant, w Minutes) (start, finish Instant) {
	if w <= 0 {
		return t, t
	}
	k := Minutes(0)
	if t != Past {
		k = max(c.rank(t-1)-w+1, 0)
	}
	if w > c.total-k {
		return Never, Never
	}
	o := c.open[c.holder(k)]
	start = o.start + Instant(k-o.before)
	if w <= Minutes(o.end-start) {
		return start, start + Instant(w)
	}
	return start, c.at(k+w-1) + 1
}

// Fit is the earliest start at or after t from which w minutes run unbroken in
// one opening, or Never.
func (c *Calendar) Fit(t Instant, w Minutes) Instant {
	if w <= 0 {
		return t
	}
	i := c.find(t)
	if i == len(c.open) {
		return Never
	}
	if start := max(t, c.open[i].start); w <= Minutes(c.open[i].end-start) {
		return start
	}
	if i = c.firstLong(i+1, w); i < 0 {
		return Never
	}
	return c.open[i].start
}

// FitBack is the latest start from which w minutes run unbroken in one opening
// and end at or before t, or Past.
func (c *Calendar) FitBack(t Instant, w Minutes) Instant {
	if w <= 0 {
		return t
	}
	i := c.find(t)
	if i < len(c.open) && t > c.open[i].start && w <= Minutes(t-c.open[i].start) {
		return t - Instant(w)
	}
	if i = c.lastLong(i-1, w); i < 0 {
		return Past
	}
	return c.open[i].end - Instant(w)
}

// longs makes a tree of the longest lengths of openings, in the given array if
// it is large enough: node k has the children 2k and 2k+1, and the leaves, in
// the second half, are the openings in order.
func longs(tree []Minutes, open []opening) []Minutes {
	leaves := 1
	for leaves < len(open) {
		leaves *= 2
	}
	tree = slices.Grow(tree[:0], 2*leaves)[:2*leaves]
	clear(tree[leaves:])
	for i, o := range open {
		tree[leaves+i] = Minutes(o.end - o.start)
	}
	for k := leaves - 1; k > 0; k-- {
		tree[k] = max(tree[2*k], tree[2*k+1])
	}
	return tree
}

// firstLong is the first opening from the i-th on that has w minutes, or -1. It
// takes logarithmic time.
func (c *Calendar) firstLong(i int, w Minutes) int {
	leaves := len(c.longs) / 2
	if i >= leaves {
		return -1
	}
	k := leaves + i
	for c.longs[k] < w {
		for k&1 == 1 { // up from right children: all below them is done
			k >>= 1
		}
		if k == 0 {
			return -1
		}
		k++
	}
	for k < leaves {
		if k *= 2; c.longs[k] < w {
			k++
		}
	}
	return k - leaves
}

// lastLong is the last opening up to the i-th that has w minutes, or -1. It
// takes logarithmic time.
func (c *Calendar) lastLong(i int, w Minutes) int {
	if i < 0 {
		return -1
	}
	leaves := len(c.longs) / 2
	k := leaves + i
	for c.longs[k] < w {
		for k&1 == 0 { // up from left children, at most to the root
			k >>= 1
		}
		if k == 1 {
			return -1
		}
		k--
	}
	for k < leaves {
		if k = 2*k + 1; c.longs[k] < w {
			k--
		}
	}
	return k - leaves
}
