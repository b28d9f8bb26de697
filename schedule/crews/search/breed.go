package search

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
)

// These values were set by trying a handful on random networks and on open
// instance sets of 30 to 120 activities; none depends on a set.
const (
	// contest is how many individuals are drawn for a mate.
	contest = 3
	// patience is how many generations may bring nothing better before a
	// population is sampled again.
	patience = 30
	// bred is the share of the budget, in hundredths, for the populations; the
	// rest goes to shaking the best schedule.
	bred = 20
	// fewest and most are how many neighbours in time lose their order when a
	// schedule is shaken, whatever the size of the network.
	fewest, most = 5, 16
	// loosest is the most noise, in eighths of the span of the late starts, that is
	// added to them to order a first schedule.
	loosest = 20
	// loosestDense is the same for schedules built by time.
	loosestDense = 10
)

// size is how many schedules a population holds for a budget: small enough for
// a dozen generations or more, large enough to stay diverse.
func size(budget int) int {
	switch {
	case budget <= 1500:
		return 20
	case budget <= 15000:
		return 50
	}
	return 120
}

// run shakes a few good samples together when every link is plain. Otherwise, or
// when a date breaks, it breeds the two populations for a share of the budget and
// shakes the best schedule for the rest. While dates break, backward passes aim at
// the finishes that the dates require.
func (s *search) run() Result {
	s.upto = s.o.Schedules
	if s.plain() {
		s.rounds()
	}
	s.b.due = s.due
	s.upto = max(s.o.Schedules*bred/100, 1)
	for again := true; again; again = !s.spent() {
		s.breed(s.first(size(s.o.Schedules)))
	}
	if s.best.Cost.late() {
		s.upto = s.b.built + (s.o.Schedules-s.b.built)/2
		s.shakeBest(byOverdue)
	}
	s.b.due = nil
	s.upto = s.o.Schedules
	s.shakeBest(byDates)
	s.bookLate()
	s.settle()
	s.best.Schedules = s.b.built
	return s.best
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
	key[i] -= calendars.Instant(1 + s.r.IntN(2*int(key[i]-s.due[i])))
	for k := int(i); k >= 0; k-- {
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

// ordered compares schedules while a population is bred, by their overdue nodes
// first while a date breaks.
func (s *search) ordered(a, b *individual) int {
	if s.best.Cost.late() {
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

// breed breeds the two populations in turn. A child takes its father's place
// when it is no worse and new to the population, until that brings nothing
// better for some generations.
func (s *search) breed(pop []individual) {
	held := make(map[uint64]bool, len(pop))
	for k := range pop {
		held[pop[k].hash()] = true
	}
	best, since := worst, 0
	for since < patience && !s.spent() {
		right := make([]individual, 0, len(pop))
		for k := range pop {
			if s.spent() {
				return
			}
			right = append(right, s.toRight(&pop[k], &pop[s.mate(pop, k)]))
		}
		for k := range right {
			if s.spent() {
				return
			}
			child := s.toLeft(&right[k], &right[s.mate(right, k)])
			h := child.hash()
			if held[h] || s.ordered(&child, &pop[k]) > 0 {
				continue
			}
			delete(held, pop[k].hash())
			held[h] = true
			pop[k] = child
		}
		since++
		for k := range pop {
			if pop[k].cost.Dates(best) < 0 {
				best, since = pop[k].cost, 0
			}
		}
	}
}

// hash tells schedules apart (FNV-1a over keys and modes).
func (x *individual) hash() uint64 {
	h := uint64(14695981039346656037)
	for _, k := range x.key {
		h = (h ^ uint64(uint32(k))) * 1099511628211
	}
	for _, m := range x.mode {
		h = (h ^ uint64(m)) * 1099511628211
	}
	return h
}

// first samples schedules: by late starts alone, by the starts in Options.From,
// then by late starts with random noise (regret-based sampling: Drexl, 1991). It
// tries the first two kinds whatever the budget, until one has a place for all.
func (s *search) first(count int) []individual {
	var pop []individual
	key := make([]calendars.Instant, len(s.late))
	for k := 0; k < count && (!s.spent() || k <= len(s.o.From) && !s.best.Found); k++ {
		copy(key, s.late)
		mode := make([]uint8, len(key))
		switch {
		case k == 0:
		case k <= len(s.o.From):
			copy(key, s.o.From[k-1].Start)
			copy(mode, s.o.From[k-1].Mode)
		default:
			s.loosen(key, mode, 1+s.r.IntN(loosest))
		}
		s.makeCompatible(key)
		pop = append(pop, s.left(key, mode, s.rebook(s.book())))
	}
	return pop
}

// loosen adds noise, in eighths of the span, to the keys and takes other modes for
// some nodes.
func (s *search) loosen(key []calendars.Instant, mode []uint8, eighths int) {
	noise := s.breadth() * eighths / 8
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
	n := s.b.n
	for i := range key {
		for _, p := range n.In.Of(i) {
			key[i] = max(key[i], key[p])
		}
		ends := n.InOther.Of(i)
		for k := range ends {
			if e := &ends[k]; runsAlong(e.Kind, e.Wait) {
				key[i] = max(key[i], key[e.Node])
			}
		}
	}
}

// mate chooses another individual: the best of a few drawn.
func (s *search) mate(pop []individual, but int) int {
	best := -1
	for range contest {
		if a := s.r.IntN(len(pop)); a != but && (best < 0 || s.ordered(&pop[a], &pop[best]) < 0) {
			best = a
		}
	}
	if best < 0 {
		return (but + 1) % len(pop)
	}
	return best
}

// toRight breeds a right-justified schedule from two left-justified ones.
func (s *search) toRight(father, mother *individual) individual {
	x := s.cross(father, mother)
	s.b.use(x.mode)
	order := slices.Clone(s.byKey(x.key))
	slices.Reverse(order)
	end := slices.Max(father.key)
	first := s.b.backward(order, end)
	if first == calendars.Past {
		x.key, x.cost = s.ranks(x.key), worst
		return x
	}
	x.key, x.cost = slices.Clone(s.b.times.Start), Cost{End: int64(end - first)}
	return x
}

// toLeft breeds a left-justified schedule from two right-justified ones.
func (s *search) toLeft(father, mother *individual) individual {
	x := s.cross(father, mother)
	return s.left(x.key, x.mode, s.rebook(x.book))
}

// cross keeps the father's keys in the stretch of time in which his schedule
// uses most, and takes the mother's order before and after it. A node's mode comes
// from the same parent as its order.
func (s *search) cross(father, mother *individual) individual {
	key, mode := slices.Clone(father.key), father.mode
	if len(s.ranged) > 0 {
		mode = slices.Clone(mode)
	}
	lo, hi := slices.Min(key), slices.Max(key)
	from, to := s.busiest(father, lo, hi)
	least := slices.Min(mother.key)
	span := hi - lo + slices.Max(mother.key) - least + 2
	for i := range key {
		switch {
		case father.key[i] < from:
			key[i] = mother.key[i] - least + lo - span
		case father.key[i] > to:
			key[i] = mother.key[i] - least + hi + 1
		default:
			continue
		}
		if len(s.b.modes[i]) > 1 {
			mode[i] = mother.mode[i]
		}
	}
	return individual{key: key, mode: mode, book: father.book}
}

// busiest is about the stretch in which an individual's nodes use most, the better
// half of a schedule to hand on. It is a random share of the whole, from a quarter
// to three quarters.
func (s *search) busiest(x *individual, lo, hi calendars.Instant) (from, to calendars.Instant) {
	const parts = 64
	span := int(hi-lo) + 1
	var use [parts + 1]float64
	for i := range x.key {
		use[(int(x.key[i]-lo)*parts)/span] += s.energy[i]
	}
	long := parts/4 + s.r.IntN(parts/2+1)
	sum, most, best := 0.0, -1.0, 0
	for b := range parts {
		sum += use[b]
		if b >= long {
			sum -= use[b-long]
		}
		if b >= long-1 && sum*(0.8+0.4*s.r.Float64()) > most {
			most, best = sum, b-long+1
		}
	}
	return lo + calendars.Instant(best*span/parts), lo + calendars.Instant((best+long)*span/parts)
}
