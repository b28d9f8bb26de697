package odds

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/critical"
)

// tracing finds the hand-over chain of a build.
type tracing struct {
	m      *model
	n      *network.Network // with the working times of the build
	place  []int32          // in the order, by node
	users  [][]user         // by resource
	seen   []int            // the last chain that a node was on
	chains int
}

// user is a node that holds a resource until some minutes after its finish.
type user struct {
	node, amount int32
	after        calendars.Minutes
}

func newTracing(m *model, n *network.Network) tracing {
	x := tracing{
		m: m, n: n, place: make([]int32, len(n.Nodes)), seen: make([]int, len(n.Nodes)),
		users: make([][]user, len(m.Problem.Capacity)),
	}
	for at, k := range m.Order.Nodes {
		x.place[k] = int32(at)
		for _, need := range m.Problem.Modes[k][0].Needs {
			x.users[need.Resource] = append(x.users[need.Resource], user{k, need.Amount, need.After})
		}
	}
	return x
}

// trace counts the nodes on the chain that ends with node last. It goes back from each
// to the one that fixes its start.
func (x *tracing) trace(t *network.Times, last int32, count []int) {
	x.chains++
	for k := last; k != network.None; k = x.before(t, k) {
		if x.seen[k] == x.chains {
			return // waits hold each other in a ring
		}
		x.seen[k] = x.chains
		count[k]++
	}
}

// before returns the node that fixes the start of node k; None when a moment does.
func (x *tracing) before(t *network.Times, k int32) int32 {
	from, first := x.holdsStart(t, k)
	node := &x.n.Nodes[k]
	start, finish := critical.Place(x.n, node, from, calendars.Past)
	if until, by := x.holdsFinish(t, k); until > finish {
		if start, _ = critical.Place(x.n, node, from, until); start >= t.Start[k] {
			return by
		}
		first = by
	}
	if start < t.Start[k] {
		if by := x.lets(t, k, start); by != network.None {
			return by
		}
		if by := x.within(k); by != network.None {
			return by
		}
	}
	return first
}

// holdsStart returns the earliest start that links and hand-ons allow node k, and the
// node that it comes from; None when it comes from a moment.
func (x *tracing) holdsStart(t *network.Times, k int32) (calendars.Instant, int32) {
	from, by := max(x.n.Nodes[k].Earliest, x.m.Least[k]), int32(network.None)
	later := func(at calendars.Instant, node int32) {
		if at > from {
			from, by = at, node
		}
	}
	for _, p := range x.n.In.Of(int(k)) {
		later(t.Done[p], p)
	}
	ends := x.n.InOther.Of(int(k))
	for i := range ends {
		if e := &ends[i]; !e.Kind.ToFinish() {
			later(x.allows(t, k, e), e.Node)
		}
	}
	for _, g := range x.m.Order.Givers[k] {
		later(t.Finish[g], g)
	}
	return from, by
}

// holdsFinish returns the earliest finish that links and hand-ons allow node k, and the
// node that it comes from; Past when nothing limits it.
func (x *tracing) holdsFinish(t *network.Times, k int32) (calendars.Instant, int32) {
	until, by := calendars.Past, int32(network.None)
	ends := x.n.InOther.Of(int(k))
	for i := range ends {
		if e := &ends[i]; e.Kind.ToFinish() {
			if at := x.allows(t, k, e); at > until {
				until, by = at, e.Node
			}
		}
	}
	return until, by
}

func (x *tracing) allows(t *network.Times, k int32, e *network.End) calendars.Instant {
	p := e.Node
	return critical.Waited(x.n, &x.n.Nodes[p], e, x.n.Calendars[x.n.Nodes[k].Place], t.Start[p], t.Finish[p], t.Done[p])
}

// lets returns the node before k in the order that is the last to release what k needs
// and there was too little of until then, if that is later than links let k start; else
// None.
func (x *tracing) lets(t *network.Times, k int32, links calendars.Instant) int32 {
	until, by := links, int32(network.None)
	for _, need := range x.m.Problem.Modes[k][0].Needs {
		for _, u := range x.users[need.Resource] {
			if x.place[u.node] >= x.place[k] {
				break
			}
			at := t.Finish[u.node].Plus(u.after)
			if at > until && at <= t.Start[k] && x.short(t, need.Resource, need.Amount, x.place[k], at-1) {
				until, by = at, u.node
			}
		}
	}
	return by
}

// short says whether, at a moment, what comes before a place in the order leaves less of a
// resource than an amount.
func (x *tracing) short(t *network.Times, resource, amount, place int32, at calendars.Instant) bool {
	for _, u := range x.users[resource] {
		if x.place[u.node] >= place {
			break
		}
		if t.Start[u.node] <= at && at < t.Finish[u.node].Plus(u.after) {
			amount += u.amount
		}
	}
	return int(amount) > x.m.Problem.Capacity[resource].At(at)
}

// within returns a node that must follow k within a longest wait, and so may hold k
// back; None when there is none beside those on the chain.
func (x *tracing) within(k int32) int32 {
	for i := range x.n.Withins {
		if w := &x.n.Withins[i]; w.From == k && x.seen[w.To] != x.chains {
			return w.To
		}
	}
	return network.None
}

// counted turns counts by node into counts by activity.
func (m *model) counted(byNode []int) []int {
	out := make([]int, m.Plan.Activities())
	for i := range m.Plan.Activities() {
		out[i] = byNode[m.Node(i)]
	}
	return out
}
