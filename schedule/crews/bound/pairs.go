package bound

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule/network/critical"
)

// pair is two nodes whose spans can't overlap: before one starts, the other is
// over and has let go of what it holds after its finish.
type pair struct {
	a, b           int32
	resource       int32 // that they can't share
	afterA, afterB calendars.Minutes
}

// hold is the least that a node takes of a resource, whichever way it is done:
// worked in its worked minutes and then for afterWorked beyond its finish; whole
// without a break from its start to its finish and then for afterWhole.
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

// holds lists what nodes take, by resource and node; nil when halted.
func (m *model) holds() [][]hold {
	out := make([][]hold, len(m.p.Capacity))
	for r := range out {
		out[r] = make([]hold, len(m.n.Nodes))
		for i := range out[r] {
			if m.halt.Steps(1 + len(m.options[m.first[i]].needs)) {
				return nil
			}
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
	after []row // by node: those that plain links put after it
	clash []row // by node: those that together with it need more of a resource than there is
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

// meet finds the conflicts of nodes and the pairs that can't overlap. Nodes that
// can't be worked on at once may still overlap when one is worked on in the
// other's pauses, unless they share a calendar or hold what they share through
// their pauses. It is nil when halted.
func (m *model) meet() *conflicts {
	n := len(m.n.Nodes)
	holds := m.holds()
	if holds == nil {
		return nil
	}
	c := &conflicts{after: rows(n), clash: rows(n), holds: holds}
	for i := n - 1; i >= 0; i-- {
		for _, f := range m.n.Out.Of(i) {
			if m.halt.Steps(len(c.after[f])) {
				return nil
			}
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
			if m.halt.Steps(n - a) {
				return nil
			}
			for b := a + 1; b < n; b++ {
				m.meetOver(c, paired, pair{a: int32(a), b: int32(b), resource: int32(r)}, most)
			}
		}
	}
	return c
}

// meetOver finds the conflict of two nodes over one resource, if there is one.
func (m *model) meetOver(c *conflicts, paired []row, p pair, most int64) {
	x, y := &c.holds[p.resource][p.a], &c.holds[p.resource][p.b]
	worked := over(x.worked, y.worked, most)
	if worked {
		c.clash[p.a].put(p.b)
		c.clash[p.b].put(p.a)
	}
	if c.after[p.a].has(p.b) || c.after[p.b].has(p.a) {
		return
	}
	p.afterA, p.afterB = x.afterWorked, y.afterWorked
	if !worked || !m.inStep(int(p.a), int(p.b)) {
		if !over(x.whole, y.whole, most) {
			return
		}
		p.afterA, p.afterB = x.afterWhole, y.afterWhole
	}
	if !paired[p.a].has(p.b) || p.afterA > 0 || p.afterB > 0 {
		paired[p.a].put(p.b)
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

// order makes one node of a pair follow the other when there is no time for the
// opposite order (disjunctive pairs: Carlier and Pinson, 1989). It returns whether
// a date moved, and whether every pair still has a possible order.
func (s *narrowing) order() (moved, ok bool) {
	for i := range s.pairs {
		if s.halt.Step() {
			return moved, true
		}
		p := &s.pairs[i]
		first, second := s.ways(p)
		switch {
		case !first && !second:
			s.window = s.inTurn(p)
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
func (s *narrowing) follow(a, b int32, after calendars.Minutes) bool {
	moved := false
	if from := s.t.Finish[a].Plus(after); from > s.t.Start[b] && from > s.least[b].Start {
		s.least[b].Start, moved = from, true
	}
	if upto := s.t.LateStart[b].Plus(-after); upto < s.t.LateFinish[a] && upto < s.most[a].Finish {
		s.most[a].Finish, moved = upto, true
	}
	return moved
}

// ways says for which order of a pair there is time: a first, b first.
func (s *narrowing) ways(p *pair) (a, b bool) {
	return s.t.Finish[p.a].Plus(p.afterA) <= s.t.LateStart[p.b], s.t.Finish[p.b].Plus(p.afterB) <= s.t.LateStart[p.a]
}

// inTurn is the window of a pair for which there is time in neither order: that of
// the order that lacks less. It is nil when an order lacks nothing over all
// options together, or its dates have no limits.
func (s *narrowing) inTurn(p *pair) *Window {
	first, second := s.turn(p.a, p.b, p.afterA), s.turn(p.b, p.a, p.afterB)
	w := first
	if second.Lacks < first.Lacks {
		w = second
	}
	if min(first.Lacks, second.Lacks) <= 0 {
		return nil
	}
	w.Resource, w.Count, w.Until = p.resource, InTurn, s.end
	for _, i := range []int32{min(p.a, p.b), max(p.a, p.b)} {
		share := Share{Node: i, Minutes: s.options[s.first[i]].Work}
		for _, n := range s.options[s.first[i]].needs {
			if n.Resource == p.resource {
				share.Amount += n.Amount
			}
		}
		w.Nodes = append(w.Nodes, share)
	}
	return &w
}

// turn measures, on the clock, the time that b after a needs and the time that
// there is.
func (s *narrowing) turn(a, b int32, after calendars.Minutes) Window {
	from, upto := s.t.Start[a], s.t.LateFinish[b]
	finish := calendars.Never
	for o := s.first[b]; o < s.first[b+1]; o++ {
		if s.out[o] {
			continue
		}
		_, at := critical.Place(s.n, &s.options[o].Node, max(s.t.Finish[a].Plus(after), s.es[o]), s.ef[o])
		finish = min(finish, at)
	}
	if from == calendars.Past || upto == calendars.Never || finish == calendars.Never {
		return Window{}
	}
	w := Window{Span: calendars.Span{Start: from, End: max(from, upto)}, Lacks: calendars.Minutes(finish - upto)}
	w.Needed, w.There = calendars.Minutes(finish-from), w.Span.Minutes()
	return w
}

// bestTurn is the best window of a pair for which there is time in neither order;
// nil when there is none.
func (s *narrowing) bestTurn() *Window {
	var best *Window
	for i := range s.pairs {
		if s.halt.Step() {
			return best
		}
		if a, b := s.ways(&s.pairs[i]); a || b {
			continue
		}
		if w := s.inTurn(&s.pairs[i]); w != nil && w.better(best) {
			best = w
		}
	}
	return best
}
