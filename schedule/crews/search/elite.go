package search

import (
	"slices"

	"build.example/turflast/calendars"
)

// These values were set as those of the populations were, by trying a handful.
const (
	// elite is how many schedules are shaken in turn at first.
	elite = 8
	// round is how many schedules are built before the search restarts from other
	// samples, when the budget has room for two rounds.
	round = 5000
	// sampled is the share of a round, in hundredths, for building the samples from
	// which the shaken schedules are taken.
	sampled = 10
	// narrowing is the share of the rest of a round, in hundredths, in which all but
	// one of the shaken schedules are given up, the worst first.
	narrowing = 90
	// relinked is the share of tries, in hundredths, that take their order from
	// another schedule instead of at random.
	relinked = 30
	// fewestTaken and mostTaken are how many neighbours in time take the order
	// that they have in another schedule.
	fewestTaken, mostTaken = 10, 40
	// slack is the part of its span by which a right-justified schedule may be longer
	// than the one it was shaken from and still be worth a forward pass: few longer
	// ones end no worse.
	slack = 20
)

// plain says whether samples can be built by time: every link is plain and no
// booking may move.
func (s *search) plain() bool { return !s.b.against && len(s.b.p.Bookings) == 0 }

// rounds shakes samples in rounds. The schedules that a few rounds end with are
// shaken together for as long as those rounds took, and the result counts as that
// of one longer round. It stops when a date breaks.
func (s *search) rounds() {
	var won []individual
	for !s.spent() {
		begun, left := s.b.built, s.o.Schedules-s.b.built
		budget := round
		if left < 2*round {
			budget = left
		}
		var pool []individual
		if again := len(won) * round; len(won) == elite || len(won) > 1 && left <= again {
			pool, won, budget = won, nil, min(left, again)
		} else {
			pool = s.sample(budget)
		}
		if s.best.Cost.late() {
			return
		}
		won = append(won, s.shakeElite(pool, budget-(s.b.built-begun))...)
	}
}

// sample builds schedules by time in the order of late starts with noise, and
// justifies them right and left.
func (s *search) sample(budget int) (pop []individual) {
	last := s.b.built + max(budget*sampled/100, 3*elite)
	key := make([]calendars.Instant, len(s.late))
	for k := 0; s.b.built < last && !s.spent(); k++ {
		mode := make([]uint8, len(key))
		if k > 0 && k <= len(s.o.From) {
			copy(key, s.o.From[k-1].Start)
			copy(mode, s.o.From[k-1].Mode)
			s.makeCompatible(key)
			pop = append(pop, s.left(key, mode, nil))
			continue
		}
		copy(key, s.late)
		if k > 0 {
			s.loosen(key, mode, 1+s.r.IntN(loosestDense))
		}
		s.b.use(mode)
		if !s.b.dense(key) {
			continue
		}
		x := individual{key: slices.Clone(s.b.times.Finish), mode: mode, cost: s.b.cost()}
		s.keep(&x.cost)
		if s.spent() {
			return append(pop, x)
		}
		if order := s.fromEnd(x.key); s.b.backward(order, slices.Max(x.key)) != calendars.Past && !s.spent() {
			x = s.left(s.b.starts(), mode, nil)
		}
		pop = append(pop, x)
	}
	return pop
}

// shakeElite shakes the best of the samples in turn (iterated local search over a
// few schedules): some neighbours in time change their order at random, or take it
// from another of the schedules, and all is justified right and left. A result
// that is no worse replaces the schedule it was shaken from. shakeElite returns
// the best one at the end.
func (s *search) shakeElite(pop []individual, budget int) []individual {
	few := distinct(pop)
	key := make([]calendars.Instant, len(s.late))
	tried := make(map[uint64]bool)
	begun, most := s.b.built, len(few)
	for len(few) > 0 && !s.spent() && s.b.built < begun+budget {
		keep := most - most*(s.b.built-begun)*100/(narrowing*max(budget, 1))
		few = few[:max(1, min(keep, len(few)))]
		k := s.r.IntN(len(few))
		at := few[k]
		mode := at.mode
		if len(few) > 1 && s.r.IntN(100) < relinked {
			s.takeOrder(key, &at, &few[(k+1+s.r.IntN(len(few)-1))%len(few)])
		} else {
			mode, _ = s.shake(key, &at)
		}
		s.b.use(mode)
		end := slices.Max(at.key)
		first := s.b.backward(s.fromEnd(key), end)
		if s.spent() {
			break
		}
		if span := end - slices.Min(s.best.Start); first == calendars.Past || end-first > span+span/slack {
			continue
		}
		right := individual{key: s.b.starts(), mode: mode}
		h := right.hash()
		if tried[h] {
			continue
		}
		tried[h] = true
		if x := s.left(right.key, mode, nil); x.cost.Dates(at.cost) <= 0 {
			few[k] = x
			rise(few, k)
		}
	}
	return few[:min(1, len(few))]
}

// distinct is the best schedules that differ, best first.
func distinct(pop []individual) (few []individual) {
	slices.SortStableFunc(pop, func(a, b individual) int { return byDates(&a, &b) })
	held := make(map[uint64]bool, elite)
	for k := range pop {
		if h := pop[k].hash(); len(few) < elite && !held[h] {
			held[h] = true
			few = append(few, pop[k])
		}
	}
	return few
}

// rise moves a schedule before those that are worse.
func rise(few []individual, k int) {
	for ; k > 0 && few[k].cost.Dates(few[k-1].cost) < 0; k-- {
		few[k], few[k-1] = few[k-1], few[k]
	}
}

// takeOrder copies keys, and deals those of some neighbours in time out to the
// same nodes in the order that these have in another schedule.
func (s *search) takeOrder(key []calendars.Instant, from, other *individual) {
	copy(key, from.key)
	order := s.byKey(key)
	few := min(fewestTaken+s.r.IntN(mostTaken-fewestTaken+1), len(order)-1)
	first := s.r.IntN(len(order) - few)
	window := order[first : first+few+1]
	keys := make([]calendars.Instant, len(window))
	for k, i := range window {
		keys[k] = key[i]
	}
	slices.SortStableFunc(window, func(a, b int32) int { return int(other.key[a]) - int(other.key[b]) })
	for k, i := range window {
		key[i] = keys[k]
	}
	s.makeCompatible(key)
}

// fromEnd orders all nodes by key, the last first.
func (s *search) fromEnd(key []calendars.Instant) []int32 {
	order := s.byKey(key)
	slices.Reverse(order)
	return order
}
