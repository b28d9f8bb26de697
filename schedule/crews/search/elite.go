package search

import (
	"slices"

	"build.example/turflast/calendars"
)

// These values were set as those of a shake were, by trying a handful.
const (
	// elite is how many schedules are shaken in turn at first.
	elite = 8
	// round is how many schedules are built before the search restarts from other
	// samples, when the budget has room for two rounds. Dates make cliffs, such as a
	// machine's last slot, over which a search may have gone for good, so where there
	// are any, it restarts much sooner.
	round, datedRound = 5000, 100
	// sampled is the share of a round, in hundredths, for building the samples from
	// which the shaken schedules are taken.
	sampled = 10
	// narrowing is the share of the rest of a round, in hundredths, in which all but
	// one of the shaken schedules are given up, the worst first.
	narrowing = 90
	// guiding is the share of the rest of a round, in hundredths, in which schedules
	// are compared by their overdue nodes while dates break.
	guiding = 40
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

// shaking is a few schedules that are shaken in turn.
type shaking struct {
	few    []individual
	tried  map[uint64]bool // right-justified schedules, by hash
	most   int             // how many there were at first
	begun  int             // the schedules built before
	budget int             // how many may be built
}

// rounds shakes samples in rounds. The schedules that a few rounds end with are
// shaken together for as long as those rounds took, and the result counts as that
// of one longer round. A search that goes on later leaves its last round unfinished.
func (s *search) rounds() {
	for again := true; again; again = !s.spent() && !s.paused() {
		if s.now == nil {
			s.now = s.nextRound()
		}
		s.shakeElite(s.now)
		if r := s.now; s.going == nil || len(r.few) == 0 || s.b.built >= r.begun+r.budget {
			s.won, s.now = append(s.won, r.few[:min(1, len(r.few))]...), nil
		}
	}
	s.guide(false)
}

// nextRound begins a round, with samples or with what a few rounds ended with.
func (s *search) nextRound() *shaking {
	size := round
	if len(s.b.p.Dates) > 0 {
		size = datedRound
	}
	begun, left, budget := s.b.built, s.upto-s.b.built, size
	if left < 2*size {
		budget = left
	}
	s.guide(true)
	var pool []individual
	if together := len(s.won) * size; len(s.won) == elite || len(s.won) > 1 && left <= together {
		pool, s.won, budget = s.won, nil, min(left, together)
	} else {
		pool = s.sample(budget)
	}
	if s.going != nil {
		s.o.From = nil // later rounds have to differ
	}
	few := s.distinct(pool)
	return &shaking{
		few: few, tried: make(map[uint64]bool), most: len(few),
		begun: s.b.built, budget: budget - (s.b.built - begun),
	}
}

// sample builds schedules in the order of the starts in Options.From, then of late
// starts, first as they are, then with noise, and justifies those right and left
// (regret-based sampling: Drexl, 1991). It tries the first two kinds whatever the
// budget, until one has a place for all.
func (s *search) sample(budget int) (pop []individual) {
	last := s.b.built + max(budget*sampled/100, 3*elite)
	key := make([]calendars.Instant, len(s.late))
	for k := 0; s.b.built < last && !s.spent() || k <= len(s.o.From) && !s.best.Found; k++ {
		mode := make([]uint8, len(key))
		if k < len(s.o.From) {
			copy(key, s.o.From[k].Start)
			copy(mode, s.o.From[k].Mode)
			s.fillIn(key)
			s.makeCompatible(key)
			if booked := s.bookedAt(s.o.From[k].Start); booked != nil {
				pop = append(pop, s.left(slices.Clone(key), mode, booked))
			}
			pop = append(pop, s.left(key, mode, s.book()))
			continue
		}
		copy(key, s.late)
		if k > len(s.o.From) {
			s.loosen(key, mode)
		}
		x, built := s.draw(key, mode)
		if !built {
			continue
		}
		if s.spent() {
			return append(pop, x)
		}
		if order := s.fromEnd(x.key); s.b.backward(order, slices.Max(x.key)) != calendars.Past && !s.spent() {
			x = s.left(s.b.starts(), mode, x.book)
		}
		pop = append(pop, x)
	}
	return pop
}

// fillIn puts each node whose key is unknown straight before the first that follows
// it, or at the end, so that it takes only what the others leave.
func (s *search) fillIn(key []calendars.Instant) {
	last := slices.Max(key)
	for i := len(key) - 1; i >= 0; i-- {
		if key[i] != calendars.Past {
			continue
		}
		key[i] = last
		for _, f := range s.b.n.Out.Of(i) {
			key[i] = min(key[i], key[f])
		}
		ends := s.b.n.OutOther.Of(i)
		for k := range ends {
			if e := &ends[k]; runsAlong(e.Kind, e.Wait) {
				key[i] = min(key[i], key[e.Node])
			}
		}
	}
}

// draw builds one schedule in the order of the keys: by time where every link is
// plain and no booking may move, else node by node. It returns whether it could.
func (s *search) draw(key []calendars.Instant, mode []uint8) (x individual, built bool) {
	if s.b.against || len(s.b.p.Bookings) > 0 {
		s.makeCompatible(key)
		return s.left(key, mode, s.rebook(s.book())), true
	}
	s.b.use(mode)
	if !s.b.dense(key) {
		return x, false
	}
	x = individual{key: slices.Clone(s.b.times.Finish), mode: mode}
	s.judge(&x)
	return x, true
}

// shakeElite shakes the best of the samples in turn (iterated local search over a
// few schedules): some neighbours in time change their order at random, or take it
// from another of the schedules, and all is justified right and left. A result
// that is no worse replaces the schedule it was shaken from. The best one is the first
// at the end.
func (s *search) shakeElite(of *shaking) {
	key := make([]calendars.Instant, len(s.late))
	begun, budget := of.begun, of.budget
	for len(of.few) > 0 && !s.spent() && !s.paused() && s.b.built < begun+budget {
		if s.guided && s.b.built >= begun+budget*guiding/100 {
			s.guide(false)
			slices.SortStableFunc(of.few, func(a, b individual) int { return s.ordered(&a, &b) })
		}
		keep := of.most - of.most*(s.b.built-begun)*100/(narrowing*max(budget, 1))
		of.few = of.few[:max(1, min(keep, len(of.few)))]
		k := s.r.IntN(len(of.few))
		right, fine := s.shaken(key, of.few, k)
		if !fine {
			continue
		}
		h := right.hash()
		if of.tried[h] {
			continue
		}
		of.tried[h] = true
		if x := s.left(right.key, right.mode, right.book); s.ordered(&x, &of.few[k]) <= 0 {
			of.few[k] = x
			s.rise(of.few, k)
		}
	}
}

// shaken shakes one of a few schedules and justifies it right. It returns whether
// the result is worth justifying left.
func (s *search) shaken(key []calendars.Instant, few []individual, k int) (right individual, fine bool) {
	at := few[k]
	mode, book := at.mode, at.book
	if len(few) > 1 && s.r.IntN(100) < relinked {
		s.takeOrder(key, &at, &few[(k+1+s.r.IntN(len(few)-1))%len(few)])
	} else {
		mode, book = s.shake(key, &at)
	}
	s.b.use(mode)
	end := slices.Max(at.key)
	first := s.b.backward(s.fromEnd(key), end)
	if first == calendars.Past || s.spent() {
		return right, false
	}
	if s.b.due == nil && s.best.Found {
		if span := end - slices.Min(s.best.Start); end-first > span+span/slack {
			return right, false
		}
	}
	return individual{key: s.b.starts(), mode: mode, book: book}, true
}

// distinct is the best schedules that differ, best first.
func (s *search) distinct(pop []individual) (few []individual) {
	slices.SortStableFunc(pop, func(a, b individual) int { return s.ordered(&a, &b) })
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
func (s *search) rise(few []individual, k int) {
	for ; k > 0 && s.ordered(&few[k], &few[k-1]) < 0; k-- {
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
