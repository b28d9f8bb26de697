package critical

import (
	"turflast/calendars"
	"turflast/schedule"
	"turflast/schedule/network"
)

// limit is the latest moments that a node's start, finish and done may have.
type limit struct{ start, finish, done calendars.Instant }

// Latest puts node i at its latest start when its followers start and finish as
// given and its own finish is at or before upto. Its dates don't count.
func Latest(n *network.Network, i int, start, finish []calendars.Instant, upto calendars.Instant) (s, f calendars.Instant) {
	l := limit{calendars.Never, upto, calendars.Never}
	followers(n, i, start, finish, &l)
	return placeBack(n, &n.Nodes[i], l)
}

// Backward computes the late dates. They don't depend on the early ones.
func Backward(n *network.Network, t *Times) {
	sweepBackward(n, t, len(n.Nodes)-1, nil)
	if len(n.Withins) == 0 {
		return
	}
	ceiling := make([]limit, len(n.Nodes))
	for i := range ceiling {
		ceiling[i] = limit{calendars.Never, calendars.Never, calendars.Never}
	}
	for budget := mostVisits; ; {
		highest := -1
		for i := range n.Withins {
			if w := &n.Withins[i]; lower(t, w, &ceiling[w.To]) {
				highest = max(highest, int(w.To))
			}
		}
		if highest < 0 {
			return
		}
		if budget -= highest + 1; budget < 0 {
			ceiling[highest].start = calendars.Past
		}
		sweepBackward(n, t, highest, ceiling)
	}
}

// lower brings the ceiling over w.To down so far that w holds for the present
// late date of w.From, and says whether it moved.
func lower(t *Times, w *network.Within, over *limit) bool {
	event := t.LateStart[w.From]
	if w.Kind.FromFinish() {
		event = t.LateFinish[w.From]
	}
	most := event.Plus(w.Most)
	if w.Kind.ToFinish() {
		if t.LateFinish[w.To] <= most {
			return false
		}
		over.finish = min(over.finish, most)
		return true
	}
	if t.LateStart[w.To] <= most {
		return false
	}
	over.start = min(over.start, most)
	return true
}

// LatestStart is the late start that node i would have without a latest start
// of its own.
func LatestStart(n *network.Network, t *Times, i int) calendars.Instant {
	node := &n.Nodes[i]
	l := limit{calendars.Never, node.LatestFinish, node.LatestDone}
	followers(n, i, t.LateStart, t.LateFinish, &l)
	start, _ := placeBack(n, node, l)
	return start
}

func sweepBackward(n *network.Network, t *Times, first int, ceiling []limit) {
	for i := first; i >= 0; i-- {
		node := &n.Nodes[i]
		l := limit{node.LatestStart, node.LatestFinish, node.LatestDone}
		if ceiling != nil {
			l.start = min(l.start, ceiling[i].start)
			l.finish = min(l.finish, ceiling[i].finish)
		}
		followers(n, i, t.LateStart, t.LateFinish, &l)
		t.LateStart[i], t.LateFinish[i] = placeBack(n, node, l)
	}
}

// followers narrows a node's limits to what its arcs allow when its followers
// start and finish no later than given.
func followers(n *network.Network, i int, start, finish []calendars.Instant, l *limit) {
	for _, s := range n.Out.Of(i) {
		l.done = min(l.done, start[s])
	}
	ends := n.OutOther.Of(i)
	for k := range ends {
		e := &ends[k]
		at := start[e.Node]
		if e.Kind.ToFinish() {
			at = finish[e.Node]
		}
		before(n, i, e, at, l)
	}
}

// before narrows a node's limits so that an arc from it allows its follower
// the moment at.
func before(n *network.Network, i int, e *network.End, at calendars.Instant, l *limit) {
	if at == calendars.Never {
		return
	}
	if e.Kind.FromFinish() && e.Wait.Kind == schedule.OwnCure {
		l.done = min(l.done, at)
		return
	}
	var event calendars.Instant
	switch e.Wait.Kind {
	case schedule.Lag:
		event = latestBefore(n.Calendars[n.Nodes[e.Node].Place], at, e.Wait.Time)
	case schedule.Cure:
		event = at.Plus(-e.Wait.Time)
	default:
		event = at
	}
	if !e.Kind.FromFinish() {
		l.start = min(l.start, event)
		return
	}
	l.finish = min(l.finish, event)
	if n.Nodes[i].Hold != network.None {
		l.finish = min(l.finish, unsigned(n, &n.Nodes[i], at))
	}
}

// latestBefore is the latest instant from which a lag leads to at or earlier.
func latestBefore(place *calendars.Calendar, at calendars.Instant, lag calendars.Minutes) calendars.Instant {
	if lag >= 0 {
		return place.Subtract(at, lag)
	}
	if at == calendars.Past {
		return at
	}
	// A lead takes an instant back over -lag open minutes; the last instant that
	// it takes to at or earlier is the start of the open minute so far after it.
	if end := place.Add(at+1, -lag); end != calendars.Never {
		return end - 1
	}
	return calendars.Never
}

// unsigned is the latest finish from which a node's hold point is over by at.
func unsigned(n *network.Network, node *network.Node, at calendars.Instant) calendars.Instant {
	if node.Hold == network.None || at == calendars.Never {
		return at
	}
	h := &n.Holds[node.Hold]
	if len(h.Appointments) == 0 {
		return n.Calendars[node.Place].Subtract(at, h.Takes)
	}
	for k := len(h.Appointments) - 1; k >= 0; k-- {
		if a := h.Appointments[k]; a.Plus(h.Takes) <= at {
			return a
		}
	}
	return calendars.Past
}

// undone is the latest finish from which a node is done by at.
func undone(n *network.Network, node *network.Node, at calendars.Instant) calendars.Instant {
	if node.Cure == 0 && node.Hold == network.None {
		return at
	}
	return min(at, at.Plus(-node.Cure), unsigned(n, node, at))
}

// placeBack puts a node at its latest start within limits.
func placeBack(n *network.Network, node *network.Node, l limit) (start, finish calendars.Instant) {
	if l.done != calendars.Never {
		l.finish = min(l.finish, undone(n, node, l.done))
	}
	switch {
	case l.start == calendars.Never && l.finish == calendars.Never:
		return calendars.Never, calendars.Never
	case node.Work == 0:
		at := min(l.start, l.finish)
		if at < n.Line.Start {
			at = calendars.Past
		}
		return at, at
	case node.Unbroken:
		start = n.Calendars[node.Calendar].FitBack(min(l.start.Plus(node.Work), l.finish), node.Work)
		return start, start.Plus(node.Work)
	}
	c := n.Calendars[node.Calendar]
	if l.finish != calendars.Never {
		start, finish = c.PlaceBack(l.finish, node.Work)
		if start <= l.start {
			return start, finish
		}
	}
	start = c.Last(l.start)
	if start == calendars.Past {
		return start, start
	}
	if finish = c.Add(start, node.Work); finish == calendars.Never {
		return c.PlaceBack(calendars.Never, node.Work)
	}
	return start, finish
}
