package search

import (
	"context"
	"math/rand/v2"
	"slices"
	"sync"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/internal/halt"
	"build.example/turflast/schedule/internal/together"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/critical"
)

// Options bound a search.
type Options struct {
	Schedules int // most schedules to build, of all searches together
	Searches  int // independent searches, side by side, that share the budget; 0 for one
	Seed      uint64
	Enough    Cost         // the search ends when dates cost no more, ties apart; zero for never
	Settle    int          // most schedules to build for the ties after that
	Wanted    *From        // starts to keep if nothing but ties is lost; nil for none
	From      []From       // schedules whose order is tried first
	Equal     int          // most schedules to return that cost as little as the best, ties apart
	Better    func(Result) // called with every better schedule, by one search at a time; may be nil
}

// From is a schedule of the same or a like problem.
type From struct {
	Start []calendars.Instant // by node; Past for what is not known
	Mode  []uint8             // nil: the first modes
}

// Result is the best schedule found.
type Result struct {
	Start, Finish, Done []calendars.Instant // by place in Net.Nodes
	Mode                []uint8             // by place in Net.Nodes
	Cost                Cost
	Found               bool
	Schedules           int    // built
	Equal               []From // different schedules that cost as little, ties apart; at most Options.Equal of each search
}

// Search looks for the schedule that costs least. It stops at the budget, at a
// cost that is enough, or when ctx is done, within a schedule, and always returns the
// best so far; then at least that of one order, if it gives all a place. The result
// doesn't depend on how many processors there are.
func Search(ctx context.Context, p *crews.Problem, o Options) (Result, error) {
	if err := check(p); err != nil {
		return Result{}, err
	}
	count := max(o.Searches, 1)
	if ctx.Err() != nil {
		count = 1 // only one builds a schedule then
	}
	found := make([]Result, count)
	tell := telling(o.Better)
	var all together.Group
	for k := range count {
		own := o
		own.Schedules = (o.Schedules + count - 1 - k) / count
		own.Better = tell
		all.Go(func() { found[k] = newSearch(ctx, p, own, uint64(k)).run() })
	}
	all.Wait()
	best := found[0]
	for _, f := range found[1:] {
		built, equal := best.Schedules+f.Schedules, best.Equal
		switch by := f.Cost.Dates(best.Cost); {
		case by == 0:
			equal = append(equal, f.Equal...)
		case by < 0:
			equal = f.Equal
		}
		if f.Found && f.Cost.Compare(best.Cost) < 0 {
			best = f
		}
		best.Schedules, best.Equal = built, equal
	}
	return best, nil
}

// telling wraps better so that it is called only with schedules better than all
// before, whichever search found them.
func telling(better func(Result)) func(Result) {
	if better == nil {
		return nil
	}
	var mu sync.Mutex
	least := worst
	return func(r Result) {
		mu.Lock()
		defer mu.Unlock()
		if r.Cost.Compare(least) < 0 {
			least = r.Cost
			better(r)
		}
	}
}

// search is one run of a search.
type search struct {
	ctx    context.Context
	number uint64 // of several, from 0
	b      *builder
	o      Options
	r      *rand.Rand
	best   Result
	equals equals
	upto   int // schedules after which the present part of the search ends

	late   []calendars.Instant // late starts without resources, the priority of the first schedules
	due    []calendars.Instant // finishes that the dates require, without resources; Never for none
	order  []int32             // scratch
	words  []int64             // scratch
	tardy  []int32             // scratch
	ranged []int32             // nodes with more than one mode
	guided bool                // see guide

	won   []individual // what rounds ended with
	now   *shaking     // the round that isn't over; nil for none
	going *pause       // when a search that goes on later pauses; nil for one that doesn't
}

// individual is a schedule. Its keys are its finishes when it is left-justified
// and its starts when it is right-justified: taking nodes by key from the far end
// justifies it the other way and never makes it longer.
type individual struct {
	key     []calendars.Instant
	mode    []uint8
	book    []calendars.Instant // least starts of Bookings
	overdue int64               // minutes that all nodes together are late, of a left-justified schedule
	cost    Cost                // of a left-justified schedule; End is the span of a right-justified one
}

func newSearch(ctx context.Context, p *crews.Problem, o Options, number uint64) *search {
	s := &search{
		ctx: ctx, number: number, b: newBuilder(p), o: o, r: rand.New(rand.NewPCG(o.Seed+number<<32, 0x7475_7266)),
		best: Result{Cost: worst},
	}
	s.b.halt = halt.On(ctx)
	s.prepare()
	return s
}

func (s *search) prepare() {
	n := s.b.n
	t := network.NewTimes(n)
	critical.Forward(n, t)
	end := calendars.Past
	for i := range n.Nodes {
		if t.Done[i] != calendars.Never {
			end = max(end, t.Done[i])
		}
	}
	s.aim(t, end)
	for i, modes := range s.b.p.Modes {
		if len(modes) > 1 {
			s.ranged = append(s.ranged, int32(i))
		}
	}
	s.order = make([]int32, len(n.Nodes))
	if len(s.b.p.Bookings) > 0 {
		s.b.least = make([]calendars.Instant, len(n.Nodes))
		for i := range s.b.least {
			s.b.least[i] = calendars.Past
		}
	}
}

// aim sets the late starts when all is done by end, and the finishes that the
// dates require. It needs the early dates.
func (s *search) aim(t *network.Times, end calendars.Instant) {
	n := s.b.n
	s.late = make([]calendars.Instant, len(n.Nodes))
	finish := make([]calendars.Instant, len(n.Nodes))
	critical.Backward(n, t)
	for i := len(n.Nodes) - 1; i >= 0; i-- {
		s.late[i], finish[i] = critical.Latest(n, i, s.late, finish, end)
	}
	s.due = slices.Clone(t.LateFinish)
	for i, due := range s.due {
		if due == calendars.Past { // no finish is early enough
			s.due[i] = calendars.Never
		}
	}
	for i := range n.Nodes {
		// The dates may require an earlier start.
		switch late := t.LateStart[i]; {
		case late == calendars.Past:
			s.late[i] = min(s.late[i], t.Start[i])
		case late != calendars.Never:
			s.late[i] = min(s.late[i], late)
		}
	}
}

func (s *search) spent() bool {
	return s.b.built >= s.upto || s.enough() || s.ctx.Err() != nil
}

// enough says whether what was found costs no more than is enough.
func (s *search) enough() bool { return s.best.Found && s.best.Cost.Dates(s.o.Enough) <= 0 }

// byKey orders all nodes by key, ties in the order of the network, which every
// arc runs along.
func (s *search) byKey(key []calendars.Instant) []int32 {
	// Key and node in one word sort much faster than nodes by their keys.
	words := s.words[:0]
	for i, k := range key {
		words = append(words, int64(k)<<32|int64(i))
	}
	slices.Sort(words)
	s.words = words
	for at, w := range words {
		s.order[at] = int32(w & 0xffff_ffff)
	}
	return s.order
}

// left builds the left-justified schedule that takes nodes by key, and keeps it
// if it is the best so far.
func (s *search) left(key []calendars.Instant, mode []uint8, book []calendars.Instant) individual {
	s.b.use(mode)
	s.takeBookings(book)
	if s.b.against {
		s.makeCompatible(key)
	}
	x := individual{mode: mode, book: book, cost: worst, overdue: nowhere}
	for tries := 0; !s.b.forward(s.byKey(key)); tries++ {
		if tries == mostTies || !s.b.raised || s.built() {
			x.key = s.ranks(key)
			return x
		}
		s.tie(key)
	}
	x.key = slices.Clone(s.b.times.Finish)
	s.judge(&x)
	return x
}

// judge weighs the left-justified schedule just built, and keeps it if it is the
// best so far.
func (s *search) judge(x *individual) {
	x.cost, x.overdue = s.b.cost(), 0
	if x.cost.late() {
		x.overdue = s.overdue(s.b.times.Finish)
	}
	s.keep(&x.cost)
	if s.guided && !s.best.Cost.late() {
		s.guide(false)
	}
}

// overdue is how late the nodes are, all together, for the dates that depend on
// them. It shows progress before the dates themselves do: it falls well before a
// lorry comes on an earlier day, or the last of many late nodes is done sooner.
func (s *search) overdue(finish []calendars.Instant) (minutes int64) {
	for i, due := range s.due {
		if due.IsReal() && finish[i] > due {
			minutes += int64(finish[i] - due)
		}
	}
	return minutes
}

// mostTies is how often left repairs an order in which longest waits push each
// other on.
const mostTies = 3

// built says whether the budget is spent or the context done.
func (s *search) built() bool { return s.b.built >= s.upto || s.ctx.Err() != nil }

// tie moves each node that breaks a longest wait in the schedule just built to
// straight after the node that the wait runs from, so that nothing comes between but
// what it follows.
func (s *search) tie(key []calendars.Instant) {
	t := s.b.times
	for k := range s.b.n.Withins {
		w := &s.b.n.Withins[k]
		event, follows := w.Events(t.Start, t.Finish)
		if follows <= event.Plus(w.Most) {
			continue
		}
		at := key[w.From]
		for i := range key {
			if key[i] > at || key[i] == at && int32(i) > w.From {
				key[i]++
			}
		}
		s.pull(key, int(w.To), at)
	}
	s.makeCompatible(key)
}

// ranks returns keys for the same order that lie close together. Without them, the
// keys of schedules in which some node has no place would grow without limit when
// they are crossed again and again.
func (s *search) ranks(key []calendars.Instant) []calendars.Instant {
	out := make([]calendars.Instant, len(key))
	least := slices.Min(s.late)
	for rank, i := range s.byKey(key) {
		out[i] = least + calendars.Instant(rank)
	}
	return out
}

// keep keeps the schedule just built if it is the best so far.
func (s *search) keep(c *Cost) {
	if s.best.Found && c.Dates(s.best.Cost) > 0 {
		return
	}
	t := s.b.times
	if s.o.Equal > 0 {
		s.equals.add(t.Start, s.b.mode, s.o.Equal, !s.best.Found || c.Dates(s.best.Cost) < 0)
	}
	if s.b.p.Tie != nil {
		c.Tie = s.b.p.Tie(t, s.b.mode)
	}
	if s.best.Found && c.Compare(s.best.Cost) >= 0 {
		return
	}
	s.best = Result{
		Start: slices.Clone(t.Start), Finish: slices.Clone(t.Finish), Done: slices.Clone(t.Done),
		Mode: slices.Clone(s.b.mode), Cost: *c, Found: true, Schedules: s.b.built,
	}
	if s.o.Better != nil {
		s.o.Better(s.best)
	}
}

// takeBookings sets the least starts of the bookings' nodes.
func (s *search) takeBookings(book []calendars.Instant) {
	for k, at := range book {
		s.b.least[s.b.p.Bookings[k].Node] = at
	}
}
