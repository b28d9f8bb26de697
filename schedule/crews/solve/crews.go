package solve

import (
	"context"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/crews/bound"
	"build.example/turflast/schedule/crews/resources"
	"build.example/turflast/schedule/crews/search"
	"build.example/turflast/schedule/network"
)

// Options say how a crew programme is looked for.
type Options struct {
	Schedules int // most schedules that one search builds; 0: by the size of the plan
	Seed      uint64
	Steps     int                 // of a longer search after the first; 0 for none
	Reference *schedule.Programme // whose starts are kept where that costs nothing; may be nil
	Promise   Promise             // what answers must keep
	Unjudged  bool                // sturdiness is left out: of programmes that are asked only for the aims before it
	Content   calendars.Instant   // a last finish that no sooner one betters; 0 for none
	Progress  func(Progress)      // called with every better programme, by one goroutine at a time; may be nil
}

// Progress is how far a search has come.
type Progress struct {
	Schedules   int               // built so far in the present search
	Finish      calendars.Instant // the last one of the programme found
	Step, Steps int               // of a longer search, the present one and how many; 0 in the first search
	Bound       calendars.Instant // nothing better is done before it; 0 when nothing is proven yet
}

// effort is how many nodes all schedules of one search place together, unless the
// options say otherwise. fewTries and manyTries are the least and the most
// schedules that this may make.
const (
	effort              = 600_000
	fewTries, manyTries = 400, 4000
)

// crewSearch is the search for one crew programme.
type crewSearch struct {
	s         *Solver
	ctx       context.Context
	o         Options
	resources *resources.Set
	schedules int
	proofs    map[question]*proven         // by bounds alone
	proof     bound.Result                 // the last proof
	proved    *resources.Problem           // the problem of the last proof
	asked     question                     // the question that the last proof answers
	provedBy  calendars.Instant            // the line in the problem of the last proof
	raised    map[lifted]calendars.Instant // better bounds than proofs give
	told      *told                        // what crews know, which only a date that breaks may move; nil for nothing
	line      calendars.Instant            // by which all must be done as this part of the search has it; Never for none
	hold      bool                         // none of it starts sooner than told
	step      int                          // of a longer search; 0 in the first search
	begun     []*found                     // the choices of which learning was asked for a first schedule
	kept      calendars.Instant            // the bound as long as none of it is moved; zero without
	alone     *alone                       // the search for the last finish alone; nil before it
	goesOn    bool                         // steps of a longer search go on with it
	stopped   bool                         // the context was done before the search was over
}

// question is what a proof is about.
type question struct {
	all, free bool // without optional tasks; with bookings that may move
	hold      bool // what was told is moved no sooner
}

// found is the best of one search.
type found struct {
	dropped []bool
	free    []bool // deliveries that could be rebooked
	problem *resources.Problem
	search.Result
}

// Crews is the crew programme: no crew, machine, room or gate place is taken
// twice. The search is bounded by work, so that the same plan, options and seed
// give the same programme on any machine; when ctx is done it returns the best so
// far. With steps it goes on after the first search, until nothing better can be.
func (s *Solver) Crews(ctx context.Context, o Options) network.Case {
	l := s.Longer(o)
	l.Step(ctx)
	for k := 0; k < o.Steps && ctx.Err() == nil && !l.Proven(); k++ {
		l.Step(ctx)
	}
	return l.Case()
}

func (s *Solver) crewSearch(ctx context.Context, o Options, most int) *crewSearch {
	c := &crewSearch{
		s: s, ctx: ctx, o: o, resources: s.shared(), schedules: o.Schedules, proofs: make(map[question]*proven),
	}
	c.told, c.line = s.toldBy(o.Reference), o.Promise.line(s.model.Plan)
	if c.schedules == 0 {
		c.schedules = min(Effort(len(s.model.Nodes)), most)
	}
	return c
}

// Effort is how many schedules one search builds for a plan of so many nodes, unless
// the options say otherwise.
func Effort(nodes int) int { return min(max(effort/max(nodes, 1), fewTries), manyTries) }

// best searches in two parts. The first knows no line, and its work is counted alike
// wherever that stands, so that what it finds with the line far away it finds with the
// line near. Only if that is late does the second part look for what is done by the
// line, and it never gives up what the first found for something that is later.
func (c *crewSearch) best() *found {
	line, free := c.line, c.movable()
	c.hold, c.line = c.told != nil, calendars.Never
	best := c.unmoved(nil, free, func(f *found) bool { return c.missed(line, f) })
	if !c.missed(line, best) {
		best = c.settle(c.close(c.rebooked(best, free), free, closing))
	}
	if c.cut() {
		c.line = line
		return c.atOnce(best)
	}
	lone, endless := c.lone(best), best.Cost
	c.goesOn = lone && (free == nil || best.free != nil)
	if lone {
		best = c.sooner(best, line)
	}
	if c.line = line; best.Found {
		c.weigh(best)
	}
	if !lone && (len(c.s.torn()) > 0 || best.late() || best.Cost.Dates(endless) != 0) {
		best = c.byLine(best, free)
	} else {
		best = c.bookBack(best)
	}
	if c.cut() {
		return c.atOnce(best)
	}
	return best
}

// byLine searches with the line, from what was found without, for what may be left out too.
func (c *crewSearch) byLine(best *found, free []bool) *found {
	best = c.rebooked(c.unmoved(best, free, never), free)
	if len(c.s.torn()) > 0 || best.late() && !c.leastLate(best, free) {
		best = c.drop(best)
	}
	return c.settle(c.bookBack(c.close(best, free, closing)))
}

// missed says whether it is proven that a line is missed where that isn't the only date:
// what is searched for is then another programme than without it.
func (c *crewSearch) missed(line calendars.Instant, f *found) bool {
	if !f.Found || calendars.Instant(f.Cost.End) <= line || c.lone(f) {
		return false
	}
	c.prove(f, c.allOptional(), c.movable())
	return c.proof.Finish > line
}

// conclude proves of the best what there is to prove, at last whatever was told.
func (c *crewSearch) conclude(best *found) {
	if c.stopped {
		return
	}
	free := c.movable()
	if c.hold {
		c.prove(best, c.spared(best), free)
		c.kept, c.hold = c.proof.Finish, false
	}
	c.prove(best, c.spared(best), free)
}

// lone says whether the hand-over is the only date, and nothing can be left out for it:
// the earliest finish is then best, wherever the line stands.
func (c *crewSearch) lone(f *found) bool {
	return f.Found && len(f.problem.Dates) == 0 && len(c.optional()) == 0 && c.told == nil
}

// sooner searches for what is done by the line where that is the only date. It works
// without the line, which only says when to end: a nearer one never ends it sooner, so what
// is found is never later.
func (c *crewSearch) sooner(best *found, line calendars.Instant) *found {
	if calendars.Instant(best.Cost.End) <= line || c.perfect(best, nil) {
		return best
	}
	return c.settle(c.turn(best, line))
}

// unmoved searches with all tasks and bookings as they are. What crews were told is held
// to unless something is later for it than it need be. It ends at once when done says so.
func (c *crewSearch) unmoved(best *found, free []bool, done func(*found) bool) *found {
	best = c.staged(best, done)
	if c.hold && !done(best) && best.late() && !c.leastLate(best, free) {
		c.hold = false
		best = c.staged(best, done)
	}
	return best
}

// never says that a search is never done before its time.
func never(*found) bool { return false }

// rebooked searches with other bookings, only if that may gain.
func (c *crewSearch) rebooked(best *found, free []bool) *found {
	if free == nil || c.cut() || c.perfect(best, free) {
		return best
	}
	return better(c.search(choice{free: free, share: c.shareOf(best), enough: c.least()}, best), best)
}

// cut says whether the context is done, so that what is left is left out.
func (c *crewSearch) cut() bool { return c.ctx.Err() != nil }

// atOnce ends a search whose context is done, with the best so far.
func (c *crewSearch) atOnce(best *found) *found {
	c.stopped, c.hold = true, false
	if best.Found {
		c.weigh(best)
	}
	best = c.withoutMissed(best)
	c.prove(best, c.spared(best), c.movable())
	return best
}

// settle chooses among programmes that are equal in the first three aims by the
// others.
func (c *crewSearch) settle(best *found) *found {
	if c.cut() {
		return best
	}
	f := c.search(choice{
		dropped: best.dropped, free: best.free, share: 8, enough: best.Cost, settle: c.schedules / 8,
	}, best)
	if f.Found && f.Cost.Left == 0 && f.Cost.Compare(best.Cost) < 0 {
		return f
	}
	return best
}

// stages are parts of the budget, as divisors. After each, staged checks whether
// the best found can be improved at all; the next search starts from it.
var stages = [...]int{8, 8, 4, 2}

// staged searches with all tasks, and bookings as they are, from what was found before,
// which may be nil. It ends when done says so.
func (c *crewSearch) staged(best *found, done func(*found) bool) *found {
	var enough search.Cost
	for k, share := range stages {
		f := c.search(choice{share: share, enough: enough, stage: k}, best)
		if best == nil || f.Cost.Compare(best.Cost) < 0 {
			best = f
		}
		if done(best) || c.cut() || c.perfect(best, nil) || k > 0 && c.hurried(best) {
			break
		}
		enough = c.least()
	}
	return best
}

// shareOf is the part of the budget, as a divisor, for other bookings and for
// leaving tasks out.
func (c *crewSearch) shareOf(best *found) int {
	if c.hurried(best) {
		return 4
	}
	return 2
}

// hurried says whether to go on at once to other bookings and to leaving tasks
// out: when a date breaks near a programme that met it, they gain most.
func (c *crewSearch) hurried(f *found) bool {
	return c.o.Reference != nil && f.Found && f.late() && (c.movable() != nil || len(c.optional()) > 0)
}

// perfect says whether it is proven that nothing better is possible in the first
// three aims, whatever is done with the free bookings and, while a date breaks,
// with optional tasks.
func (c *crewSearch) perfect(f *found, free []bool) bool {
	if !f.Found {
		return false
	}
	c.prove(f, c.spared(f), free)
	return f.Cost.Dates(c.least()) <= 0
}

// leastLate says whether it is proven that no programme is less late, whatever was told,
// so that nothing is gained by moving that or by leaving optional tasks out.
func (c *crewSearch) leastLate(f *found, free []bool) bool {
	defer func(hold bool) { c.hold = hold }(c.hold)
	c.hold = false
	c.prove(f, c.spared(f), free)
	least := found{Result: search.Result{Cost: c.least()}}
	return f.Found && f.lateness().Dates(least.lateness()) <= 0
}

// spared marks the tasks that a programme better than f might leave out: all that are
// optional if f breaks a date or leaves any out, or else none.
func (c *crewSearch) spared(f *found) []bool {
	if f.late() || f.dropped != nil {
		return c.allOptional()
	}
	return nil
}

// least is the cost that no programme can improve on, by the last proof.
func (c *crewSearch) least() search.Cost {
	late := c.proof.Late
	late[crews.Left] = 0     // what is optional need not be late
	late[crews.Handover] = 0 // the proof may be of another line
	late.Add(crews.Handover, int64(c.proof.Finish)-int64(c.line))
	least := search.Of(late, max(c.proof.Finish, c.o.Content))
	least.Told = c.proof.Told
	return least
}

// late says whether a date breaks.
func (f *found) late() bool { return f.lateness() != (search.Cost{}) }

// lateness is the part of the cost that dropping tasks may lower.
func (f *found) lateness() search.Cost {
	return search.Cost{Late: f.Cost.Late, By: f.Cost.By, Kept: f.Cost.Kept, Left: f.Cost.Left}
}

// better is the one of two that costs less, ties not counted; b when they cost the
// same.
func better(a, b *found) *found {
	if a.Cost.Dates(b.Cost) < 0 {
		return a
	}
	return b
}

// movable says which deliveries may be rebooked; nil when none may.
func (c *crewSearch) movable() []bool {
	var free []bool
	for i := range c.s.model.Plan.Deliveries {
		if c.s.model.Plan.Deliveries[i].Movable != nil {
			if free == nil {
				free = make([]bool, len(c.s.model.Plan.Deliveries))
			}
			free[i] = true
		}
	}
	return free
}

// freed is which deliveries may be rebooked when a date breaks.
func (f *found) freed(c *crewSearch) []bool {
	if f.free != nil {
		return f.free
	}
	return c.movable()
}

// bookBack keeps every booking as it is that needn't move.
func (c *crewSearch) bookBack(f *found) *found {
	if f.free == nil {
		return f
	}
	for d, free := range f.free {
		if !free || c.cut() {
			continue
		}
		held := slices.Clone(f.free)
		held[d] = false
		if f.dropped == nil && !slices.Contains(held, true) {
			break // with all as they are nothing as good was found, or it would have been kept
		}
		g := c.search(choice{dropped: f.dropped, free: held, share: 4, enough: f.Cost}, f)
		if g.Found && g.Cost.Left == 0 && g.Cost.Dates(f.Cost) <= 0 {
			f = g
		}
	}
	return f
}
