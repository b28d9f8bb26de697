package learner

import (
	"context"
	"slices"

	"build.example/turflast/schedule/internal/halt"
)

// solver is one run of the search.
type solver struct {
	*model
	state
	net       edges
	learnt    clauses
	lesson    lesson
	order     order
	table     table
	resources []resource
	uses      [][]int32 // by activity: the resources it takes
	end       int32     // the variable of the end of all; activities come before, orders and ways after
	firstWay  int32     // the variable of the first way

	why        []lit   // of a dead end
	covers     []cover // scratch
	levelsSeen []int32 // scratch

	guide     []int32 // by variable but orders: what to try first
	best      []int32 // the variables of the best schedule, starts and end at least; nil for none
	guided    bool    // the guide is a schedule, which dead ends don't change
	earliest  bool    // branch on the earliest start
	fromBelow bool    // try for an end near the bound rather than for any better one
	begun     int64   // how often it restarted
	dead      bool    // nothing better is left
	deadEnds  int64   // met
	halt      halt.Halt
}

// newSolver sets up a model. It returns nil when it finds that there is no schedule.
func newSolver(ctx context.Context, m *model) *solver {
	n := int32(len(m.activities))
	sides := int(2 * (n + 1 + int32(len(m.pairs)+len(m.ways))))
	s := &solver{model: m, state: newState(sides), net: newEdges(sides), end: n, halt: halt.On(ctx)}
	s.learnt = clauses{watches: make([][]watch, sides), most: 4000, worth: 1}
	s.resources = slices.Clone(m.resources)
	s.firstWay = n + 1 + int32(len(m.pairs))
	s.uses = make([][]int32, n)
	for r := range s.resources {
		s.resources[r].stale = true
		for _, k := range s.resources[r].users {
			if v := m.takers[k].activity; !slices.Contains(s.uses[v], int32(r)) {
				s.uses[v] = append(s.uses[v], int32(r))
			}
		}
	}
	for i := range m.activities {
		a := &m.activities[i]
		s.bound[2*i], s.bound[2*i+1] = a.next(a.low), -a.last(a.high)
	}
	s.bound[2*n+1] = -m.horizon
	for v := int(n) + 1; v < sides/2; v++ {
		s.bound[2*v+1] = -1
	}
	copy(s.root, s.bound)
	s.join()
	if s.dead = !s.settled(); s.dead {
		return nil
	}
	s.order = newOrder(&s.state, int32(sides/2))
	s.guide = make([]int32, sides/2)
	s.remember()
	return s
}

// join makes the edges.
func (s *solver) join() {
	for _, a := range s.arcs {
		s.net.add(a, always)
	}
	for _, a := range s.ends {
		a.to = s.end
		s.net.add(a, always)
	}
	for k, p := range s.pairs {
		v := s.end + 1 + int32(k)
		s.net.add(s.before(p.first, p.second, p.afterFirst), 2*v)
		s.net.add(s.before(p.second, p.first, p.afterSecond), 2*v+1)
	}
	for _, c := range s.onlyIf {
		s.net.add(c.arc, 2*s.variable(c.way))
	}
	s.oneWay()
}

// oneWay makes the clauses by which each activity is done one way.
func (s *solver) oneWay() {
	for i := range s.activities {
		var some []lit
		for k := range s.activities[i].count {
			w := s.done(s.activities[i].first + k)
			for _, other := range some {
				s.learnt.add([]lit{w.not(), other.not()}, 0)
			}
			some = append(some, w)
		}
		if len(some) > 0 {
			s.learnt.add(some, 0)
		}
	}
	s.learnt.most += len(s.learnt.list)
}

// variable is the variable of a way: 1 if its activity is done that way, else 0.
func (s *solver) variable(way int32) int32 { return s.firstWay + way }

// done says that an activity is done a way.
func (s *solver) done(way int32) lit { return lower(s.variable(way), 1) }

// active says whether a taker is to be reckoned with, before a step: its way is
// settled, or if it takes in any way, none is.
func (s *solver) active(t *taker, at int32) bool {
	holds := func(way int32) bool { l := s.done(way); return s.boundAt(l.side, at) >= l.least }
	if t.way != anyWay {
		return holds(t.way)
	}
	a := &s.activities[t.activity]
	for k := range a.count {
		if holds(a.first + k) {
			return false
		}
	}
	return true
}

// before is the arc by which one activity is over for some time when another starts.
func (m *model) before(first, second, after int32) arc {
	a := &m.activities[first]
	if a.over != nil {
		return arc{first, second, after, a.over}
	}
	return arc{first, second, a.duration + after, nil}
}

// settled propagates the first bounds until none moves. It returns false when they
// can't all hold.
func (s *solver) settled() bool {
	for v := range int32(len(s.bound) / 2) {
		if s.low(v) > s.high(v) {
			return false
		}
	}
	for k := range s.net.list {
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
	l = s.possible(l)
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

// possible is a statement with the same meaning, made as strong as the starts at which
// its activity is possible allow.
func (s *solver) possible(l lit) lit {
	switch v := l.side / 2; {
	case v >= s.end:
	case l.side&1 == 0:
		l.least = s.activities[v].next(l.least)
	default:
		l.least = -s.activities[v].last(-l.least)
	}
	return l
}

// weakest is a statement with the same meaning, made as weak as the starts allow.
func (s *solver) weakest(l lit) lit {
	return s.possible(l.not()).not()
}

// raise moves a bound and marks the time tables of its activity to be looked at.
func (s *solver) raise(l lit, why reason) {
	s.move(l, why)
	v := l.side / 2
	if v >= s.firstWay {
		v = s.ways[v-s.firstWay].activity
	}
	if v < s.end {
		for _, r := range s.uses[v] {
			s.resources[r].stale = true
		}
	}
}

// propagate draws all conclusions from the steps taken, or some when halted. It returns
// false in a dead end.
func (s *solver) propagate() bool {
	for {
		for s.next < len(s.trail) {
			if s.halt.Step() {
				return true
			}
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
		if s.halt.Steps(1 + len(s.resources[stale].users)) {
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
	s.raise(s.possible(l), reason{kind: decided})
}
