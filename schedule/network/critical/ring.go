package critical

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
)

// Ring finds nodes whose waits can't all hold, whatever the calendars: a ring of
// arcs and longest waits that requires more clock time than it allows. It returns
// nil when there is none. It doesn't find a ring that only closed hours make
// impossible; after [Forward] the nodes of such a ring have no place.
//
// It looks for a ring of positive length among starts and finishes (Bellman, 1958;
// Ford, 1956; from memory), where each arc is as long as the least clock time that
// it requires.
func Ring(n *network.Network) []int32 {
	if len(n.Withins) == 0 {
		return nil
	}
	r := &ringSearch{n: n, at: make([]int64, 2*len(n.Nodes)), by: make([]int32, 2*len(n.Nodes))}
	for i := range r.by {
		r.by[i] = network.None
	}
	for {
		for i := range n.Nodes {
			r.relaxNode(int32(i))
		}
		moved := false
		for i := range n.Withins {
			w := &n.Withins[i]
			from, to := 2*w.From, 2*w.To
			if w.Kind.FromFinish() {
				from++
			}
			if w.Kind.ToFinish() {
				to++
			}
			moved = r.relax(to, from, -int64(w.Most)) || moved
		}
		if ring := r.closed(); ring != nil {
			return ring
		}
		if !moved {
			return nil
		}
	}
}

// ringSearch holds the greatest distance to each event, starts at even places
// and finishes at odd ones, and the event before it.
type ringSearch struct {
	n  *network.Network
	at []int64
	by []int32
}

func (r *ringSearch) relax(from, to int32, least int64) bool {
	if r.at[from]+least <= r.at[to] {
		return false
	}
	r.at[to] = r.at[from] + least
	r.by[to] = from
	return true
}

// relaxNode relaxes the arcs into a node, and its work between start and finish.
func (r *ringSearch) relaxNode(i int32) {
	n, node := r.n, &r.n.Nodes[i]
	for _, p := range n.In.Of(int(i)) {
		r.relax(2*p+1, 2*i, afterFinish(n, &n.Nodes[p], n.Nodes[p].Cure))
	}
	ends := n.InOther.Of(int(i))
	for k := range ends {
		e := &ends[k]
		from, to, least := 2*e.Node, 2*i, int64(e.Wait.Time)
		if e.Wait.Kind == schedule.Lag && e.Wait.Time < 0 {
			continue // a lead over closed time has no least length
		}
		if e.Kind.ToFinish() {
			to++
		}
		if e.Kind.FromFinish() {
			from++
			wait := e.Wait.Time
			if e.Wait.Kind == schedule.OwnCure {
				wait = n.Nodes[e.Node].Cure
			}
			least = afterFinish(n, &n.Nodes[e.Node], wait)
		}
		r.relax(from, to, least)
	}
	r.relax(2*i, 2*i+1, int64(node.Work))
	if node.Unbroken || node.Work == 0 {
		r.relax(2*i+1, 2*i, -int64(node.Work))
	}
}

// afterFinish is the least clock time from a finish to what waits for it.
func afterFinish(n *network.Network, node *network.Node, wait calendars.Minutes) int64 {
	if node.Hold != network.None {
		wait = max(wait, n.Holds[node.Hold].Takes)
	}
	return int64(wait)
}

// closed returns the nodes of a ring of events whose distances come from one
// another, in the order of the ring's arcs; nil when there is none.
func (r *ringSearch) closed() []int32 {
	mark := make([]int32, len(r.by))
	for i := range r.by {
		at := int32(i)
		for at != network.None && mark[at] == 0 {
			mark[at] = int32(i) + 1
			at = r.by[at]
		}
		if at == network.None || mark[at] != int32(i)+1 {
			continue
		}
		var ring []int32
		for e := at; ; {
			ring = append(ring, e/2)
			if e = r.by[e]; e == at {
				break
			}
		}
		slices.Reverse(ring)
		return slices.Compact(ring)
	}
	return nil
}
