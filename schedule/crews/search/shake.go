package search

import (
	"cmp"
	"math"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/internal/halt"
	"build.example/turflast/schedule/network"
)

// These values were set by trying a handful on random networks, on open instance
// sets of 30 to 120 activities and on changes to a garden; none depends on a set.
const (
	// fewest and most are how many neighbours in time lose their order when a
	// schedule is shaken, whatever the size of the network.
	fewest, most = 5, 16
	// loosest is the most noise, in eighths of the span of the late starts, that is
	// added to them to order a sample.
	loosest = 10
	// polished is the share of the budget, in hundredths, for shaking the best schedule
	// alone, where there are dates.
	polished = 20
)

// run shakes samples in rounds, and then spends what it has for the ties.
func (s *search) run() Result {
	s.upto = s.o.Schedules
	if len(s.b.p.Dates) > 0 {
		s.upto -= s.upto * polished / 100
	}
	s.rounds()
	s.atLeastOne()
	s.upto = s.o.Schedules
	s.shakeBest(byDates)
	s.bookLate()
	s.rescue()
	s.settle()
	s.best.Schedules, s.best.Equal = s.b.built, s.equals.list
	return s.best
}

// atLeastOne builds the first schedule of all to its end, if the halt came before, so that
// there mostly is one.
func (s *search) atLeastOne() {
	if s.best.Found || s.ctx.Err() == nil || s.number > 0 {
		return
	}
	h := s.b.halt
	s.b.halt = halt.Halt{}
	defer func() { s.b.halt = h }()
	key, mode := slices.Clone(s.late), make([]uint8, len(s.late))
	s.alongAll(key) // so that few links have to be mended
	book := s.book()
	if len(s.o.From) > 0 {
		copy(key, s.o.From[0].Start)
		copy(mode, s.o.From[0].Mode)
		s.fillIn(key)
		book = s.bookedAt(s.o.From[0].Start)
	}
	s.makeCompatible(key)
	s.left(key, mode, book)
}

// shakeBest looks around the best schedule (iterated local search): some
// neighbours in time change their order at random, a backward pass justifies all
// to the right and a forward pass to the left, and a result that is no worse is
// kept.
func (s *search) shakeBest(compare func(a, b *individual) int) {
	if !s.best.Found {
		return
	}
	at := individual{
		key: slices.Clone(s.best.Finish), mode: slices.Clone(s.best.Mode), cost: s.best.Cost,
		book: s.book(), overdue: s.overdue(s.best.Finish),
	}
	key := make([]calendars.Instant, len(at.key))
	for !s.spent() {
		mode, book := s.shake(key, &at)
		s.b.use(mode)
		order := s.byKey(key)
		slices.Reverse(order)
		if s.b.backward(order, slices.Max(at.key)) == calendars.Past || s.spent() {
			continue
		}
		if x := s.left(s.b.starts(), mode, book); compare(&x, &at) <= 0 {
			at = x
		}
	}
}

// hurry moves an overdue node earlier in the order, with all nodes that it
// follows, by up to twice as much as it is late, perhaps in another mode.
func (s *search) hurry(key []calendars.Instant, mode []uint8) {
	s.tardy = s.tardy[:0]
	for i, due := range s.due {
		if due.IsReal() && key[i] > due {
			s.tardy = append(s.tardy, int32(i))
		}
	}
	if len(s.tardy) == 0 {
		return
	}
	i := s.tardy[s.r.IntN(len(s.tardy))]
	if modes := len(s.b.modes[i]); modes > 1 {
		mode[i] = uint8(s.r.IntN(modes))
	}
	s.pull(key, int(i), key[i]-calendars.Instant(1+s.r.IntN(2*int(key[i]-s.due[i]))))
}

// pull lowers the key of a node, with those of all that it can't start before.
func (s *search) pull(key []calendars.Instant, i int, to calendars.Instant) {
	key[i] = min(key[i], to)
	for k := i; k >= 0; k-- {
		for _, p := range s.b.n.Out.Of(k) {
			key[k] = min(key[k], key[p])
		}
		ends := s.b.n.OutOther.Of(k)
		for e := range ends {
			if runsAlong(ends[e].Kind, ends[e].Wait) {
				key[k] = min(key[k], key[ends[e].Node])
			}
		}
	}
}

// guide says whether schedules are compared by their overdue nodes first while
// dates break. Backward passes then aim at the finishes that the dates require.
func (s *search) guide(on bool) {
	s.guided, s.b.due = on && s.best.Cost.late(), nil
	if s.guided {
		s.b.due = s.due
	}
}

// ordered compares schedules while samples are shaken.
func (s *search) ordered(a, b *individual) int {
	if s.guided {
		return byOverdue(a, b)
	}
	return byDates(a, b)
}

// byDates, byAll and byOverdue compare schedules while one is shaken.
func byDates(a, b *individual) int { return a.cost.Dates(b.cost) }
func byAll(a, b *individual) int   { return a.cost.Compare(b.cost) }
func byOverdue(a, b *individual) int {
	return cmp.Or(cmp.Compare(a.overdue, b.overdue), a.cost.Dates(b.cost))
}

// nowhere is the overdue of a schedule in which some node has no place.
const nowhere = math.MaxInt64

// shake copies keys and draws new ones for a few neighbours in time, between
// the first and the last of them; some of these take another mode, and some
// bookings another least start.
func (s *search) shake(key []calendars.Instant, from *individual) (mode []uint8, book []calendars.Instant) {
	copy(key, from.key)
	order := s.byKey(key)
	few := min(fewest+s.r.IntN(most-fewest+1), len(order)-1)
	first := s.r.IntN(len(order) - few)
	low := key[order[first]]
	span := int(key[order[first+few]]-low) + 1
	mode = from.mode
	if len(s.ranged) > 0 {
		mode = slices.Clone(mode)
	}
	if from.overdue > 0 && s.r.IntN(2) == 0 {
		s.hurry(key, mode)
	}
	for _, i := range order[first : first+few+1] {
		key[i] = low + calendars.Instant(s.r.IntN(span))
		if len(s.b.modes[i]) > 1 && s.r.IntN(3) == 0 {
			mode[i] = uint8(s.r.IntN(len(s.b.modes[i])))
		}
	}
	s.makeCompatible(key)
	return mode, s.rebook(from.book)
}

// hash tells schedules apart (FNV-1a over keys, modes and least starts).
func (x *individual) hash() uint64 {
	h := uint64(14695981039346656037)
	for _, k := range x.key {
		h = (h ^ uint64(uint32(k))) * 1099511628211
	}
	for _, m := range x.mode {
		h = (h ^ uint64(m)) * 1099511628211
	}
	for _, b := range x.book {
		h = (h ^ uint64(uint32(b))) * 1099511628211
	}
	return h
}

// loosen adds noise to the keys and takes other modes for some nodes.
func (s *search) loosen(key []calendars.Instant, mode []uint8) {
	noise := s.breadth() * (1 + s.r.IntN(loosest)) / 8
	for i := range key {
		key[i] += calendars.Instant(s.r.IntN(max(noise, 1)))
	}
	loose := s.r.IntN(3)
	for _, i := range s.ranged {
		if s.r.IntN(3) < loose {
			mode[i] = uint8(s.r.IntN(len(s.b.modes[i])))
		}
	}
}

// breadth is how far the late starts lie apart; a few far ones don't count.
func (s *search) breadth() int {
	sorted := slices.Sorted(slices.Values(s.late))
	tenth := len(sorted) / 10
	return int(sorted[len(sorted)-1-tenth]-sorted[tenth])*10/8 + 1
}

// makeCompatible raises keys so that every node comes after those before which it
// can't start.
func (s *search) makeCompatible(key []calendars.Instant) {
	s.raiseKeys(key, func(e *network.End) bool { return runsAlong(e.Kind, e.Wait) })
}

// alongAll raises keys so that every node comes after all from which a link runs to it.
func (s *search) alongAll(key []calendars.Instant) {
	s.raiseKeys(key, func(*network.End) bool { return true })
}

// raiseKeys raises keys so that every node comes after those that it follows by plain
// links and by such of the others as count.
func (s *search) raiseKeys(key []calendars.Instant, counts func(e *network.End) bool) {
	n := s.b.n
	for i := range key {
		for _, p := range n.In.Of(i) {
			key[i] = max(key[i], key[p])
		}
		ends := n.InOther.Of(i)
		for k := range ends {
			if e := &ends[k]; counts(e) {
				key[i] = max(key[i], key[e.Node])
			}
		}
	}
}
