// Package critical computes early and late dates of an activity network by the
// critical path method (Kelley and Walker, 1959; from memory) over calendars, with
// links of every kind and longest waits.
//
// The early dates are the least starts that satisfy every arc, opening and longest
// wait; the late dates are the greatest that also meet the dates of the nodes.
// Both exist because every constraint has the form "this start is at least a
// monotone function of that one", so the feasible starts form a lattice. Without
// longest waits one sweep in topological order finds them. A longest wait runs
// against the order, so the sweeps repeat from the lowest node that such a wait
// moved until nothing moves.
package critical

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
)

// Signed returns when a node's hold point is over if the node finishes at finish:
// finish itself for a node without one, Never when no appointment is left.
func Signed(n *network.Network, node *network.Node, finish calendars.Instant) calendars.Instant {
	if node.Hold == network.None || finish == calendars.Never {
		return finish
	}
	h := &n.Holds[node.Hold]
	signed := signedOnce(n, node, h, finish)
	if h.Right > 0 && signed != calendars.Never {
		return signedOnce(n, node, h, n.Calendars[node.Place].Add(signed, h.Right))
	}
	return signed
}

// signedOnce is when somebody who comes after a finish has looked at a hold point.
func signedOnce(n *network.Network, node *network.Node, h *network.Hold, finish calendars.Instant) calendars.Instant {
	finish = max(finish, h.From)
	switch {
	case h.OnTheClock:
		return max(finish.Plus(h.Takes), h.Least)
	case len(h.Appointments) == 0:
		return max(n.Calendars[node.Place].Add(finish, h.Takes), h.Least)
	}
	k, _ := slices.BinarySearch(h.Appointments, max(finish, h.Least.Plus(-h.Takes)))
	if k == len(h.Appointments) {
		return calendars.Never
	}
	return h.Appointments[k].Plus(h.Takes)
}

// Waited returns the moment from which an arc allows its follower's event, given
// the start, finish and done of the node that it comes from. place is the calendar
// of the follower's place.
func Waited(n *network.Network, from *network.Node, e *network.End, place *calendars.Calendar,
	start, finish, done calendars.Instant,
) calendars.Instant {
	event := start
	if e.Kind.FromFinish() {
		if e.Wait.Kind == schedule.OwnCure {
			return done
		}
		event = finish
	}
	var until calendars.Instant
	switch e.Wait.Kind {
	case schedule.Lag:
		until = place.Add(event, e.Wait.Time)
	case schedule.Cure:
		until = event.Plus(e.Wait.Time)
	default:
		until = event
	}
	if e.Kind.FromFinish() && from.Hold != network.None {
		until = max(until, Signed(n, from, finish))
	}
	return until
}

// Place returns the earliest start of a node at or after from with a finish at or
// after until, and that finish; Never when there is none. A fixed node stays at
// its Earliest.
func Place(n *network.Network, node *network.Node, from, until calendars.Instant) (start, finish calendars.Instant) {
	switch {
	case node.Fixed:
		return node.Earliest, node.Earliest
	case from == calendars.Never || until == calendars.Never:
		return calendars.Never, calendars.Never
	case node.Work == 0:
		at := max(from, until)
		if at >= n.Line.End {
			at = calendars.Never
		}
		return at, at
	case node.Unbroken:
		start = n.Calendars[node.Calendar].Fit(max(from, until.Plus(-node.Work)), node.Work)
		return start, start.Plus(node.Work)
	}
	c := n.Calendars[node.Calendar]
	start, finish = c.Place(from, node.Work)
	if finish < until {
		return c.PlaceUntil(until, node.Work)
	}
	return start, finish
}

// Forward computes the early dates. Each sweep takes time linear in nodes and
// arcs; without longest waits there is one.
func Forward(n *network.Network, t *network.Times) { Apart(n, t, nil) }

// Way is another way to do a node.
type Way struct {
	Work     calendars.Minutes
	Calendar int32 // index of Network.Calendars
}

// Apart computes the early dates when each node has other ways to be done, by place in
// Nodes: its start is the earliest that any way allows, and so is its finish, each
// apart from the other, as no one way need have both. No choice of ways gives an
// earlier date. ways may be nil.
func Apart(n *network.Network, t *network.Times, ways [][]Way) {
	sweepForward(n, t, 0, nil, ways)
	if len(n.Withins) == 0 {
		return
	}
	floor := make([]Limit, len(n.Nodes))
	for i := range floor {
		floor[i] = Limit{Start: calendars.Past, Finish: calendars.Past}
	}
	for budget := mostVisits; ; {
		lowest := len(n.Nodes)
		for i := range n.Withins {
			if w := &n.Withins[i]; raise(t, w, floor) {
				lowest = min(lowest, int(w.From))
			}
		}
		if lowest == len(n.Nodes) {
			return
		}
		if budget -= len(n.Nodes) - lowest; budget < 0 {
			giveUp(n, t, floor)
		}
		sweepForward(n, t, lowest, floor, ways)
	}
}

// mostVisits bounds the nodes visited while longest waits push each other on.
// Waits that settle do so in a few sweeps; those that can't all hold creep to
// the end of the line, by a day or more a round when calendars cause it.
const mostVisits = 50_000_000

// giveUp takes the place from all nodes whose longest waits still don't hold.
func giveUp(n *network.Network, t *network.Times, floor []Limit) {
	for i := range n.Withins {
		if w := &n.Withins[i]; raise(t, w, floor) {
			floor[w.From].Start = calendars.Never
		}
	}
}

// raise lifts the floor under the start or finish of w.From until w holds for the present
// event of w.To, and says whether that was needed.
func raise(t *network.Times, w *network.Within, floor []Limit) bool {
	event, follows := w.Events(t.Start, t.Finish)
	need := follows.Plus(-w.Most)
	if event >= need {
		return false
	}
	if l := &floor[w.From]; w.Kind.FromFinish() {
		l.Finish = max(l.Finish, need)
	} else {
		l.Start = max(l.Start, need)
	}
	return true
}

func sweepForward(n *network.Network, t *network.Times, first int, floor []Limit, ways [][]Way) {
	for i := first; i < len(n.Nodes); i++ {
		from, until := Held(n, t, i)
		if floor != nil {
			from, until = max(from, floor[i].Start), max(until, floor[i].Finish)
		}
		start, finish := placeApart(n, i, from, until, ways)
		t.Start[i], t.Finish[i], t.Done[i] = start, finish, Done(n, &n.Nodes[i], finish)
	}
}

// placeApart is Place for the earliest start and finish of any way to do node i.
func placeApart(n *network.Network, i int, from, until calendars.Instant,
	ways [][]Way) (start, finish calendars.Instant) {
	start, finish = Place(n, &n.Nodes[i], from, until)
	if ways == nil {
		return start, finish
	}
	node := n.Nodes[i]
	for _, w := range ways[i] {
		node.Work, node.Calendar = w.Work, w.Calendar
		s, f := Place(n, &node, from, until)
		start, finish = min(start, s), min(finish, f)
	}
	return start, finish
}

// Held returns the least start and the least finish that node i's own earliest
// start and the arcs into it allow when its predecessors are placed as in t.
func Held(n *network.Network, t *network.Times, i int) (start, finish calendars.Instant) {
	start, finish = n.Nodes[i].Earliest, calendars.Past
	for _, p := range n.In.Of(i) {
		start = max(start, t.Done[p])
	}
	if len(n.InOther.First) > 0 {
		return heldByOther(n, t, i, start)
	}
	return start, finish
}

// Done returns when a node that finishes at finish is done, with its cure and hold
// point over.
func Done(n *network.Network, node *network.Node, finish calendars.Instant) calendars.Instant {
	if node.Cure > 0 || node.Hold != network.None {
		return max(finish.Plus(node.Cure), Signed(n, node, finish))
	}
	return finish
}

// heldByOther returns the least start, at or after from, and the least finish that
// the arcs into node i that are not plain allow.
func heldByOther(n *network.Network, t *network.Times, i int,
	from calendars.Instant) (start, finish calendars.Instant) {
	start, finish = from, calendars.Past
	ends := n.InOther.Of(i)
	for k := range ends {
		e := &ends[k]
		p := e.Node
		at := Waited(n, &n.Nodes[p], e, n.Calendars[n.Nodes[i].Place], t.Start[p], t.Finish[p], t.Done[p])
		if e.Kind.ToFinish() {
			finish = max(finish, at)
		} else {
			start = max(start, at)
		}
	}
	return start, finish
}
