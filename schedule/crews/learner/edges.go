package learner

// always is the condition of an edge that depends on no order.
const always = -1

// edge says that one bound is at least another plus a weight, if a condition holds.
type edge struct {
	from, to int32 // sides
	weight   int32
	when     int32 // the side of the order's variable, or always
}

// condition is the statement under which an edge applies.
func (e *edge) condition() lit {
	// An order's variable is 1 or more for the one order, 0 or less for the other.
	return lit{e.when, 1 - e.when&1}
}

// network holds the edges, listed by the bounds they depend on.
type network struct {
	edges []edge
	out   [][]int32 // by side: edges from it
	under [][]int32 // by side of an order: its edges
}

func newNetwork(sides int) network {
	return network{out: make([][]int32, sides), under: make([][]int32, sides)}
}

// add adds a lag as two edges, one for lower bounds and one for upper ones.
func (n *network) add(a arc, when int32) {
	for _, e := range []edge{{2 * a.from, 2 * a.to, a.least, when}, {2*a.to + 1, 2*a.from + 1, a.least, when}} {
		k := int32(len(n.edges))
		n.edges = append(n.edges, e)
		n.out[e.from] = append(n.out[e.from], k)
		if when != always {
			n.under[when] = append(n.under[when], k)
		}
	}
}

// follow applies the edges that depend on a bound. It returns false in a dead end.
func (s *solver) follow(side int32) bool {
	s.work += int64(len(s.net.out[side]))
	for _, k := range s.net.out[side] {
		if !s.take(k) {
			return false
		}
	}
	for _, k := range s.net.under[side] {
		if !s.take(k) {
			return false
		}
	}
	return true
}

// take applies one edge: it moves the bound that the edge requires, or rules out
// the edge's order when that bound is impossible. It returns false in a dead end.
func (s *solver) take(k int32) bool {
	e := &s.net.edges[k]
	l := lit{e.to, s.bound[e.from] + e.weight}
	if s.holds(l) {
		return true
	}
	if e.when == always || s.holds(e.condition()) {
		return s.set(l, reason{byEdge, k, 0})
	}
	if s.fails(l) {
		return s.set(e.condition().not(), reason{ruledOut, k, 0})
	}
	return true
}

// explainRuledOut appends to s.why why an edge couldn't hold before the step at:
// the bounds at its two ends were too high together. When the permanent bound of
// one end is enough with the other end's bound, only the latter is a reason, and
// only as high as needed.
func (s *solver) explainRuledOut(k, at int32) {
	e := &s.net.edges[k]
	there := e.to ^ 1
	near := 1 - e.weight // their sum had to reach this
	switch from := s.boundAt(e.from, at); {
	case s.root[e.from]+s.boundAt(there, at) >= near:
		s.why = append(s.why, lit{there, near - s.root[e.from]})
	case s.root[there]+from >= near:
		s.why = append(s.why, lit{e.from, near - s.root[there]})
	default:
		s.why = append(s.why, lit{e.from, from}, lit{there, near - from})
	}
}
