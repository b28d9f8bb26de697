package bound

import (
	"slices"

	"build.example/turflast/calendars"
)

// telling is the shortest window in which work side by side tells more than a sum.
const telling calendars.Minutes = 10

// atOnce is the window in which nodes must be worked on side by side and need more
// of a resource than is there, the one that lacks most, and of equals the longest,
// then the earliest; nil when there is none. A node must be worked on in the open
// minutes between its latest start and its earliest finish (compulsory parts:
// Lahrichi, 1982).
func (s *narrowing) atOnce() *Window {
	var best *Window
	for _, v := range s.views {
		if v.count != Whole {
			continue
		}
		for _, at := range s.compulsory(v) {
			if s.halt.Steps(len(v.users)) {
				return best
			}
			if w := s.atOnceAt(v, at); w != nil && w.lacksMore(best) {
				best = w
			}
		}
	}
	return best
}

// lack is how many more are needed side by side than there are.
func (w *Window) lack() calendars.Minutes { return (w.Needed - w.There) / w.Span.Minutes() }

// lacksMore compares windows in which nodes are worked on side by side.
func (w *Window) lacksMore(o *Window) bool {
	if o == nil {
		return true
	}
	switch lack, other := w.lack(), o.lack(); {
	case lack != other:
		return lack > other
	case w.Span.Minutes() != o.Span.Minutes():
		return w.Span.Minutes() > o.Span.Minutes()
	}
	return w.Span.Start < o.Span.Start
}

// compulsory lists the moments at which users of a view begin to be worked on at the
// latest, or go on after a pause.
func (s *narrowing) compulsory(v *view) []calendars.Instant {
	var out []calendars.Instant
	for i := range v.users {
		for _, h := range v.users[i].choices {
			if s.out[h.option] || s.ls[h.option] >= s.ef[h.option] {
				continue
			}
			for open := range s.calendar(h.option).Openings(s.ls[h.option], s.ef[h.option]) {
				out = append(out, open.Start)
			}
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// atOnceAt is the window around a moment in which the same users are worked on in any
// case, if that is too much.
func (s *narrowing) atOnceAt(v *view, at calendars.Instant) *Window {
	w := &Window{Resource: v.resource, Count: AtOnce, Until: s.end}
	w.Span = calendars.Span{Start: calendars.Past, End: calendars.Never}
	needed, there := int64(0), int64(s.p.Capacity[v.resource].At(at))
	for i := range v.users {
		amount, span := s.worksAt(&v.users[i], at)
		if amount > 0 {
			w.Span = calendars.Span{Start: max(w.Span.Start, span.Start), End: min(w.Span.End, span.End)}
			w.Nodes = append(w.Nodes, Share{Node: v.users[i].node, Amount: int32(amount)})
			needed += amount
		}
	}
	for step := range s.p.Capacity[v.resource].Steps {
		if step.Start <= at && at < step.End {
			w.Span = calendars.Span{Start: max(w.Span.Start, step.Start), End: min(w.Span.End, step.End)}
		}
	}
	if needed <= there || w.Span.Start < s.n.Line.Start || w.Span.Minutes() < telling {
		return nil
	}
	for i := range w.Nodes {
		w.Nodes[i].Minutes = w.Span.Minutes()
	}
	open := int64(w.Span.Minutes())
	w.measure(needed*open, there*open, open)
	return w
}

// worksAt is the least that a user needs at a moment at which it is worked on in any
// case, and for how long around it; 0 when it needn't be.
func (s *narrowing) worksAt(u *user, at calendars.Instant) (amount int64, span calendars.Span) {
	span = calendars.Span{Start: calendars.Past, End: calendars.Never}
	for k := range u.choices {
		h := &u.choices[k]
		if s.out[h.option] {
			continue
		}
		open, found := s.calendar(h.option).Opening(at)
		from, to := max(s.ls[h.option], open.Start), min(s.ef[h.option], open.End)
		if !found || at < from || at >= to {
			return 0, span
		}
		span = calendars.Span{Start: max(span.Start, from), End: min(span.End, to)}
		if amount == 0 || h.amount < amount {
			amount = h.amount
		}
	}
	return amount, span
}
