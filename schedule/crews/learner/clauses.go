package learner

import (
	"cmp"
	"slices"
)

// clause is a list of statements of which at least one holds in every schedule
// better than the best known. The first two are watched (Moskewicz and others,
// 2001; from memory).
type clause struct {
	lits   []lit
	spread int32 // how many decisions it spanned when it was learnt
	used   float64
}

// watch makes the solver look at a clause when one of its statements fails, which
// is when the bound of the opposite side reaches least.
type watch struct {
	clause, least int32
	other         lit // if this holds the clause does
}

// clauses holds the learnt clauses and their watches.
type clauses struct {
	list    []*clause
	watches [][]watch // by side
	most    int       // how many to keep
	worth   float64   // of one use
}

func (c *clauses) attach(k int32) {
	lits := c.list[k].lits
	for i := range 2 {
		fails := lits[i].not()
		c.watches[fails.side] = append(c.watches[fails.side], watch{k, fails.least, lits[1-i]})
	}
}

// visit looks at the clauses with a watched statement that a step made fail. It
// returns false in a dead end.
func (s *solver) visit(side, before, now int32) bool {
	list := s.learnt.watches[side]
	s.work += int64(len(list)) / 4
	kept, ok := 0, true
	for i := range list {
		w := &list[i]
		if w.least > before && w.least <= now && ok && !s.holds(w.other) {
			s.work++
			var stays bool
			if stays, ok = s.look(w, side); !stays {
				continue
			}
		}
		if kept < i {
			list[kept] = *w
		}
		kept++
	}
	s.learnt.watches[side] = list[:kept]
	return ok
}

// look finds another statement for a clause to watch in place of one that fails.
// If there is none, it makes the other watched statement hold. stays says whether
// the watch stays where it is; ok is false in a dead end.
func (s *solver) look(w *watch, side int32) (stays, ok bool) {
	lits := s.learnt.list[w.clause].lits
	if (lits[0].not() == lit{side, w.least}) {
		lits[0], lits[1] = lits[1], lits[0]
	}
	if s.holds(lits[0]) {
		w.other = lits[0]
		return true, true
	}
	for k := 2; k < len(lits); k++ {
		if !s.fails(lits[k]) {
			lits[1], lits[k] = lits[k], lits[1]
			fails := lits[1].not()
			s.learnt.watches[fails.side] = append(s.learnt.watches[fails.side], watch{w.clause, fails.least, lits[0]})
			return false, true
		}
	}
	return true, s.set(lits[0], reason{byClause, w.clause, 0})
}

// add takes in a learnt clause of two or more statements.
func (c *clauses) add(lits []lit, spread int32) int32 {
	k := int32(len(c.list))
	c.list = append(c.list, &clause{slices.Clone(lits), spread, c.worth})
	c.attach(k)
	return k
}

// thin forgets half of the clauses once there are too many: those least used
// lately, except those that spanned at most two decisions (clauses rated by what
// they span: Audemard and Simon, 2009; from memory). It also forgets those that
// always hold. There must be no step on the trail.
func (s *solver) thin() {
	c := &s.learnt
	if len(c.list) < c.most {
		return
	}
	c.most += c.most / 20
	slices.SortStableFunc(c.list, func(a, b *clause) int {
		if a.spread <= 2 || b.spread <= 2 {
			return cmp.Compare(min(a.spread, 3), min(b.spread, 3))
		}
		return cmp.Compare(b.used, a.used)
	})
	kept := c.list[:0]
	for i, x := range c.list {
		if (i < len(c.list)/2 || x.spread <= 2) && !slices.ContainsFunc(x.lits, s.holds) {
			kept = append(kept, x)
		}
	}
	clear(c.list[len(kept):])
	c.list = kept
	for side := range c.watches {
		c.watches[side] = c.watches[side][:0]
	}
	for k, x := range c.list {
		// Statements that can't hold any more come last, so that others are watched.
		slices.SortStableFunc(x.lits, func(a, b lit) int { return compareFalse(s.fails(a), s.fails(b)) })
		c.attach(int32(k))
	}
}

func compareFalse(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return 1
	}
	return -1
}
