package learner

import (
	"context"
	"slices"

	"build.example/turflast/schedule/internal/together"
)

// Options bound a search.
type Options struct {
	Steps  int64                      // most steps of work of each search; 0 for no limit
	Alone  bool                       // one search only, not two side by side
	Bound  int                        // an end that nothing beats, proven elsewhere
	Known  func() []int               // starts of the best schedule known from elsewhere; nil for none
	Better func(start []int, end int) // called with every better schedule; may be nil
	Raised func(bound int)            // called with every better bound; may be nil

	guide *guide // what the first search tries first; nil for nothing
}

// guide is a schedule to keep near to: starts, and which of its ways each activity takes.
type guide struct{ start, way []int32 }

// Result is what a search came to.
type Result struct {
	Start    []int // of the best schedule; nil when none was found
	End      int   // when it is over
	Bound    int   // no schedule ends sooner
	Proven   bool  // no schedule ends sooner than End or, without a Start, there is none
	Steps    int64 // of work
	DeadEnds int64

	way []int32 // by activity: which of its ways the best schedule takes
}

const (
	// round is the work after which two searches tell each other what they found.
	round = 2_000_000
	// patience is how many dead ends a restart waits for, times a term of luby.
	patience = 100
	// fading is the weight of a dead end relative to the next one.
	fading = 0.95
)

// Solve looks for the schedule that ends soonest, until that is proven, the steps
// are used up or ctx is done. The error says why a problem makes no sense.
func Solve(ctx context.Context, p *Problem, o Options) (Result, error) {
	if err := p.check(); err != nil {
		return Result{}, err
	}
	m, ok := p.model()
	if !ok {
		return Result{Proven: true}, nil
	}
	return m.solve(ctx, o), nil
}

// solve is [Solve] for a model.
func (m *model) solve(ctx context.Context, o Options) Result {
	t := m.begin(ctx, o)
	if t == nil {
		return Result{Proven: true}
	}
	t.together(ctx, o.Steps)
	return t.sum()
}

// begin sets up the searches; nil when there is no schedule.
func (m *model) begin(ctx context.Context, o Options) *talk {
	first := newSolver(ctx, m)
	if first == nil {
		return nil
	}
	t := &talk{o: o, team: []*solver{first}, upper: first.high(first.end) + 1}
	if !o.Alone {
		t.team = append(t.team, newSolver(ctx, m))
		t.team[1].fromBelow = true
	}
	first.keepTo(o.guide)
	t.result.Bound = o.Bound
	return t
}

// together runs all searches, round by round, until nothing better is left, each has done so
// many steps in all or ctx is done.
func (t *talk) together(ctx context.Context, steps int64) {
	for !t.exchange() && ctx.Err() == nil {
		if steps > 0 && t.work >= steps {
			return
		}
		if t.work += round; steps > 0 {
			t.work = min(t.work, steps)
		}
		var all together.Group
		for _, s := range t.team[1:] {
			all.Go(func() { s.run(ctx, t.work) })
		}
		t.team[0].run(ctx, t.work)
		all.Wait()
	}
}

// sum is the result with the work of all searches.
func (t *talk) sum() Result {
	r := t.result
	for _, s := range t.team {
		r.Steps += s.work
		r.DeadEnds += s.deadEnds
	}
	return r
}

// talk is what the searches tell each other.
type talk struct {
	o      Options
	team   []*solver
	work   int64 // of each so far
	result Result
	upper  int32 // ends from here on are of no use
}

// exchange collects the best schedule and bound of all searches and passes them to
// each. It returns true when nothing better is left.
func (t *talk) exchange() bool {
	best := t.gather()
	dead, bound := false, int32(t.result.Bound)
	for _, s := range t.team {
		dead = dead || s.dead
		bound = max(bound, min(s.root[2*s.end], t.upper))
	}
	if dead = dead || bound >= t.upper; dead {
		t.result.Proven = true
		if t.result.Start != nil {
			bound = t.upper
		}
	}
	if int(bound) > t.result.Bound {
		t.result.Bound = int(bound)
		if t.o.Raised != nil {
			t.o.Raised(int(bound))
		}
	}
	for _, s := range t.team {
		s.hear(best, t.upper, bound)
	}
	return dead
}

// gather keeps and returns the best schedule of all searches and from elsewhere;
// nil when none is better than before.
func (t *talk) gather() []int32 {
	var best []int32
	for _, s := range t.team {
		if s.best != nil && s.best[s.end] < t.upper {
			best = s.best
			t.keep(s, best)
		}
	}
	if best != nil && t.o.Better != nil {
		t.o.Better(slices.Clone(t.result.Start), t.result.End)
	}
	if known := t.known(t.team[0]); known != nil {
		t.keep(t.team[0], known)
		best = known
	}
	return best
}

// keep keeps a schedule, with its end, as the best.
func (t *talk) keep(s *solver, best []int32) {
	t.result.Start, t.result.way = make([]int, len(s.activities)), make([]int32, len(s.activities))
	for i := range s.activities {
		t.result.Start[i] = int(best[i])
		for k := range s.activities[i].count {
			if v := s.variable(s.activities[i].first + k); int(v) < len(best) && best[v] == 1 {
				t.result.way[i] = k
			}
		}
	}
	t.upper = best[s.end]
	t.result.End = int(t.upper)
}

// known is the schedule known from elsewhere, or nil when it is no better.
func (t *talk) known(s *solver) []int32 {
	if t.o.Known == nil {
		return nil
	}
	var known []int32
	end := int32(0)
	for _, at := range t.o.Known() {
		known = append(known, int32(at))
	}
	for _, a := range s.ends {
		end = max(end, s.endsAt(a, known))
	}
	if known == nil || end >= t.upper {
		return nil
	}
	return append(known, end)
}

// hear undoes all decisions and takes in what all searches found.
func (s *solver) hear(best []int32, upTo, bound int32) {
	if s.dead {
		return
	}
	s.back(0)
	if best != nil {
		s.best = best
		copy(s.guide, best)
	}
	s.dead = !s.set(upper(s.end, upTo-1), reason{}) || !s.set(lower(s.end, bound), reason{}) || !s.rest()
}

// keepTo makes a schedule that is known from elsewhere the guide for good, until a better
// one is found (solution-guided search: Beck, 2007; from memory). The search needn't find
// its way to schedules as good before it meets dead ends that are worth learning from.
func (s *solver) keepTo(g *guide) {
	if g == nil {
		return
	}
	s.guided = true
	copy(s.guide, g.start)
	for i := range s.activities {
		for k := range s.activities[i].count {
			way := int32(0)
			if k == g.way[i] {
				way = 1
			}
			s.guide[s.variable(s.activities[i].first+k)] = way
		}
	}
}

// rest propagates while there is no decision and makes the bounds permanent. It
// returns false when nothing better is left.
func (s *solver) rest() bool {
	if !s.propagate() {
		return false
	}
	s.settle()
	return true
}

// run searches until the work is done, nothing better is left or ctx is done.
func (s *solver) run(ctx context.Context, work int64) {
	for s.work < work && !s.dead && ctx.Err() == nil {
		s.back(0)
		if s.dead = !s.rest(); s.dead {
			return
		}
		s.thin()
		s.begun++
		s.earliest = s.begun == 1
		s.dive(work, luby(s.begun)*patience)
	}
}

// luby is the k-th number, from 1, of the sequence 1 1 2 1 1 2 4 1 1 2 1 1 2 4 8 …
// (Luby, Sinclair and Zuckerman, 1993; from memory).
func luby(k int64) int64 {
	for size := int64(1); ; size = 2*size + 1 {
		if k == size {
			return (size + 1) / 2
		}
		if k < 2*size+1 {
			return luby(k - size)
		}
	}
}

// dive branches until it has met the given number of dead ends or found a schedule.
func (s *solver) dive(work, deadEnds int64) {
	for until := s.deadEnds + deadEnds; ; {
		if !s.propagate() {
			s.deadEnds++
			s.order.fade(fading)
			if s.level() == 0 || !s.learn() {
				s.dead = true
				return
			}
			continue
		}
		if s.halt.Over() {
			return
		}
		if s.level() == 0 {
			s.settle()
		}
		if s.deadEnds >= until || s.work >= work {
			return
		}
		if !s.choose() {
			s.found()
			return
		}
	}
}

// choose takes a decision. It returns false when nothing is left to decide.
func (s *solver) choose() bool {
	if l := upper(s.end, s.aim()); s.fromBelow && s.level() == 0 && !s.holds(l) {
		s.decide(l)
		return true
	}
	l, ok := s.branch()
	if ok {
		s.decide(l)
	}
	return ok
}

// aim is an end to try for, nearer to the bound than to the best known.
func (s *solver) aim() int32 {
	if s.best == nil {
		return s.high(s.end)
	}
	return s.low(s.end) + (s.high(s.end)-s.low(s.end))/4
}

// found keeps the schedule that the bounds have reached, and requires a better
// one.
func (s *solver) found() {
	s.best = make([]int32, len(s.bound)/2)
	for v := range s.best {
		s.best[v] = s.low(int32(v))
	}
	copy(s.guide, s.best)
	s.back(0)
	s.dead = !s.set(upper(s.end, s.best[s.end]-1), reason{}) || !s.rest()
}
