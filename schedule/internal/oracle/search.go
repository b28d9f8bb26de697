package oracle

import "slices"

// search tries the orders of acts for one choice of heads, of what is dropped
// and of bookings.
type search struct {
	*model
	chosen  []int // the mode of every act
	kept    []bool
	release []int // the first start of every act
	booked  []int // by act: the booking that an unloading counts from
	movable []int // the acts whose bookings are tried
	probing bool  // ask only whether a programme would be better than the best
	better  bool  // of a probing search: one would be
	rank    int   // of what is dropped
	free    bool  // nothing is shared and nobody keeps clear

	order         []int // all acts kept, each after those that hold back its start
	earlier       [][]bool
	against       bool // some act may hold back one that starts before it
	left          []int
	put           []bool
	start, finish []int
	least         [][2]int // raised starts and finishes

	best *found
}

// found is the best programme so far, over all choices.
type found struct {
	cost          figures
	any           bool
	coarse        bool // see Best
	start, finish []int
	chosen        []int
	kept          []bool
	rebooked      bool // movable lorries come when they are unloaded, or as near as they may
}

// prepare readies a search for the choice that has been set.
func (s *search) prepare() {
	n := len(s.acts)
	s.put, s.start, s.finish, s.least = make([]bool, n), make([]int, n), make([]int, n), make([][2]int, n)
	s.earlier = make([][]bool, n)
	for i := range s.earlier {
		s.earlier[i] = make([]bool, n)
	}
	s.against = false
	for _, l := range s.links {
		along := !l.kind.ToFinish() && l.wait >= 0
		if s.kept[l.from] && s.kept[l.to] {
			s.earlier[l.to][l.from] = s.earlier[l.to][l.from] || along
			s.against = s.against || !along || l.within != none
		}
	}
	s.arrange()
}

// arrange puts the acts in an order in which each comes after those that hold
// back its start.
func (s *search) arrange() {
	s.order = s.order[:0]
	in := func(j int) bool { return slices.Contains(s.order, j) }
	for range s.acts {
		for i := range s.acts {
			if s.kept[i] && !in(i) && s.ready(i, in) {
				s.order = append(s.order, i)
			}
		}
	}
}

// ready says whether there is true for all that hold back the start of an act.
func (s *search) ready(i int, there func(j int) bool) bool {
	for j, is := range s.earlier[i] {
		if is && !there(j) {
			return false
		}
	}
	return true
}

// held are the first start and finish, from a moment on, that links from known
// acts allow; none when they never can be.
func (s *search) held(i, from int, known []bool) (start, finish int) {
	start, finish = max(from, s.release[i], s.least[i][0]), s.least[i][1]
	for k := range s.links {
		l := &s.links[k]
		if l.to != i || !known[l.from] {
			continue
		}
		at := s.allows(l, s.start[l.from], s.finish[l.from])
		if at == none {
			return none, none
		}
		if l.kind.ToFinish() {
			finish = max(finish, at)
		} else {
			start = max(start, at)
		}
	}
	return start, finish
}

// place is the first start of an act at which it has its hours, and with hands
// also its share of what is limited, and finishes no earlier than until.
func (s *search) place(i, from, until int, hands bool) int {
	if from == none {
		return none
	}
	way := &s.acts[i].modes[s.chosen[i]]
	for k := max(from, 0); k < s.n; {
		if k = way.next[k]; k == none {
			return none
		}
		f, free := way.finish[k], k
		if f < until {
			k++
			continue
		}
		if s.done(&s.acts[i], f) == none {
			return none
		}
		if hands {
			free = s.clear(i, way, k, f)
		}
		if free == k {
			return k
		}
		k = free
	}
	return none
}

// clear is the first start for an act with hours from k to f that avoids every
// slot in which something it needs is short, or in which it would meet an act
// that it keeps clear of; k when there is none.
func (s *search) clear(i int, way *mode, k, f int) int {
	free := k
	for _, n := range way.needs {
		for at := f - 1; at >= free; at-- {
			if (n.throughout || way.open[at]) && s.used[n.of][at]+n.n > s.there[n.of][at] {
				free = at + 1
			}
		}
	}
	for p := range s.pairs {
		if pair := &s.pairs[p]; pair.a == i && s.put[pair.b] {
			free = max(free, 1+s.clash(pair, k, f, s.start[pair.b], s.finish[pair.b]))
		} else if pair.b == i && s.put[pair.a] {
			free = max(free, 1+s.clash(pair, s.start[pair.a], s.finish[pair.a], k, f))
		}
	}
	return free
}

// clash is the last slot in which two acts don't keep clear of each other, or none.
func (s *search) clash(p *pair, aStart, aFinish, bStart, bFinish int) int {
	a, b := &s.acts[p.a].modes[s.chosen[p.a]], &s.acts[p.b].modes[s.chosen[p.b]]
	from, to := max(aStart, bStart), min(aFinish, bFinish)
	if p.kind == closes {
		to = min(aFinish+p.long, bFinish)
	}
	for at := to - 1; at >= from; at-- {
		if p.kind == spans || b.open[at] && (p.kind == closes || a.open[at] || s.acts[p.a].stays) {
			return at
		}
	}
	return none
}

// set puts an act at a start and takes what it needs; lift gives it back.
func (s *search) set(i, k int) {
	way := &s.acts[i].modes[s.chosen[i]]
	s.put[i], s.start[i], s.finish[i] = true, k, way.finish[k]
	s.hold(i, way, 1)
}

func (s *search) lift(i int) {
	s.put[i] = false
	s.hold(i, &s.acts[i].modes[s.chosen[i]], -1)
}

func (s *search) hold(i int, way *mode, by int) {
	for _, n := range way.needs {
		for at := s.start[i]; at < s.finish[i]; at++ {
			if n.throughout || way.open[at] {
				s.used[n.of][at] += by * n.n
			}
		}
	}
}

// raise lifts the least start or finish of placed acts that break a link or
// longest wait with act i, and says whether it did.
func (s *search) raise(i int) bool {
	raised := false
	lift := func(j, which, at, present int) {
		if at > present && at > s.least[j][which] {
			s.least[j][which], raised = at, true
		}
	}
	for k := range s.links {
		l := &s.links[k]
		if l.from != i && l.to != i || !s.put[l.from] || !s.put[l.to] {
			continue
		}
		follows, which := s.start[l.to], 0
		if l.kind.ToFinish() {
			follows, which = s.finish[l.to], 1
		}
		if at := s.allows(l, s.start[l.from], s.finish[l.from]); at == none {
			lift(l.to, which, s.n, follows)
		} else {
			lift(l.to, which, at, follows)
		}
		if l.within == none {
			continue
		}
		event, which := s.start[l.from], 0
		if l.kind.FromFinish() {
			event, which = s.finish[l.from], 1
		}
		lift(l.from, which, follows-l.within, event)
	}
	return raised
}

// lastStart is the start of the act placed last, before which no other may
// start; with unlimited hands any order will do.
func (s *search) lastStart() int {
	if len(s.left) == 0 || s.free {
		return none
	}
	return s.start[s.left[len(s.left)-1]]
}

// extend places one more act, in every way that may be best.
func (s *search) extend() {
	if s.better {
		return
	}
	if len(s.left) == len(s.order) {
		if f := s.judge(s.left); !f.less(out) || s.best.any && !f.less(s.best.cost) {
			return
		} else if !s.probing {
			*s.best = found{cost: f, any: true, coarse: s.best.coarse,
				start: slices.Clone(s.start), finish: slices.Clone(s.finish),
				chosen: slices.Clone(s.chosen), kept: slices.Clone(s.kept), rebooked: true}
		}
		s.better = s.probing
		return
	}
	if s.best.any && !s.atLeast().less(s.best.cost) {
		return
	}
	for _, i := range s.order {
		if s.put[i] || !s.ready(i, func(j int) bool { return s.put[j] }) {
			continue
		}
		s.next(i)
	}
}

// next places act i after those placed and goes on from there. Without longest
// waits and the like, an act that could start before the last one placed has
// had its turn already.
func (s *search) next(i int) {
	last := s.lastStart()
	from, until := s.held(i, 0, s.put)
	k := s.place(i, from, until, !s.free)
	if k == none || k < last && !s.against {
		return
	}
	if k < last {
		if k = s.place(i, max(from, last), until, !s.free); k == none {
			return
		}
	}
	least := slices.Clone(s.least)
	s.set(i, k)
	s.left = append(s.left, i)
	if !s.raise(i) {
		s.extend()
		s.left = s.left[:len(s.left)-1]
		s.lift(i)
		return
	}
	s.again(least)
}

// again places every act placed so far once more under the raised least starts,
// until none is raised any more, and goes on from there. Then it takes away the
// last of them and restores the others and the least starts.
func (s *search) again(least [][2]int) {
	starts, acts := slices.Clone(s.start), slices.Clone(s.left)
	if s.settle(acts) {
		s.extend()
	}
	for _, i := range s.left {
		s.lift(i)
	}
	s.left, s.least = acts[:len(acts)-1], least
	for _, i := range s.left {
		s.set(i, starts[i])
	}
}

// settle places acts in their order until everything that was raised holds.
func (s *search) settle(acts []int) bool {
	for again := true; again; {
		for _, i := range s.left {
			s.lift(i)
		}
		s.left = s.left[:0]
		again = false
		for _, i := range acts {
			from, until := s.held(i, max(0, s.lastStart()), s.put)
			k := s.place(i, from, until, !s.free)
			if k == none {
				return false
			}
			s.set(i, k)
			s.left = append(s.left, i)
			again = s.raise(i) || again
		}
		if s.best.any && !s.judge(acts).less(s.best.cost) {
			return false
		}
	}
	return true
}

// atLeast is what the placed acts cost together with the rest, with unlimited
// hands.
func (s *search) atLeast() figures {
	known := slices.Clone(s.put)
	for _, i := range s.order {
		if known[i] {
			continue
		}
		from, until := s.held(i, max(0, s.lastStart()), known)
		k := s.place(i, from, until, false)
		if k == none {
			return out
		}
		s.start[i], s.finish[i], known[i] = k, s.acts[i].modes[s.chosen[i]].finish[k], true
	}
	return s.judge(s.order)
}
