package learner

// solver is one run of the search.
type solver struct {
	state
	net       network
	learnt    clauses
	lesson    lesson
	order     order
	table     table
	resources []resource
	uses      [][]int32 // by activity: the resources it takes
	duration  []int32
	pairs     []pair
	end       int32 // the variable of the end of all; activities come before, orders after

	why        []lit   // of a dead end
	covers     []cover // scratch
	levelsSeen []int32 // scratch

	guide     []int32 // by activity: the start to try first
	best      []int32 // starts of the best schedule, the end last; nil for none
	earliest  bool    // branch on the earliest start
	fromBelow bool    // try for an end near the bound rather than for any better one
	begun     int64   // how often it restarted
	dead      bool    // nothing better is left
	ends      int64   // dead ends met
}

// newSolver sets up the problem. It returns nil when it finds that there is no
// schedule.
func newSolver(p *Problem) *solver {
	n := int32(len(p.Durations))
	arcs, low, high := p.arcs()
	d := newDistances(int(n), arcs)
	if d.ring() || p.impossible() {
		return nil
	}
	pairs, arcs, ok := p.pairs(arcs, d)
	if !ok {
		return nil
	}
	sides := int(2 * (n + 1 + int32(len(pairs))))
	s := &solver{state: newState(sides), net: newNetwork(sides), pairs: pairs, end: n}
	s.learnt = clauses{watches: make([][]watch, sides), most: 4000, worth: 1}
	for i, duration := range p.Durations {
		s.duration = append(s.duration, int32(duration))
		s.bound[2*i], s.bound[2*i+1] = low[i], -high[i]
		arcs = append(arcs, arc{int32(i), n, int32(duration)})
	}
	s.bound[2*n+1] = -int32(p.horizon())
	for k := range pairs {
		s.bound[2*(int(n)+1+k)+1] = -1
	}
	s.join(arcs, pairs)
	s.share(p)
	if s.dead = !s.settled(); s.dead {
		return nil
	}
	s.order = newOrder(&s.state, int32(sides/2))
	s.guide = make([]int32, n+1)
	s.remember()
	return s
}

// arcs returns the lags between activities as arcs, and those from and to time 0
// as bounds of starts.
func (p *Problem) arcs() (arcs []arc, low, high []int32) {
	n := len(p.Durations)
	low, high = make([]int32, n), make([]int32, n)
	for i := range high {
		high[i] = int32(p.horizon())
	}
	for _, l := range p.Lags {
		switch {
		case l.From == Origin:
			low[l.To] = max(low[l.To], int32(l.Least))
		case l.To == Origin:
			high[l.From] = min(high[l.From], int32(-l.Least))
		default:
			arcs = append(arcs, arc{int32(l.From), int32(l.To), int32(l.Least)})
		}
	}
	return arcs, low, high
}

// join makes the edges.
func (s *solver) join(arcs []arc, pairs []pair) {
	for _, a := range arcs {
		s.net.add(a, always)
	}
	for k, p := range pairs {
		v := s.end + 1 + int32(k)
		s.net.add(arc{p.first, p.second, s.duration[p.first]}, 2*v)
		s.net.add(arc{p.second, p.first, s.duration[p.second]}, 2*v+1)
	}
}

// share makes the resources.
func (s *solver) share(p *Problem) {
	s.uses = make([][]int32, s.end)
	for r, c := range p.Capacity {
		x := resource{capacity: int32(c), stale: true}
		for i, needs := range p.Needs {
			if needs[r] > 0 && p.Durations[i] > 0 {
				x.users = append(x.users, user{int32(i), int32(needs[r])})
				s.uses[i] = append(s.uses[i], int32(len(s.resources)))
			}
		}
		s.resources = append(s.resources, x)
	}
}

// settled propagates the first bounds until none moves. It returns false when they
// can't all hold.
func (s *solver) settled() bool {
	for v := range int32(len(s.bound) / 2) {
		if s.low(v) > s.high(v) {
			return false
		}
	}
	for k := range s.net.edges {
		if !s.take(int32(k)) {
			return false
		}
	}
	return s.rest()
}

// remember sets the guide to the earliest starts that the bounds allow now.
func (s *solver) remember() {
	for v := range s.guide {
		s.guide[v] = s.low(int32(v))
	}
}

// set raises a bound. When that is impossible it returns false, and s.why explains
// the dead end.
func (s *solver) set(l lit, why reason) bool {
	if s.holds(l) {
		return true
	}
	if s.fails(l) {
		// A lower bound would have failed too, and takes less to explain.
		l.least = 1 - s.bound[l.side^1]
		s.why = append(s.why[:0], l.not())
		s.explain(l, why, int32(len(s.trail)))
		return false
	}
	s.raise(l, why)
	return true
}

// raise moves a bound and marks the time tables of its activity to be looked at.
func (s *solver) raise(l lit, why reason) {
	s.move(l, why)
	if v := l.side / 2; v < s.end {
		for _, r := range s.uses[v] {
			s.resources[r].stale = true
		}
	}
}

// propagate draws all conclusions from the steps taken. It returns false in a dead
// end.
func (s *solver) propagate() bool {
	for {
		for s.next < len(s.trail) {
			e := s.trail[s.next]
			s.next++
			if !s.follow(e.side) || !s.visit(e.side, e.before, e.value) {
				return false
			}
		}
		stale := -1
		for r := range s.resources {
			if s.resources[r].stale {
				stale = r
				break
			}
		}
		if stale < 0 {
			return true
		}
		s.resources[stale].stale = false
		if !s.tabulate(int32(stale)) {
			s.resources[stale].stale = true
			return false
		}
	}
}

// back undoes decisions until level of them are left.
func (s *solver) back(level int32) {
	if s.level() <= level {
		s.next = min(s.next, len(s.trail))
		return
	}
	for len(s.trail) > int(s.levels[level]) {
		s.pop()
	}
	s.levels = s.levels[:level]
	s.next = min(s.next, len(s.trail))
	s.order.back(level)
}

// decide takes a decision.
func (s *solver) decide(l lit) {
	s.levels = append(s.levels, int32(len(s.trail)))
	s.raise(l, reason{kind: decided})
}
