package search

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule/network/critical"
)

// ready is a node whose predecessors all have places, and the earliest start it
// may still have.
type ready struct {
	node  int32
	start calendars.Instant
}

// dense builds a left-justified schedule by the parallel generation scheme
// (Kelley, 1963): of the nodes that are ready, the one that can start soonest goes
// next, and of several the one with the least key. It works only for networks
// whose arcs are all plain. It returns whether every node has a place; a halt leaves
// some without.
func (b *builder) dense(key []calendars.Instant) bool {
	b.reset()
	n, t := b.n, b.times
	var open []ready
	waits := make([]int, len(n.Nodes)) // predecessors without a place
	for i := range n.Nodes {
		if waits[i] = len(n.In.Of(i)); waits[i] == 0 {
			open = append(open, b.ready(i))
		}
	}
	for len(open) > 0 {
		if b.halt.Steps(len(open)) {
			return false
		}
		next := soonest(open, key)
		i := int(open[next].node)
		start, finish := b.fit(i, open[next].start, calendars.Past)
		if start == calendars.Never {
			return false
		}
		if start > open[next].start {
			open[next].start = start // others may come sooner
			continue
		}
		b.hold(i, start, finish)
		t.Start[i], t.Finish[i], t.Done[i] = start, finish, critical.Done(n, &n.Nodes[i], finish)
		if t.Done[i] == calendars.Never {
			return false
		}
		open[next] = open[len(open)-1]
		open = open[:len(open)-1]
		for _, f := range n.Out.Of(i) {
			if waits[f]--; waits[f] == 0 {
				open = append(open, b.ready(int(f)))
			}
		}
	}
	return true
}

func (b *builder) ready(i int) ready {
	from, until := critical.Held(b.n, b.times, i)
	start, _ := critical.Place(b.n, &b.n.Nodes[i], from, until)
	return ready{int32(i), start}
}

// soonest is the index of the node that can start first; of several the one with
// the least key, and then the first of the network.
func soonest(open []ready, key []calendars.Instant) int {
	best := 0
	for k := range open[1:] {
		switch o, p := &open[k+1], &open[best]; {
		case o.start != p.start:
			if o.start < p.start {
				best = k + 1
			}
		case key[o.node] != key[p.node]:
			if key[o.node] < key[p.node] {
				best = k + 1
			}
		case o.node < p.node:
			best = k + 1
		}
	}
	return best
}
