package critical

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
)

// Limit holds the latest moments for a node's start, finish and done; Never for no
// limit.
type Limit struct{ Start, Finish, Done calendars.Instant }

// Latest returns the latest start of node i, with its finish, when its followers
// start and finish as given and it finishes at or before upto. The node's own
// dates don't count.
func Latest(n *network.Network, i int, start, finish []calendars.Instant,
	upto calendars.Instant) (s, f calendars.Instant) {
	l := Limit{calendars.Never, upto, calendars.Never}
	l.Follow(n, i, start, finish)
	return PlaceBack(n, &n.Nodes[i], l)
}

// Backward computes the late dates. They don't depend on the early ones. Optional
// nodes bound no others: those have the late dates that they would have without them.
func Backward(n *network.Network, t *network.Times) {
	last := len(n.Nodes) - 1
	if !slices.ContainsFunc(n.Nodes, func(node network.Node) bool { return node.Optional }) {
		backward(n, t, last, 0, all)
		return
	}
	backward(n, t, last, 0, required)
	joints := make(map[int]Limit)
	for i := range n.Nodes {
		if n.Nodes[i].Joint {
			joints[i] = Limit{Start: t.LateStart[i], Finish: t.LateFinish[i]}
		}
	}
	backward(n, t, last, 0, optional)
	for i, was := range joints {
		t.LateStart[i], t.LateFinish[i] = was.Start, was.Finish
	}
}

// which are the nodes whose late dates a pass computes. Joints are always among them.
type which uint8

const (
	all      which = iota
	required       // as if there were no others
	optional       // within the late dates of the others, which are known
)

// has says whether the pass computes the late dates of a node.
func (w which) has(n *network.Node) bool {
	return w == all || n.Joint || n.Optional == (w == optional)
}

// sees says whether a node bounds those of the pass.
func (w which) sees(n *network.Node) bool { return w != required || !n.Optional }

// backward computes the late dates of the nodes of a pass, from highest down to lowest; those of
// the nodes above are in t.
func backward(n *network.Network, t *network.Times, highest, lowest int, of which) {
	sweepBackward(n, t, highest, lowest, nil, of)
	if len(n.Withins) == 0 {
		return
	}
	ceiling := make([]Limit, highest+1)
	for i := range ceiling {
		ceiling[i] = Limit{calendars.Never, calendars.Never, calendars.Never}
	}
	for budget := mostVisits; ; {
		highest := -1
		for i := range n.Withins {
			if w := &n.Withins[i]; of.has(&n.Nodes[w.To]) && of.sees(&n.Nodes[w.From]) && lower(t, w, &ceiling[w.To]) {
				highest = max(highest, int(w.To))
			}
		}
		if highest < 0 {
			return
		}
		if budget -= highest + 1; budget < 0 {
			ceiling[highest].Start = calendars.Past
		}
		sweepBackward(n, t, highest, lowest, ceiling, of)
	}
}

// lower brings the ceiling over w.To down until w holds for the present late date
// of w.From, and says whether that was needed.
func lower(t *network.Times, w *network.Within, over *Limit) bool {
	event := t.LateStart[w.From]
	if w.Kind.FromFinish() {
		event = t.LateFinish[w.From]
	}
	most := event.Plus(w.Most)
	if w.Kind.ToFinish() {
		if t.LateFinish[w.To] <= most {
			return false
		}
		over.Finish = min(over.Finish, most)
		return true
	}
	if t.LateStart[w.To] <= most {
		return false
	}
	over.Start = min(over.Start, most)
	return true
}

// LatestStart is the late start that node i would have without a latest start
// of its own.
func LatestStart(n *network.Network, t *network.Times, i int) calendars.Instant {
	node := &n.Nodes[i]
	l := Limit{calendars.Never, node.LatestFinish, node.LatestDone}
	of := optional
	if !node.Optional {
		of = required
	}
	l.follow(n, i, t.LateStart, t.LateFinish, of)
	start, _ := PlaceBack(n, node, l)
	return start
}

func sweepBackward(n *network.Network, t *network.Times, highest, lowest int, ceiling []Limit, of which) {
	for i := highest; i >= lowest; i-- {
		node := &n.Nodes[i]
		if !of.has(node) {
			continue
		}
		l := Limit{node.LatestStart, node.LatestFinish, node.LatestDone}
		if ceiling != nil {
			l.Start = min(l.Start, ceiling[i].Start)
			l.Finish = min(l.Finish, ceiling[i].Finish)
		}
		l.follow(n, i, t.LateStart, t.LateFinish, of)
		t.LateStart[i], t.LateFinish[i] = PlaceBack(n, node, l)
	}
}

// Follow narrows the limits of node i to what its arcs allow when its followers
// start and finish no later than given.
func (l *Limit) Follow(n *network.Network, i int, start, finish []calendars.Instant) {
	l.follow(n, i, start, finish, all)
}

// follow is Follow within a pass: that of required nodes knows no others.
func (l *Limit) follow(n *network.Network, i int, start, finish []calendars.Instant, of which) {
	for _, s := range n.Out.Of(i) {
		if of.sees(&n.Nodes[s]) {
			l.Done = min(l.Done, start[s])
		}
	}
	ends := n.OutOther.Of(i)
	for k := range ends {
		e := &ends[k]
		if !of.sees(&n.Nodes[e.Node]) {
			continue
		}
		at := start[e.Node]
		if e.Kind.ToFinish() {
			at = finish[e.Node]
		}
		before(n, i, e, at, l)
	}
}

// before narrows the limits of node i so that the arc e lets its follower's event
// be at the moment at.
func before(n *network.Network, i int, e *network.End, at calendars.Instant, l *Limit) {
	if at == calendars.Never {
		return
	}
	if e.Kind.FromFinish() && e.Wait.Kind == schedule.OwnCure {
		l.Done = min(l.Done, at)
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
		l.Start = min(l.Start, event)
		return
	}
	l.Finish = min(l.Finish, event)
	if n.Nodes[i].Hold != network.None {
		l.Finish = min(l.Finish, unsigned(n, &n.Nodes[i], at))
	}
}

// latestBefore returns the latest instant from which a lag leads to the moment at
// or earlier.
func latestBefore(place *calendars.Calendar, at calendars.Instant, lag calendars.Minutes) calendars.Instant {
	if lag >= 0 {
		return place.Subtract(at, lag)
	}
	if at == calendars.Past {
		return at
	}
	// A lead goes back over -lag open minutes. The last instant from which it reaches
	// at or earlier is the start of the last of -lag open minutes counted from at+1.
	if end := place.Add(at+1, -lag); end != calendars.Never {
		return end - 1
	}
	return calendars.Never
}

// unsigned returns the latest finish with which a node's hold point is over by the
// moment at; Past when there is none.
func unsigned(n *network.Network, node *network.Node, at calendars.Instant) calendars.Instant {
	if node.Hold == network.None || at == calendars.Never {
		return at
	}
	h := &n.Holds[node.Hold]
	if at < h.Least {
		return calendars.Past
	}
	switch {
	case h.OnTheClock:
		return notBefore(h.From, at.Plus(-h.Takes))
	case len(h.Appointments) == 0:
		return notBefore(h.From, n.Calendars[node.Place].Subtract(at, h.Takes))
	}
	// The first appointment that is over too late comes after the one that serves.
	k, _ := slices.BinarySearch(h.Appointments, at.Plus(1-h.Takes))
	if k == 0 || h.Appointments[k-1].Plus(h.Takes) < h.Least {
		return calendars.Past
	}
	return notBefore(h.From, h.Appointments[k-1])
}

// notBefore returns at, or Past when at is before from.
func notBefore(from, at calendars.Instant) calendars.Instant {
	if at < from {
		return calendars.Past
	}
	return at
}

// undone returns the latest finish with which a node is done by the moment at.
func undone(n *network.Network, node *network.Node, at calendars.Instant) calendars.Instant {
	if node.Cure == 0 && node.Hold == network.None {
		return at
	}
	return min(at, at.Plus(-node.Cure), unsigned(n, node, at))
}

// PlaceBack returns the latest start of a node within limits, with its finish:
// Never for both when nothing limits it, Past when no opening is early enough.
func PlaceBack(n *network.Network, node *network.Node, l Limit) (start, finish calendars.Instant) {
	if l.Done != calendars.Never {
		l.Finish = min(l.Finish, undone(n, node, l.Done))
	}
	switch {
	case l.Start == calendars.Never && l.Finish == calendars.Never:
		return calendars.Never, calendars.Never
	case node.Work == 0:
		at := min(l.Start, l.Finish)
		if at < n.Line.Start {
			at = calendars.Past
		}
		return at, at
	case node.Unbroken:
		start = n.Calendars[node.Calendar].FitBack(min(l.Start.Plus(node.Work), l.Finish), node.Work)
		return start, start.Plus(node.Work)
	}
	c := n.Calendars[node.Calendar]
	if l.Finish != calendars.Never {
		start, finish = c.PlaceBack(l.Finish, node.Work)
		if start <= l.Start {
			return start, finish
		}
	}
	start = c.Last(l.Start)
	if start == calendars.Past {
		return start, start
	}
	if finish = c.Add(start, node.Work); finish == calendars.Never {
		return c.PlaceBack(calendars.Never, node.Work)
	}
	return start, finish
}
