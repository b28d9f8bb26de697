package learner

// Every variable, whether a start or the order of a pair, has two sides: 2v is its
// lower bound, 2v+1 its negated upper bound. So bounds only rise, and one rule
// serves both.

// lit is a statement about a bound: it holds when the side's bound is least or
// more.
type lit struct{ side, least int32 }

// not is the opposite statement.
func (l lit) not() lit { return lit{l.side ^ 1, 1 - l.least} }

// lower says that v is x or more, upper that it is x or less.
func lower(v, x int32) lit { return lit{2 * v, x} }
func upper(v, x int32) lit { return lit{2*v + 1, -x} }

// kind is what moved a bound.
type kind uint8

const (
	decided  kind = iota
	byEdge        // of edges
	ruledOut      // an order, because one of its edges can't hold
	byClause      // of clauses
	byTable       // a time table at a moment
)

// reason is what moved a bound: a is an edge, a clause or a taker, b the moment.
type reason struct {
	kind kind
	a, b int32
}

// step is one move of a bound.
type step struct {
	side, value, before int32
	last                int32 // the previous step of the same side, or -1
	level               int32
	why                 reason
}

// state holds the bounds and how they came about.
type state struct {
	bound  []int32 // by side
	root   []int32 // by side: the bound without any decision
	latest []int32 // by side: its latest step, or -1
	trail  []step
	levels []int32 // where on the trail each decision stands
	next   int     // the first step not propagated yet
	work   int64
}

func newState(sides int) state {
	s := state{bound: make([]int32, sides), root: make([]int32, sides), latest: make([]int32, sides)}
	for i := range s.latest {
		s.latest[i] = -1
	}
	return s
}

func (s *state) holds(l lit) bool { return s.bound[l.side] >= l.least }
func (s *state) fails(l lit) bool { return s.bound[l.side^1] >= 1-l.least }

func (s *state) level() int32 { return int32(len(s.levels)) }

// low and high are the bounds of a variable.
func (s *state) low(v int32) int32  { return s.bound[2*v] }
func (s *state) high(v int32) int32 { return -s.bound[2*v+1] }

// move raises a bound, which must be possible.
func (s *state) move(l lit, why reason) {
	s.trail = append(s.trail, step{l.side, l.least, s.bound[l.side], s.latest[l.side], s.level(), why})
	s.latest[l.side] = int32(len(s.trail) - 1)
	s.bound[l.side] = l.least
}

// pop undoes the last step.
func (s *state) pop() {
	e := &s.trail[len(s.trail)-1]
	s.bound[e.side], s.latest[e.side] = e.before, e.last
	s.trail = s.trail[:len(s.trail)-1]
}

// settle makes the present bounds permanent; there must be no decision.
func (s *state) settle() {
	for i := range s.trail {
		s.latest[s.trail[i].side] = -1
	}
	s.trail, s.next = s.trail[:0], 0
	copy(s.root, s.bound)
}

// cause is the step that made a statement hold, or -1 when it holds permanently.
func (s *state) cause(l lit) int32 {
	if s.root[l.side] >= l.least {
		return -1
	}
	at := s.latest[l.side]
	for s.trail[at].before >= l.least {
		at = s.trail[at].last
	}
	return at
}

// boundAt is a bound as it was before a step.
func (s *state) boundAt(side, at int32) int32 {
	k := s.latest[side]
	for k >= at {
		k = s.trail[k].last
	}
	if k < 0 {
		return s.root[side]
	}
	return s.trail[k].value
}
