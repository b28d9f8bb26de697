package bound

import (
	"slices"

	"build.example/turflast/calendars"
)

// mostHeld bounds the users of a view that counts what is held through pauses:
// every window looks at all of them.
const mostHeld = 32

// heldView adds a view that also counts the pauses of nodes that hold a resource
// through them. It adds none when there are no such nodes or too many users.
func (m *model) heldView(whole *view) {
	stays := false
	for i := range whole.users {
		for k := range whole.users[i].choices {
			stays = stays || whole.users[i].choices[k].stays > 0
		}
	}
	if !stays || len(whole.users) > mostHeld {
		return
	}
	v := *whole
	v.count, v.there = Held, level{}
	for s, count := range m.p.Capacity[v.resource].Steps {
		if s.Start < s.End {
			v.there.add(calendars.Span{Start: max(s.Start, m.n.Line.Start), End: min(s.End, m.n.Line.End)}, int64(count))
		}
	}
	m.views = append(m.views, &v)
}

// holding is the least clock time for which an option holds something in a window:
// the greatest of the time that it must be worked on there, the part of the window
// between its latest start and its earliest finish and, when it must lie inside,
// the shortest time that it can take.
func (s *narrowing) holding(h *choice, w calendars.Span, shortest calendars.Minutes) calendars.Minutes {
	o := h.option
	from, to := max(s.ls[o], w.Start), min(s.ef[o].Plus(h.after), w.End)
	held := max(0, calendars.Minutes(to-from), s.working(h, w))
	if s.es[o] >= w.Start && s.lf[o] != calendars.Never && s.lf[o].Plus(h.after) <= w.End {
		held = max(held, shortest+h.after)
	}
	return held
}

// working is the open minutes that an option must be worked on in a window.
func (s *narrowing) working(h *choice, w calendars.Span) calendars.Minutes {
	c, o := s.calendar(h.option), h.option
	early := c.Between(max(s.es[o], w.Start), min(s.ef[o], w.End))
	late := c.Between(max(s.ls[o], w.Start), min(s.lf[o], w.End))
	return max(0, min(early, late))
}

// shortest is the least clock time from an option's start to its finish. It is
// reached where the option starts with an opening or ends with one, or where it
// starts as early or as late as it may.
func (s *narrowing) shortest(o int32) calendars.Minutes {
	option, c := &s.options[o], s.calendar(o)
	if option.Unbroken || option.Work == 0 || s.ls[o] == calendars.Never {
		return option.Work
	}
	least := min(s.ef[o]-s.es[o], s.lf[o]-s.ls[o])
	for open := range c.Openings(s.es[o], s.lf[o]) {
		if start, finish := c.Place(open.Start, option.Work); start <= s.ls[o] {
			least = min(least, finish-start)
		}
		if start, finish := c.PlaceBack(open.End, option.Work); start >= s.es[o] {
			least = min(least, finish-start)
		}
	}
	return calendars.Minutes(least)
}

// scanHeld looks for the best over-full window of a view that counts pauses.
func (s *narrowing) scanHeld(v *view) *Window {
	var starts, ends []calendars.Instant
	shortest := make([][]calendars.Minutes, len(v.users))
	for i := range v.users {
		for _, h := range v.users[i].choices {
			shortest[i] = append(shortest[i], s.shortest(h.option))
			if !s.out[h.option] && s.lf[h.option] != calendars.Never {
				starts = append(starts, s.es[h.option], s.ls[h.option])
				ends = append(ends, s.ef[h.option].Plus(h.after), s.lf[h.option].Plus(h.after))
			}
		}
	}
	slices.Sort(starts)
	slices.Sort(ends)
	starts, ends = slices.Compact(starts), slices.Compact(ends)
	var best *Window
	for _, from := range starts {
		first, _ := slices.BinarySearch(ends, from+1)
		for _, to := range ends[first:] {
			if s.spent() {
				return best
			}
			w := s.heldIn(v, calendars.Span{Start: from, End: to}, shortest)
			if w != nil && w.better(best) {
				best = w
			}
		}
	}
	return best
}

// heldIn is the window of a span when it is over-full, else nil.
func (s *narrowing) heldIn(v *view, span calendars.Span, shortest [][]calendars.Minutes) *Window {
	s.work += int64(len(v.users))
	w := &Window{Resource: v.resource, Count: Held, Span: span, Until: s.end}
	needed := int64(0)
	for i := range v.users {
		u := &v.users[i]
		least, share := int64(-1), Share{}
		for k := range u.choices {
			h := &u.choices[k]
			if s.out[h.option] {
				continue
			}
			minutes, amount := s.working(h, span), h.amount
			if h.stays > 0 {
				held := s.holding(h, span, shortest[i][k])
				if h.stays*int64(held) >= h.amount*int64(minutes) {
					minutes, amount = held, h.stays
				}
			}
			if spent := int64(minutes) * amount; least < 0 || spent < least {
				least, share = spent, Share{u.node, minutes, int32(amount)}
			}
		}
		if least > 0 {
			needed += least
			w.Nodes = append(w.Nodes, share)
		}
	}
	there, open := v.there.before(span.End)
	less, shut := v.there.before(span.Start)
	if w.measure(needed, there-less, open-shut); needed <= there-less {
		return nil
	}
	return w
}
