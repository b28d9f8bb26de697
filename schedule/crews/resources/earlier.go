package resources

import (
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/network"
)

// earlier tells which nodes finish before another starts, whatever slips: links and
// hand-ons lead from the one event to the other. It sees the hand-ons that the order
// has when it is asked.
type earlier struct {
	n *network.Network
	o *crews.Order

	// By node: whether its start and its finish have been reached from the node asked
	// about. Each event reached is in list once.
	start, finish []bool
	list          []event
}

// event is the start or the finish of a node.
type event struct {
	node   int32
	finish bool
}

func newEarlier(n *network.Network, o *crews.Order) *earlier {
	return &earlier{n: n, o: o, start: make([]bool, len(n.Nodes)), finish: make([]bool, len(n.Nodes))}
}

// finishes marks the nodes whose finish comes before the start of node k. The marks
// hold until the next call.
func (e *earlier) finishes(k int32) []bool {
	for _, v := range e.list {
		e.start[v.node], e.finish[v.node] = false, false
	}
	e.list = e.list[:0]
	e.reach(k, false)
	for i := 0; i < len(e.list); i++ {
		e.back(e.list[i])
	}
	return e.finish
}

func (e *earlier) reach(node int32, finish bool) {
	seen := &e.start[node]
	if finish {
		seen = &e.finish[node]
	}
	if !*seen {
		*seen = true
		e.list = append(e.list, event{node, finish})
	}
}

// back reaches the events that come directly before one.
func (e *earlier) back(v event) {
	ends := e.n.InOther.Of(int(v.node))
	for i := range ends {
		if end := &ends[i]; end.Kind.ToFinish() == v.finish && e.waits(end) {
			e.reach(end.Node, end.Kind.FromFinish())
		}
	}
	if v.finish {
		e.reach(v.node, false)
		return
	}
	if e.n.Nodes[v.node].Work == 0 {
		e.reach(v.node, true) // at the same moment
	}
	for _, p := range e.n.In.Of(int(v.node)) {
		e.reach(p, true)
	}
	for _, g := range e.o.Givers[v.node] {
		e.reach(g, true)
	}
}

// waits says whether an arc lets its follower's event be no sooner than the event that
// it comes from, as one with a lead doesn't unless a hold point must be signed first.
func (e *earlier) waits(end *network.End) bool {
	signed := end.Kind.FromFinish() && e.n.Nodes[end.Node].Hold != network.None
	return signed || end.Wait.Kind != schedule.Lag || end.Wait.Time >= 0
}
