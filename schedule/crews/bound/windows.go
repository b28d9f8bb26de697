package bound

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
)

// scan counts one view over the windows between the dates of its users (energetic
// reasoning: Erschler, Lopez and Thuriot, 1991; Baptiste, Le Pape and Nuijten,
// 1999). A node is worked on in successive open minutes of its calendar, so what
// it must spend in a window is the lesser of what it spends when it starts as
// early and as late as it can: in open minutes, pauses take no room.
type scan struct {
	*narrowing
	v      *view
	points []calendars.Instant
	from   []int32 // points at which windows start
	to     []int32 // at which they end
	ranks  [][]calendars.Minutes
	there  []int64   // before each point
	opened []int64   // minutes with any, before each point
	byLate []spender // users by latest start, without those that are over
	byNeed []int32   // users by what they spend, the most first
	need   []int64   // by user

	active []spending
	found  *Window
	all    bool // look for the best window rather than any, and move no dates
	moved  bool
}

// spender is a user as its dates are when a view is counted.
type spender struct {
	user, cal int32 // cal is None when it has several options
	late      calendars.Instant
	lo, hi    calendars.Minutes
	work      calendars.Minutes
	amount    int64
}

// spending is a spender that may spend more when the window gets longer.
type spending struct {
	user, cal int32
	base      calendars.Minutes // rank from which it spends
	most      calendars.Minutes // that it spends
	amount    int64
}

func (s *narrowing) scan(v *view, all bool) *scan {
	c := &s.scratch
	*c = scan{
		narrowing: s, v: v, all: all, points: c.points[:0], from: c.from[:0], to: c.to[:0], ranks: c.ranks,
		there: c.there[:0], opened: c.opened[:0],
		byLate: c.byLate[:0], byNeed: c.byNeed[:0], need: c.need[:0], active: c.active[:0],
	}
	c.collect()
	for _, at := range c.from {
		if !c.windows(at) || s.spent() {
			break
		}
	}
	return c
}

// collect lists the points between which windows lie.
func (c *scan) collect() {
	d := c.dates
	var starts, ends []calendars.Instant
	for i := range c.v.users {
		u := &c.v.users[i]
		most := int64(0)
		for _, h := range u.choices {
			if d.out[h.option] {
				continue
			}
			starts = append(starts, d.es[h.option], d.ls[h.option])
			ends = append(ends, d.lf[h.option], d.ef[h.option])
			most = max(most, h.amount*int64(d.options[h.option].Work))
		}
		c.byLate, c.byNeed, c.need = append(c.byLate, c.spender(int32(i))), append(c.byNeed, int32(i)), append(c.need, most)
	}
	slices.Sort(starts)
	slices.Sort(ends)
	starts, ends = slices.Compact(starts), slices.Compact(ends)
	c.points = append(append(c.points, starts...), ends...)
	slices.Sort(c.points)
	c.points = slices.Compact(c.points)
	c.from, c.to = c.thin(indices(c.points, starts, c.from)), c.thin(indices(c.points, ends, c.to))
	slices.SortFunc(c.byLate, func(a, b spender) int {
		return cmp.Or(cmp.Compare(a.late, b.late), cmp.Compare(a.user, b.user))
	})
	slices.SortFunc(c.byNeed, func(a, b int32) int {
		return cmp.Or(cmp.Compare(c.need[b], c.need[a]), cmp.Compare(a, b))
	})
	c.work += int64(len(c.points) * (len(c.v.cals) + 2))
	for len(c.ranks) < len(c.v.cals) {
		c.ranks = append(c.ranks, nil)
	}
	for k, cal := range c.v.cals {
		c.ranks[k] = c.ranks[k][:0]
		for _, p := range c.points {
			c.ranks[k] = append(c.ranks[k], cal.Between(dawn, p))
		}
	}
	for _, p := range c.points {
		there, open := c.v.there.before(p)
		c.there, c.opened = append(c.there, there), append(c.opened, open)
	}
}

func (c *scan) spender(user int32) spender {
	u := &c.v.users[user]
	p := spender{user: user, cal: None, late: c.t.LateStart[u.node]}
	if len(u.choices) == 1 {
		h := &u.choices[0]
		p.cal, p.amount, p.work = h.cal, h.amount, c.options[h.option].Work
		p.lo, p.hi = c.lo[h.option], c.hi[h.option]
	}
	return p
}

// indices finds rising values among rising points.
func indices(points, values []calendars.Instant, out []int32) []int32 {
	k := 0
	for i, p := range points {
		if k < len(values) && values[k] == p {
			out = append(out, int32(i))
			k++
		}
	}
	return out
}

// thin takes some of many points, evenly spread, the first and last among them.
func (c *scan) thin(all []int32) []int32 {
	if c.effort > counting || len(all) <= coarse {
		return all
	}
	for k := range coarse {
		all[k] = all[k*(len(all)-1)/(coarse-1)]
	}
	return all[:coarse]
}

// windows counts all windows from a point on. It says whether to go on.
func (c *scan) windows(from int32) bool {
	c.active = c.active[:0]
	c.byLate = slices.DeleteFunc(c.byLate, func(p spender) bool {
		return p.cal != None && p.lo+p.work <= c.ranks[p.cal][from]
	})
	settled, next := int64(0), 0
	first, _ := slices.BinarySearch(c.to, from+1)
	for _, to := range c.to[first:] {
		for ; next < len(c.byLate) && c.byLate[next].late < c.points[to]; next++ {
			c.activate(&c.byLate[next], from)
		}
		needed := settled
		for k := 0; k < len(c.active); k++ {
			a := &c.active[k]
			spent, done := c.spends(a, from, to)
			needed += spent
			if done {
				settled += spent
				c.active[k] = c.active[len(c.active)-1]
				c.active = c.active[:len(c.active)-1]
				k--
			}
		}
		c.work += int64(len(c.active)) + 1
		if c.halt.Steps(len(c.active) + 1) {
			return false
		}
		if !c.weigh(from, to, needed) {
			return false
		}
	}
	return true
}

// weigh compares what a window needs with what there is. It says whether to go
// on.
func (c *scan) weigh(from, to int32, needed int64) bool {
	slack := c.there[to] - c.there[from] - needed
	switch {
	case slack < 0:
		c.keep(from, to, needed)
		return c.all
	case !c.all && slack < c.need[c.byNeed[0]]:
		c.push(from, to, slack)
	}
	return true
}

// activate adds a user to those that spend in windows from a point on.
func (c *scan) activate(p *spender, from int32) {
	a := spending{user: p.user, cal: p.cal}
	if p.cal != None {
		at := c.ranks[p.cal][from]
		a.base, a.most, a.amount = max(p.hi, at), min(p.work, p.lo+p.work-at), p.amount
	}
	c.active = append(c.active, a)
}

// spends is what an active user must spend in a window, and whether that is all
// that it spends in longer windows too.
func (c *scan) spends(a *spending, from, to int32) (spent int64, done bool) {
	if a.cal != None {
		m := c.ranks[a.cal][to] - a.base
		if m >= a.most {
			return a.amount * int64(a.most), true
		}
		return a.amount * int64(max(m, 0)), false
	}
	return c.least(&c.v.users[a.user], from, to), false
}

// least is what a user must spend in a window, the least over its options.
func (c *scan) least(u *user, from, to int32) int64 {
	least := int64(-1)
	for k := range u.choices {
		h := &u.choices[k]
		if c.out[h.option] {
			continue
		}
		early, late := c.inside(h, from, to)
		if spent := h.amount * int64(min(early, late)); least < 0 || spent < least {
			least = spent
		}
	}
	return max(least, 0)
}

// inside is the open minutes that an option is worked on in a window when it
// starts as early and as late as it may.
func (c *scan) inside(h *choice, from, to int32) (early, late calendars.Minutes) {
	a, b, w := c.ranks[h.cal][from], c.ranks[h.cal][to], c.options[h.option].Work
	lo, hi := c.lo[h.option], c.hi[h.option]
	return max(0, min(lo+w, b)-max(lo, a)), max(0, min(hi+w, b)-max(hi, a))
}

// push moves the dates of options that would spend more in a window than the
// others leave there.
func (c *scan) push(from, to int32, slack int64) {
	for _, k := range c.byNeed {
		if c.need[k] <= slack || c.halt.Step() {
			return
		}
		c.work++
		u := &c.v.users[k]
		left := int64(-1)
		for i := range u.choices {
			h := &u.choices[i]
			if c.out[h.option] {
				continue
			}
			early, late := c.inside(h, from, to)
			if h.amount*int64(max(early, late)) <= slack {
				continue
			}
			if left < 0 {
				left = slack + c.least(u, from, to)
			}
			fits := c.unit.Down(calendars.Minutes(left / h.amount))
			if early > fits {
				c.later(h, c.ranks[h.cal][to]-fits)
			}
			if late > fits {
				c.sooner(h, c.ranks[h.cal][from]+fits-c.options[h.option].Work)
			}
		}
	}
}

// later gives an option a later earliest start, in open minutes.
func (c *scan) later(h *choice, lo calendars.Minutes) {
	if lo > c.lo[h.option] {
		c.floor[h.option] = max(c.floor[h.option], startOf(c.v.cals[h.cal], lo))
		c.lo[h.option], c.moved = lo, true
	}
}

// sooner gives an option an earlier latest start, in open minutes.
func (c *scan) sooner(h *choice, hi calendars.Minutes) {
	if hi < c.hi[h.option] {
		at := calendars.Past
		if hi >= 0 {
			at = startOf(c.v.cals[h.cal], hi)
		}
		c.roof[h.option] = min(c.roof[h.option], at)
		c.hi[h.option], c.moved = hi, true
	}
}

// keep keeps a window that is over-full, if it is the best so far.
func (c *scan) keep(from, to int32, needed int64) {
	w := Window{
		Resource: c.v.resource, Count: c.v.count, Span: calendars.Span{Start: c.points[from], End: c.points[to]},
		Until: c.end, inside: true,
	}
	w.measure(needed, c.there[to]-c.there[from], c.opened[to]-c.opened[from])
	if !w.better(c.found) {
		return
	}
	needed = 0
	for i := range c.v.users {
		u := &c.v.users[i]
		if spent := c.least(u, from, to); spent > 0 {
			needed += spent
			share := c.share(u, spent, from, to)
			w.inside = w.inside && c.full(u, share.Minutes)
			w.Nodes = append(w.Nodes, share)
		}
	}
	w.measure(needed, c.there[to]-c.there[from], c.opened[to]-c.opened[from])
	if w.better(c.found) {
		c.found = &w
	}
}

// full says whether a user is done in m minutes in one of its options.
func (c *scan) full(u *user, m calendars.Minutes) bool {
	return slices.ContainsFunc(u.choices, func(h choice) bool { return !c.out[h.option] && c.options[h.option].Work == m })
}

// share says what a user spends in a window, in the option that spends least.
func (c *scan) share(u *user, spent int64, from, to int32) Share {
	out := Share{Node: u.node}
	for k := range u.choices {
		h := &u.choices[k]
		early, late := c.inside(h, from, to)
		if least := min(early, late); !c.out[h.option] && h.amount*int64(least) == spent {
			out.Minutes, out.Amount = least, int32(h.amount)
			break
		}
	}
	return out
}
