package bound

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/internal/halt"
)

// effort is how much is tried to prove an end impossible, the cheapest first.
type effort uint8

const (
	pairing     effort = iota // pairs and tables
	counting                  // and windows between some of the dates
	countingAll               // and between all of them
	probing                   // and supposing that a node starts early or late
)

// coarse is the most points that windows are counted from, and to, below
// countingAll.
const coarse = 64

// narrowing proves ends impossible: it supposes that all is done by an end,
// narrows the dates as far as that and the resources require, and looks for a node
// without a place or an over-full window (destructive bounds: Klein and Scholl,
// 1999).
type narrowing struct {
	*dates
	base    *dates // what holds for every end that is still open
	saved   *dates // while a node is probed
	effort  effort
	plain   bool // leave pairs and tables out
	window  *Window
	work    int64 // steps taken
	allowed int64 // steps at most
	scratch scan
}

func newSearch(m *model, work int64) *narrowing {
	if work == 0 {
		work = DefaultWork(len(m.n.Nodes))
	}
	return &narrowing{dates: newDates(m), base: newDates(m), saved: newDates(m), allowed: work}
}

// narrowed is a search after the passes; ok is false when some node has no
// place at all.
func narrowed(p *crews.Problem, o Options) (s *narrowing, ok bool) {
	s = newSearch(newModel(p, halt.On(o.Context)), o.Work)
	ok = s.passes()
	s.base.copyFrom(s.dates)
	return s, ok
}

// refuted says whether it is proven that no schedule is done by an end. If not,
// the dates found hold for every earlier end too, and are kept.
func (s *narrowing) refuted(end calendars.Instant) bool {
	s.copyFrom(s.base)
	s.end, s.window = end, nil
	if s.fails() || s.effort == probing && s.probe() {
		return true
	}
	s.base.copyFrom(s.dates)
	return false
}

// spent says whether to go no further: the work is done, or the context.
func (s *narrowing) spent() bool { return s.work >= s.allowed || s.halt.Step() }

// fails narrows the dates until nothing moves or the work is spent. It returns
// true when no schedule is left.
func (s *narrowing) fails() bool {
	if !s.ordered() {
		return true
	}
	for moved := s.effort > pairing; moved && !s.spent(); {
		moved = false
		for k, v := range s.views {
			if !s.stale(k, v.nodes) || s.spent() {
				continue
			}
			pushed, full := s.count(k, v)
			if full || pushed && !s.ordered() {
				return true
			}
			moved = moved || pushed
		}
	}
	return false
}

// count counts a view, and says whether a date moved and whether the view is
// over-full.
func (s *narrowing) count(k int, v *view) (pushed, full bool) {
	s.now++
	s.seen[k] = s.now
	if v.count == Held {
		s.window = s.scanHeld(v)
		return false, s.window != nil
	}
	c := s.scan(v, false)
	if c.moved {
		s.now++ // what moves from here on makes the view stale
	}
	s.window = c.found
	return c.moved, c.found != nil
}

// stale says whether the dates of nodes changed since the k-th view or table of
// them was counted.
func (s *narrowing) stale(k int, nodes []int32) bool {
	for _, i := range nodes {
		if s.stamp[i] >= s.seen[k] {
			return true
		}
	}
	return false
}

// ordered narrows the dates to what links, pairs and tables require. It returns
// false when no schedule is left.
func (s *narrowing) ordered() bool {
	for {
		before := s.visits
		placed := s.passes()
		s.work += (s.visits - before + int64(len(s.pairs))) / 8
		if !placed || s.plain {
			return placed
		}
		moved, ok := s.order()
		if s.halt.Over() {
			return true
		}
		if ok && !moved {
			moved, ok = s.seat()
		}
		if !ok || !moved {
			return ok
		}
	}
}

// seat moves dates to where tables leave room, and stops after the first table
// that moves any. ok is false when a table is over-full.
func (s *narrowing) seat() (moved, ok bool) {
	for k, t := range s.tables {
		if !s.stale(len(s.views)+k, t.users) {
			continue
		}
		s.now++
		s.seen[len(s.views)+k] = s.now
		if !s.tabulate(t) {
			return false, false
		}
		if s.fit(t) {
			s.now++
			return true, true
		}
	}
	return false, true
}

// longest is the greatest step with which an end is looked for.
const longest calendars.Minutes = 1 << 28

// narrow returns the least end in whole units from from to upper, or the first after
// it, that isn't refuted, as far as the work allows; Never when none is found. start
// holds the dates that are valid whatever the end.
func (s *narrowing) narrow(start *dates, from, upper calendars.Instant) calendars.Instant {
	s.base.copyFrom(start)
	if upper == calendars.Never && len(s.n.Withins) > 0 && s.effort < probing && s.refuted(calendars.Never) {
		return calendars.Never
	}
	one := s.unit.Length
	lo, hi := from, s.unit.UpTo(upper, from)
	for step := one; lo < hi; step *= 2 {
		end := min(lo.Plus(step-one), hi.Plus(-one))
		if !s.refuted(end) {
			hi = end
			break
		}
		if step >= longest {
			return calendars.Never
		}
		lo = end.Plus(one)
	}
	for lo < hi && !s.spent() {
		if mid := lo.Plus(s.unit.Down(calendars.Minutes(hi-lo) / 2)); s.refuted(mid) {
			lo = mid.Plus(one)
		} else {
			hi = mid
		}
	}
	return lo
}

// latestWindow is the best window at the latest end that has one, among the ends
// from what the links allow up to a bound.
func (s *narrowing) latestWindow(start *dates, from, bound calendars.Instant) *Window {
	var best *Window
	s.allowed = s.work + s.allowed/8
	for lo, hi, end := from, bound, bound-1; lo < hi && !s.spent(); end = lo + (hi-lo)/2 {
		if w := s.windowAt(start, end); w != nil {
			best, lo = w, end+1
		} else {
			hi = end
		}
	}
	return best
}

// windowAt is the best window that is over-full if all is done by an end. It looks
// first with the dates that links leave, then with those that windows narrow too,
// and last with those that pairs and tables narrow as well. Unless it lacks one only, what
// must be worked on side by side is told of the first alone: that it must be may follow
// from what is lacking, and then fewer than all do.
func (s *narrowing) windowAt(start *dates, end calendars.Instant) *Window {
	s.copyFrom(start)
	s.end = end
	if !s.passes() {
		return nil
	}
	if w := s.best(); w != nil {
		return w
	}
	for _, s.plain = range []bool{true, false} {
		s.copyFrom(start)
		s.end, s.window = end, nil
		if full := s.fails() && s.window != nil; !full {
			continue
		}
		s.plain = false
		w := s.window
		if b := s.atOnce(); b != nil && b.lack() == 1 {
			w = b
		} else if b := s.summed(); b != nil {
			w = b
		}
		w.Derived = true
		return w
	}
	return nil
}

// best is the best over-full window with the dates as they are, one in which nodes
// must be worked on side by side before all others.
func (s *narrowing) best() *Window {
	if w := s.atOnce(); w != nil {
		return w
	}
	return s.summed()
}

// summed is the best of those that add up. A few points of each view tell which view has
// it; then all points of that view are tried.
func (s *narrowing) summed() *Window {
	var best *Window
	var in *view
	for _, v := range s.views {
		if s.halt.Now() {
			return best
		}
		if w := s.fullest(v); w != nil && w.better(best) {
			best, in = w, v
		}
	}
	if best == nil {
		return s.bestTurn()
	}
	usual := s.effort
	s.effort = countingAll
	if w := s.fullest(in); w != nil && w.better(best) {
		best = w
	}
	s.effort = usual
	return best
}

// fullest is the best over-full window of a view.
func (s *narrowing) fullest(v *view) *Window {
	if v.count == Held {
		return s.scanHeld(v)
	}
	return s.scan(v, true).found
}
