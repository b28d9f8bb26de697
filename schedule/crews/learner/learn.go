package learner

import "slices"

// lesson is scratch space for learning from a dead end.
type lesson struct {
	marked  []bool  // by step
	wanted  []int32 // by step: the bound that was needed
	below   []int32 // marked steps of earlier decisions
	above   int     // marked steps of the last decision, not looked at yet
	lits    []lit
	removed []bool // by place in below
}

// explain appends to s.why the statements that made l hold by the step at, which
// was moved for the reason why.
func (s *solver) explain(l lit, why reason, at int32) {
	switch why.kind {
	case byEdge:
		e := &s.net.list[why.a]
		s.why = append(s.why, lit{e.from, e.need(s.weakest(l).least)})
		if e.when != always {
			s.why = append(s.why, e.condition())
		}
	case ruledOut:
		s.explainRuledOut(why.a, at)
	case byClause:
		c := s.learnt.list[why.a]
		c.used += s.learnt.worth
		for _, x := range c.lits[1:] {
			s.why = append(s.why, x.not())
		}
	case byTable:
		t := &s.takers[why.a]
		if l.side&1 == 0 {
			s.why = append(s.why, lower(t.activity, s.holding(t, why.b)))
		} else {
			s.why = append(s.why, upper(t.activity, why.b))
		}
		if t.way != anyWay {
			s.why = append(s.why, s.done(t.way))
		}
		s.explainTable(t.resource, why.b, t.activity, t.amount, at)
	}
}

// learn learns a clause from the dead end that s.why explains, undoes decisions to
// the first level at which the clause moves a bound, and moves it. It returns
// false when there is no decision to undo or the bound can't move.
func (s *solver) learn() bool {
	x := &s.lesson
	deepest := int32(0)
	for _, l := range s.why {
		if at := s.cause(l); at >= 0 {
			deepest = max(deepest, s.trail[at].level)
		}
	}
	if deepest == 0 {
		return false
	}
	if s.best == nil && !s.guided {
		s.remember()
	}
	s.back(deepest)
	if need := len(s.trail); need > len(x.marked) {
		x.marked = append(x.marked, make([]bool, need)...)
		x.wanted = append(x.wanted, make([]int32, need)...)
	}
	x.below, x.above = x.below[:0], 0
	s.mark()
	first := s.resolve()
	s.shorten()
	s.collect(first)
	return s.conclude()
}

// mark marks the steps that made the statements in s.why hold.
func (s *solver) mark() {
	x := &s.lesson
	for _, l := range s.why {
		at := s.cause(l)
		if at < 0 {
			continue
		}
		if x.marked[at] {
			x.wanted[at] = max(x.wanted[at], l.least)
			continue
		}
		s.order.raise(l)
		x.marked[at], x.wanted[at] = true, l.least
		if s.trail[at].level == s.level() {
			x.above++
		} else {
			x.below = append(x.below, at)
		}
	}
}

// resolve undoes steps of the last decision, replacing each marked step by its
// reasons, until one is left, and returns its statement: with earlier decisions it
// implies the dead end.
func (s *solver) resolve() lit {
	x := &s.lesson
	for {
		at := int32(len(s.trail) - 1)
		e := s.trail[at]
		if !x.marked[at] {
			s.pop()
			continue
		}
		x.marked[at] = false
		l := lit{e.side, x.wanted[at]}
		s.pop()
		if x.above--; x.above == 0 {
			return l
		}
		s.why = s.why[:0]
		s.explain(l, e.why, at)
		s.mark()
	}
}

// shorten marks as removed the statements below that follow from the rest.
func (s *solver) shorten() {
	x := &s.lesson
	slices.Sort(x.below)
	x.removed = x.removed[:0]
	for _, at := range x.below {
		x.removed = append(x.removed, s.trail[at].why.kind != decided && s.follows(at, x.wanted[at], 3))
	}
}

// follows says whether a statement follows from the marked ones, by reasons at
// most depth levels behind its own.
func (s *solver) follows(at, wanted int32, depth int) bool {
	e := s.trail[at]
	from := len(s.why)
	s.explain(lit{e.side, wanted}, e.why, at)
	ok := true
	for i := from; i < len(s.why) && ok; i++ {
		l := s.why[i]
		k := s.cause(l)
		if k < 0 || s.lesson.marked[k] && s.lesson.wanted[k] >= l.least {
			continue
		}
		ok = depth > 0 && s.trail[k].why.kind != decided && s.trail[k].why.kind != byTable && s.follows(k, l.least, depth-1)
	}
	s.why = s.why[:from]
	return ok
}

// collect makes the clause: the opposites of first and of the statements left
// below. Of several on one side it keeps only the weakest, which the others imply.
func (s *solver) collect(first lit) {
	x := &s.lesson
	x.lits = append(x.lits[:0], first.not())
	for i, at := range x.below {
		if !x.removed[i] {
			x.lits = append(x.lits, lit{s.trail[at].side, x.wanted[at]}.not())
		}
	}
	for _, at := range x.below {
		x.marked[at] = false
	}
	kept := x.lits[:1]
	for i, l := range x.lits[1:] {
		further := func(o lit) bool { return o.side == l.side && o.least <= l.least }
		if l.side == x.lits[0].side && x.lits[0].least <= l.least || slices.ContainsFunc(x.lits[i+2:], further) {
			continue
		}
		kept = append(kept, l)
	}
	x.lits = kept
}

// conclude undoes decisions to the first level at which only the clause's first
// statement can hold, and makes it hold. It returns false when that is impossible.
func (s *solver) conclude() bool {
	lits := s.lesson.lits
	to := int32(0)
	for i, l := range lits[1:] {
		if level := s.trail[s.cause(l.not())].level; level > to {
			to = level
			lits[1], lits[i+1] = lits[i+1], lits[1]
		}
	}
	spread := s.spread(lits[1:]) + 1
	s.back(to)
	if len(lits) == 1 {
		return s.set(lits[0], reason{kind: decided})
	}
	s.learnt.worth *= 1.001
	if s.learnt.worth > 1e100 {
		for _, c := range s.learnt.list {
			c.used *= 1e-100
		}
		s.learnt.worth *= 1e-100
	}
	return s.set(lits[0], reason{byClause, s.learnt.add(lits, spread), 0})
}

// spread is the number of decisions at which the given statements came to fail.
func (s *solver) spread(lits []lit) int32 {
	s.levelsSeen = s.levelsSeen[:0]
	for _, l := range lits {
		s.levelsSeen = append(s.levelsSeen, s.trail[s.cause(l.not())].level)
	}
	slices.Sort(s.levelsSeen)
	return int32(len(slices.Compact(s.levelsSeen)))
}
