package bound

import "turflast/calendars"

// pair is two nodes whose spans can't overlap: one is over, and what it holds
// after its finish free again, before the other starts.
type pair struct {
	a, b           int32
	afterA, afterB calendars.Minutes
}

// hold is what a node takes of a resource at the least, whichever way it is
// done: in its worked minutes and, beyond its finish, for so long; and from its
// start to its finish without a break.
type hold struct {
	worked, whole           int64
	afterWorked, afterWhole calendars.Minutes
}

// holdOf is what one option takes of a resource.
func (o *option) holdOf(r int32) hold {
	all, stays, after := o.amounts(r)
	h := hold{worked: all, whole: stays, afterWhole: after}
	if stays == all {
		h.afterWorked = after
	} else if o.Unbroken && all > 0 {
		h.whole, h.afterWhole = all, 0
	}
	return h
}

// holds lists what nodes take, by resource and node.
func (m *model) holds() [][]hold {
	out := make([][]hold, len(m.p.Capacity))
	for r := range out {
		out[r] = make([]hold, len(m.n.Nodes))
		for i := range out[r] {
			least := m.options[m.first[i]].holdOf(int32(r))
			for o := m.first[i] + 1; o < m.first[i+1]; o++ {
				h := m.options[o].holdOf(int32(r))
				least = hold{
					min(least.worked, h.worked), min(least.whole, h.whole),
					min(least.afterWorked, h.afterWorked), min(least.afterWhole, h.afterWhole),
				}
			}
			out[r][i] = least
		}
	}
	return out
}

// calendarOf is the one calendar that every option of a node works in, or None.
func (m *model) calendarOf(i int) int32 {
	c := m.options[m.first[i]].Calendar
	for o := m.first[i] + 1; o < m.first[i+1]; o++ {
		if m.options[o].Calendar != c {
			return None
		}
	}
	return c
}

// conflicts are which nodes can't be worked on at once.
type conflicts struct {
	after []row // by node: those that plain links make follow it
	clash []row // by node: those that need more of something together than there is
	holds [][]hold
}

// row is a set of nodes.
type row []uint64

func (r row) has(i int32) bool { return r[i/64]>>(i%64)&1 == 1 }
func (r row) put(i int32)      { r[i/64] |= 1 << (i % 64) }

func rows(n int) []row {
	words := (n + 63) / 64
	all := make([]uint64, n*words)
	out := make([]row, n)
	for i := range out {
		out[i] = all[i*words : (i+1)*words]
	}
	return out
}

// meet finds the conflicts of nodes and the pairs that can't overlap. A pair
// that shares a calendar can't be worked on in turns, one in the other's pauses,
// nor can two that hold what they share through their pauses.
func (m *model) meet() *conflicts {
	n := len(m.n.Nodes)
	c := &conflicts{after: rows(n), clash: rows(n), holds: m.holds()}
	for i := n - 1; i >= 0; i-- {
		for _, f := range m.n.Out.Of(i) {
			c.after[i].put(f)
			for k, word := range c.after[f] {
				c.after[i][k] |= word
			}
		}
	}
	paired := rows(n)
	for r, holds := range c.holds {
		most := int64(m.p.Capacity[r].Max())
		for a := range holds {
			if holds[a].worked == 0 && holds[a].whole == 0 {
				continue
			}
			for b := a + 1; b < n; b++ {
				m.meetOver(c, paired, &holds[a], &holds[b], int32(a), int32(b), most)
			}
		}
	}
	return c
}

// meetOver looks at what two nodes take of one resource.
func (m *model) meetOver(c *conflicts, paired []row, x, y *hold, a, b int32, most int64) {
	worked := over(x.worked, y.worked, most)
	if worked {
		c.clash[a].put(b)
		c.clash[b].put(a)
	}
	if c.after[a].has(b) || c.after[b].has(a) {
		return
	}
	p := pair{a, b, x.afterWorked, y.afterWorked}
	if !worked || !m.inStep(int(a), int(b)) {
		if !over(x.whole, y.whole, most) {
			return
		}
		p.afterA, p.afterB = x.afterWhole, y.afterWhole
	}
	if !paired[a].has(b) || p.afterA > 0 || p.afterB > 0 {
		paired[a].put(b)
		m.pairs = append(m.pairs, p)
	}
}

// over says whether two needs can't be met at once.
func over(x, y, most int64) bool { return x > 0 && y > 0 && x+y > most }

// inStep says whether two nodes work in one calendar, whichever way each is done.
func (m *model) inStep(a, b int) bool {
	c := m.calendarOf(a)
	return c != None && c == m.calendarOf(b)
}

// order makes one node of a pair wait for the other where the other way round is
// too late. It says whether a date moved, and whether one way is left for every
// pair.
func (s *search) order() (moved, ok bool) {
	t := s.t
	s.work += int64(len(s.pairs)) / 8
	for i := range s.pairs {
		p := &s.pairs[i]
		first := t.Finish[p.a].Plus(p.afterA) <= t.LateStart[p.b]
		second := t.Finish[p.b].Plus(p.afterB) <= t.LateStart[p.a]
		switch {
		case !first && !second:
			return moved, false
		case !first:
			moved = s.follow(p.b, p.a, p.afterB) || moved
		case !second:
			moved = s.follow(p.a, p.b, p.afterA) || moved
		}
	}
	return moved, true
}

// follow makes b start after a is over, and says whether that moves a date.
func (s *search) follow(a, b int32, after calendars.Minutes) bool {
	moved := false
	if from := s.t.Finish[a].Plus(after); from > s.t.Start[b] && from > s.least[b].Start {
		s.least[b].Start, moved = from, true
	}
	if upto := s.t.LateStart[b].Plus(-after); upto < s.t.LateFinish[a] && upto < s.most[a].Finish {
		s.most[a].Finish, moved = upto, true
	}
	return moved
}
