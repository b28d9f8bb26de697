package bound

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/network/critical"
)

// table is a resource that some node holds through its pauses or after its finish,
// or of which there is too little at times: what must be held at each moment
// decides where other nodes can lie (time-tabling: Le Pape, 1994).
type table struct {
	resource int32
	users    []int32                     // nodes that need some of it in some option
	enough   map[int]*calendars.Calendar // by amount: when there is that much of it
	steps    []step
	own      [][]must // by index of users
}

// step says how much must be held from a moment on.
type step struct {
	at   calendars.Instant
	used int64
}

// must is what one node holds in any case.
type must struct {
	span   calendars.Span
	amount int64
}

// addTables finds the resources that need a table.
func (m *model) addTables() {
	for r := range m.p.Capacity {
		t := &table{resource: int32(r), enough: make(map[int]*calendars.Calendar)}
		wanted := false
		for i := range m.n.Nodes {
			uses := false
			for o := m.first[i]; o < m.first[i+1]; o++ {
				if m.halt.Steps(1 + len(m.options[o].needs)) {
					return
				}
				for _, need := range m.options[o].needs {
					if need.Resource != int32(r) {
						continue
					}
					uses = true
					wanted = wanted || need.Stays || need.After > 0 || !m.covers(t, m.calendar(o), int64(need.Amount))
				}
			}
			if uses {
				t.users = append(t.users, int32(i))
			}
		}
		if wanted {
			t.own = make([][]must, len(t.users))
			m.tables = append(m.tables, t)
		}
	}
}

// covers says whether there is an amount of a resource whenever a calendar is
// open.
func (m *model) covers(t *table, c *calendars.Calendar, amount int64) bool {
	enough := m.enough(t, amount)
	for open := range c.Openings(m.n.Line.Start, m.n.Line.End) {
		if there, ok := enough.Opening(open.Start); !ok || there.Start > open.Start || there.End < open.End {
			return false
		}
	}
	return true
}

// enough is the time in which there is at least an amount of a resource.
func (m *model) enough(t *table, amount int64) *calendars.Calendar {
	p := m.p.Capacity[t.resource]
	level := p.Level(int(amount))
	c, known := t.enough[level]
	if !known {
		c = p.AtLeast(level)
		t.enough[level] = c
	}
	return c
}

// tabulate finds what must be held at each moment, and says whether there is
// that much.
func (s *narrowing) tabulate(t *table) bool {
	type edge struct {
		at calendars.Instant
		by int64
	}
	var edges []edge
	for k, i := range t.users {
		t.own[k] = t.own[k][:0]
		if o := s.sole(i); o != None {
			for _, need := range s.options[o].needs {
				if need.Resource == t.resource {
					t.own[k] = s.musts(t.own[k], o, need)
				}
			}
		}
		for _, h := range t.own[k] {
			edges = append(edges, edge{h.span.Start, h.amount}, edge{h.span.End, -h.amount})
		}
	}
	slices.SortFunc(edges, func(a, b edge) int { return cmp.Compare(a.at, b.at) })
	t.steps = append(t.steps[:0], step{at: calendars.Past})
	for _, e := range edges {
		last := &t.steps[len(t.steps)-1]
		if last.at != e.at {
			t.steps = append(t.steps, step{e.at, last.used})
			last = &t.steps[len(t.steps)-1]
		}
		last.used += e.by
	}
	s.work += int64(len(edges) + len(t.users))
	for k := range t.steps[:len(t.steps)-1] {
		from, to := t.steps[k].at, t.steps[k+1].at
		if t.steps[k].used > 0 && lastShort(s.enough(t, t.steps[k].used), from, to) > from {
			return false
		}
	}
	return true
}

// sole is the one option left to a node, or None.
func (s *narrowing) sole(i int32) int32 {
	sole := int32(None)
	for o := s.first[i]; o < s.first[i+1]; o++ {
		if s.out[o] {
			continue
		}
		if sole != None {
			return None
		}
		sole = o
	}
	return sole
}

// musts adds the time in which an option holds a need whenever it starts.
func (s *narrowing) musts(out []must, o int32, need crews.Need) []must {
	from, to := s.ls[o], s.ef[o]
	if need.Stays || need.After > 0 {
		if to = to.Plus(need.After); from < to {
			out = append(out, must{calendars.Span{Start: from, End: to}, int64(need.Amount)})
		}
		return out
	}
	for open := range s.calendar(o).Openings(from, to) {
		out = append(out, must{open, int64(need.Amount)})
	}
	return out
}

// lastShort is the end of the last closed time in [from, to), or from.
func lastShort(c *calendars.Calendar, from, to calendars.Instant) calendars.Instant {
	if !c.IsOpen(to - 1) {
		return c.Next(to - 1)
	}
	open, _ := c.Opening(to - 1)
	return max(open.Start, from)
}

// firstShort is the start of the first closed time in [from, to), or to.
func firstShort(c *calendars.Calendar, from, to calendars.Instant) calendars.Instant {
	if !c.IsOpen(from) {
		return from
	}
	open, _ := c.Opening(from)
	return min(open.End, to)
}

// fit moves the options of a table's users to where there is room beside what
// others must hold. It says whether any moved.
func (s *narrowing) fit(t *table) bool {
	moved := false
	for k, i := range t.users {
		if s.halt.Steps(len(t.own[k]) + 1) {
			return moved
		}
		for o := s.first[i]; o < s.first[i+1]; o++ {
			if s.out[o] {
				continue
			}
			for _, need := range s.options[o].needs {
				if need.Resource == t.resource {
					h := holder{s, t, k, o, need}
					moved = h.later() || moved
					moved = h.sooner() || moved
				}
			}
		}
	}
	return moved
}

// holder is an option that looks for room for one of its needs.
type holder struct {
	*narrowing
	t    *table
	user int
	o    int32
	need crews.Need
}

// mostMoves bounds the moves that later and sooner make at a time.
const mostMoves = 100

// later moves an option's earliest start to where there is room for the need, and
// returns whether it moved.
func (h *holder) later() bool {
	option := &h.options[h.o]
	start, finish := h.es[h.o], h.ef[h.o]
	for range mostMoves {
		free := start
		h.stretches(start, finish, func(from, to calendars.Instant) {
			free = max(free, h.roomFrom(from, to))
		})
		if free == start {
			break
		}
		start, finish = critical.Place(h.n, &option.Node, max(free, start), h.ef[h.o])
		if start == calendars.Never || finish == calendars.Never {
			start = calendars.Never
			break
		}
	}
	if start == h.es[h.o] {
		return false
	}
	h.floor[h.o] = max(h.floor[h.o], start)
	return true
}

// sooner moves an option's latest start to where there is room for the need, and
// returns whether it moved.
func (h *holder) sooner() bool {
	option := &h.options[h.o]
	start, finish := h.ls[h.o], h.lf[h.o]
	if finish == calendars.Never {
		return false
	}
	for range mostMoves {
		upto := finish
		h.stretches(start, finish, func(from, to calendars.Instant) {
			upto = min(upto, h.roomUpto(from, to))
		})
		if upto == finish {
			break
		}
		limit := critical.Limit{Start: start, Finish: upto, Done: calendars.Never}
		start, finish = critical.PlaceBack(h.n, &option.Node, limit)
		if start == calendars.Past || finish == calendars.Past {
			start = calendars.Past
			break
		}
	}
	if start == h.ls[h.o] {
		return false
	}
	h.roof[h.o] = min(h.roof[h.o], start)
	return true
}

// stretches yields the time in which the option holds the need.
func (h *holder) stretches(start, finish calendars.Instant, yield func(from, to calendars.Instant)) {
	if h.need.Stays || h.need.After > 0 {
		if to := finish.Plus(h.need.After); start < to {
			yield(start, to)
		}
		return
	}
	for open := range h.calendar(h.o).Openings(start, finish) {
		yield(open.Start, open.End)
	}
}

// wanted is how much there must be during a step for the need to fit.
func (h *holder) wanted(k int) int64 {
	used := h.t.steps[k].used + int64(h.need.Amount)
	for _, m := range h.t.own[h.user] {
		if m.span.Holds(h.t.steps[k].at) {
			used -= m.amount
		}
	}
	return used
}

// at is the step in force at a moment.
func (t *table) at(x calendars.Instant) int {
	k, found := slices.BinarySearchFunc(t.steps, x, func(s step, x calendars.Instant) int { return cmp.Compare(s.at, x) })
	if found {
		return k
	}
	return k - 1
}

// end is when a step ends.
func (t *table) end(k int) calendars.Instant {
	if k+1 < len(t.steps) {
		return t.steps[k+1].at
	}
	return calendars.Never
}

// roomFrom is the end of the last time in [from, to) without room; Past when
// there is room.
func (h *holder) roomFrom(from, to calendars.Instant) calendars.Instant {
	for k := h.t.at(to - 1); ; k-- {
		h.work++
		lo, hi := max(from, h.t.steps[k].at), min(to, h.t.end(k))
		if short := lastShort(h.enough(h.t, h.wanted(k)), lo, hi); short > lo {
			return min(short, h.t.end(k))
		}
		if lo == from {
			return calendars.Past
		}
	}
}

// roomUpto is the start of the first time in [from, to) without room, less what
// is held after the finish; Never when there is room.
func (h *holder) roomUpto(from, to calendars.Instant) calendars.Instant {
	for k := h.t.at(from); ; k++ {
		h.work++
		lo, hi := max(from, h.t.steps[k].at), min(to, h.t.end(k))
		if short := firstShort(h.enough(h.t, h.wanted(k)), lo, hi); short < hi {
			return short.Plus(-h.need.After)
		}
		if hi == to {
			return calendars.Never
		}
	}
}
