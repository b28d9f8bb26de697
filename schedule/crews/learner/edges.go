package learner

// always is the condition of an edge that depends on no order.
const always = -1

// edge says that one bound is at least another plus a weight, or what a curve makes
// of it, if a condition holds. The curve goes from the lower bound of one start to
// that of another; an edge between upper bounds goes the other way along it.
type edge struct {
	from, to int32 // sides
	weight   int32
	when     int32 // the side of the order's variable, or always
	along    *curve
}

// value is the bound that an edge requires for a bound of the side that it is from.
func (e *edge) value(bound int32) int32 {
	switch {
	case e.along == nil:
		return bound + e.weight
	case e.from&1 == 0:
		return e.along.at(bound) + e.weight
	}
	return 1 - e.along.first(1-bound-e.weight)
}

// need is the least bound for which an edge requires the bound least.
func (e *edge) need(least int32) int32 {
	switch {
	case e.along == nil:
		return least - e.weight
	case e.from&1 == 0:
		return e.along.first(least - e.weight)
	}
	return 1 - e.along.at(1-least) - e.weight
}

// condition is the statement under which an edge applies.
func (e *edge) condition() lit {
	// An order's variable is 1 or more for the one order, 0 or less for the other.
	return lit{e.when, 1 - e.when&1}
}

// edges holds the edges, listed by the bounds they depend on.
type edges struct {
	list  []edge
	out   [][]int32 // by side: edges from it
	under [][]int32 // by side of an order: its edges
}

func newEdges(sides int) edges {
	return edges{out: make([][]int32, sides), under: make([][]int32, sides)}
}

// add adds a lag as two edges, one for lower bounds and one for upper ones.
func (n *edges) add(a arc, when int32) {
	for _, e := range []edge{
		{2 * a.from, 2 * a.to, a.least, when, a.along}, {2*a.to + 1, 2*a.from + 1, a.least, when, a.along},
	} {
		k := int32(len(n.list))
		n.list = append(n.list, e)
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
	e := &s.net.list[k]
	l := lit{e.to, e.value(s.bound[e.from])}
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
	e := &s.net.list[k]
	there := e.to ^ 1
	from := s.boundAt(e.from, at)
	if fixed := 1 - e.value(s.root[e.from]); s.boundAt(there, at) >= fixed {
		s.why = append(s.why, lit{there, fixed})
		return
	}
	if need := e.need(1 - s.root[there]); from >= need {
		s.why = append(s.why, lit{e.from, need})
		return
	}
	s.why = append(s.why, lit{e.from, from}, lit{there, 1 - e.value(from)})
}
