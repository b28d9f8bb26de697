package levelling

import (
	"slices"

	"turflast/calendars"
)

// What follows was set by trying a handful of values on random networks and on
// open instance sets of 30 to 120 activities; no value depends on a set.
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
	// loosest is the most noise, in eighths of the whole span, over the late
	// starts that order a first schedule.
	loosest = 20
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

// run breeds the two populations for a share of the budget and shakes the best
// schedule for the rest.
func (s *search) run() {
	s.upto = max(s.o.Schedules*bred/100, 1)
	for !s.spent() {
		s.breed(s.first(size(s.o.Schedules)))
	}
	s.upto = s.o.Schedules
	if s.best.End != calendars.Never {
		s.shakeBest()
	}
}

// shakeBest looks around the best schedule (iterated local search): some
// neighbours in time change order at random, a backward pass justifies all to
// the right, a forward pass to the left, and what is no worse is kept.
func (s *search) shakeBest() {
	finish, end := slices.Clone(s.best.Finish), s.best.End
	key := make([]calendars.Instant, len(finish))
	for !s.spent() {
		s.shake(key, finish)
		order := s.byKey(key)
		slices.Reverse(order)
		if s.b.backward(order, end) == calendars.Past || s.spent() {
			continue
		}
		if x := s.left(s.byKey(s.b.times.Start)); x.end <= end {
			finish, end = x.key, x.end
		}
	}
}

// shake copies keys and draws those of a few neighbours in time anew, between
// the first and the last of them.
func (s *search) shake(key, from []calendars.Instant) {
	copy(key, from)
	order := s.byKey(from)
	few := min(fewest+s.r.IntN(most-fewest+1), len(order)-1)
	first := s.r.IntN(len(order) - few)
	low := from[order[first]]
	span := int(from[order[first+few]]-low) + 1
	for _, i := range order[first : first+few+1] {
		key[i] = low + calendars.Instant(s.r.IntN(span))
	}
	s.makeCompatible(key)
}

// breed breeds the two populations in turn. A child takes its father's place
// when it is no worse and new to the population, until that brings nothing
// better for some generations.
func (s *search) breed(pop []individual) {
	held := make(map[uint64]bool, len(pop))
	for k := range pop {
		held[pop[k].hash()] = true
	}
	best, since := calendars.Never, 0
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
			if held[h] || child.end > pop[k].end {
				continue
			}
			delete(held, pop[k].hash())
			held[h] = true
			pop[k] = child
		}
		since++
		for k := range pop {
			if pop[k].end < best {
				best, since = pop[k].end, 0
			}
		}
	}
}

// hash tells schedules apart (FNV-1a over the keys).
func (x *individual) hash() uint64 {
	h := uint64(14695981039346656037)
	for _, k := range x.key {
		h = (h ^ uint64(uint32(k))) * 1099511628211
	}
	return h
}

// first samples schedules: late starts with random regret, and pure late starts
// once.
func (s *search) first(count int) []individual {
	var pop []individual
	key := make([]calendars.Instant, len(s.late))
	span := int(slices.Max(s.late)-slices.Min(s.late)) + 1
	for k := 0; k < count && !s.spent(); k++ {
		copy(key, s.late)
		if k > 0 {
			noise := span * (1 + s.r.IntN(loosest)) / 8
			for i := range key {
				key[i] += calendars.Instant(s.r.IntN(max(noise, 1)))
			}
			s.makeCompatible(key)
		}
		pop = append(pop, s.left(s.byKey(key)))
	}
	return pop
}

// makeCompatible raises keys so that none is below one it must follow.
func (s *search) makeCompatible(key []calendars.Instant) {
	for i := range key {
		for _, p := range s.b.n.In.Of(i) {
			key[i] = max(key[i], key[p])
		}
	}
}

// mate chooses another individual: the best of a few drawn.
func (s *search) mate(pop []individual, but int) int {
	best := -1
	for range contest {
		if a := s.r.IntN(len(pop)); a != but && (best < 0 || pop[a].end < pop[best].end) {
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
	t := s.b.times
	key := s.cross(father, mother)
	order := slices.Clone(s.byKey(key))
	slices.Reverse(order)
	first := s.b.backward(order, father.end)
	end := calendars.Never
	if first != calendars.Past {
		end = father.end - first
	}
	return individual{key: slices.Clone(t.Start), end: end}
}

// toLeft breeds a left-justified schedule from two right-justified ones.
func (s *search) toLeft(father, mother *individual) individual {
	return s.left(s.byKey(s.cross(father, mother)))
}

// cross keeps the father's keys in the stretch of time in which his schedule
// uses most, and takes the mother's order before and after it.
func (s *search) cross(father, mother *individual) []calendars.Instant {
	key := slices.Clone(father.key)
	lo, hi := slices.Min(key), slices.Max(key)
	from, to := s.busiest(father, lo, hi)
	span := hi - lo + slices.Max(mother.key) - slices.Min(mother.key) + 2
	for i := range key {
		switch {
		case father.key[i] < from:
			key[i] = mother.key[i] - slices.Min(mother.key) + lo - span
		case father.key[i] > to:
			key[i] = mother.key[i] - slices.Min(mother.key) + hi + 1
		}
	}
	return key
}

// busiest is the stretch, of a random share of the whole between a quarter and
// three quarters, in which an individual's nodes use most: the better half of
// a schedule to hand on.
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
