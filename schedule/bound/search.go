package bound

import (
	"turflast/calendars"
	"turflast/schedule/levelling"
)

// search proves ends impossible: it supposes that all is done by an end, narrows
// the dates as far as that and the resources ask for, and looks for a node
// without a place or a window that is over-full (destructive bounds: Klein and
// Scholl, 1999).
type search struct {
	*dates
	base    *dates // what holds for every end that is still open
	saved   *dates // while a node is probed
	probes  bool   // whether nodes are probed
	window  *Window
	work    int64 // steps taken
	allowed int64 // steps at most
	scratch scan
}

func newSearch(m *model, work int64) *search {
	if work == 0 {
		work = DefaultWork
	}
	return &search{dates: newDates(m), base: newDates(m), saved: newDates(m), allowed: work}
}

// narrowed is a search after the passes; ok is false when some node has no
// place at all.
func narrowed(p *levelling.Problem, o Options) (s *search, ok bool) {
	s = newSearch(newModel(p), o.Work)
	ok = s.passes()
	s.base.copyFrom(s.dates)
	return s, ok
}

// refuted says whether no schedule is done by an end. If that isn't found, what
// was found holds for every earlier end too, and is kept.
func (s *search) refuted(end calendars.Instant) bool {
	s.copyFrom(s.base)
	s.end, s.window = end, nil
	if s.fails() || s.probes && s.probe() {
		return true
	}
	s.base.copyFrom(s.dates)
	return false
}

// fails narrows the dates until nothing moves, and says whether that can't be.
func (s *search) fails() bool {
	if !s.ordered() {
		return true
	}
	for moved := true; moved && s.work < s.allowed; {
		moved = false
		for k, v := range s.views {
			if !s.stale(k, v.nodes) || s.work >= s.allowed {
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

// count counts a view: whether a date moved, and whether it is over-full.
func (s *search) count(k int, v *view) (pushed, full bool) {
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
func (s *search) stale(k int, nodes []int32) bool {
	for _, i := range nodes {
		if s.stamp[i] >= s.seen[k] {
			return true
		}
	}
	return false
}

// ordered brings the dates to what links and pairs ask for.
func (s *search) ordered() bool {
	for {
		s.work += int64(len(s.options)+len(s.pairs)) / 8
		if !s.passes() {
			return false
		}
		moved, ok := s.order()
		if !ok {
			return false
		}
		if moved {
			continue
		}
		if moved, ok = s.seat(); !ok {
			return false
		}
		if !moved {
			return true
		}
	}
}

// seat moves dates to where tables leave room, up to the first that moves any.
func (s *search) seat() (moved, ok bool) {
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

// longest is a step beyond which no end is looked for.
const longest calendars.Minutes = 1 << 28

// narrow is the least end that isn't refuted, from one on up to a known one;
// start is what holds whatever the end.
func (s *search) narrow(start *dates, from, upper calendars.Instant) calendars.Instant {
	s.base.copyFrom(start)
	lo, hi := from, upper
	for step := calendars.Minutes(1); lo < hi; step *= 2 {
		end := min(lo.Plus(step-1), hi-1)
		if !s.refuted(end) {
			hi = end
			break
		}
		if step >= longest {
			return calendars.Never
		}
		lo = end + 1
	}
	for lo < hi && s.work < s.allowed {
		if mid := lo + (hi-lo)/2; s.refuted(mid) {
			lo = mid + 1
		} else {
			hi = mid
		}
	}
	return lo
}

// windowAt is the best window that is over-full if all is done by an end, with
// the dates that the links leave or, if there is none, with those that all else
// leaves.
func (s *search) windowAt(end calendars.Instant) *Window {
	s.end = end
	if !s.passes() {
		return nil
	}
	if w := s.best(); w != nil {
		return w
	}
	if s.window = nil; !s.fails() || s.window == nil {
		return nil
	}
	if w := s.best(); w != nil {
		return w
	}
	return s.window
}

// best is the best over-full window with the dates as they are.
func (s *search) best() *Window {
	var best *Window
	for _, v := range s.views {
		var w *Window
		if v.count == Held {
			w = s.scanHeld(v)
		} else {
			w = s.scan(v, true).found
		}
		if w != nil && w.better(best) {
			best = w
		}
	}
	return best
}

// latestWindow is the best window at the latest end before a bound for which
// there is one, from the end that the links allow on.
func (s *search) latestWindow(from, bound calendars.Instant) *Window {
	var best *Window
	left := s.allowed
	for lo, hi, end := from, bound, bound-1; lo < hi && left > 0; end = lo + (hi-lo)/2 {
		fresh := newSearch(s.model, left)
		w := fresh.windowAt(end)
		s.work += fresh.work
		left -= fresh.work
		if w == nil {
			hi = end
		} else {
			best, lo = w, end+1
		}
	}
	return best
}
