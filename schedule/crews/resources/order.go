package resources

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/internal/halt"
	"build.example/turflast/schedule/network"
)

// OrderOf returns the order of hands of a programme, without Late. The problem
// must leave no choice: every task has the heads of its first mode, and bookings
// stay as they are.
//
// Nodes are in the order of their starts. At equal starts, nodes that take no time
// come first, then tasks, then unloadings, as the plan lists them. In that order each
// user of a crew, machine, zone or the gate takes what it needs: first from those
// whose finish comes before its start whatever slips, as links, rules and what has
// been handed on so far say, then what nobody has used yet, then from others that
// have finished. So a programme is given no tie that it can do without. Among the
// first, and among the last, the earliest finish comes first, then the order of the
// plan (a resource flow: Artigues, Michelon and Reusser, 2003; from memory).
func OrderOf(set *Set, p *Problem, t *network.Times) crews.Order {
	o, _ := OrderUntil(halt.Halt{}, set, p, t)
	return o
}

// OrderUntil is OrderOf; ok is false, and the order means nothing, when it was halted.
func OrderUntil(h halt.Halt, set *Set, p *Problem, t *network.Times) (o crews.Order, ok bool) {
	return order(h, set, p, t, calendars.Past)
}

// OrderFrom is OrderOf as at a moment: what is over by then has nothing to hand on any more, so
// that whoever had it is free to others.
func OrderFrom(set *Set, p *Problem, t *network.Times, from calendars.Instant) crews.Order {
	o, _ := order(halt.Halt{}, set, p, t, from)
	return o
}

func order(h halt.Halt, set *Set, p *Problem, t *network.Times, from calendars.Instant) (o crews.Order, ok bool) {
	o = crews.Order{
		Nodes: sequence(p.Net, t), Times: t,
		Givers: make([][]int32, len(p.Net.Nodes)), Takers: make([][]int32, len(p.Net.Nodes)),
	}
	return o, handOn(&h, set, p, &o, from)
}

// sequence returns all nodes in the order that OrderOf describes.
func sequence(n *network.Network, t *network.Times) []int32 {
	out := make([]int32, len(n.Nodes))
	for k := range out {
		out[k] = int32(k)
	}
	slices.SortFunc(out, func(a, b int32) int {
		shortA, shortB := t.Start[a] == t.Finish[a], t.Start[b] == t.Finish[b]
		switch by := cmp.Compare(t.Start[a], t.Start[b]); {
		case by != 0:
			return by
		case shortA != shortB:
			if shortA {
				return -1
			}
			return 1
		case shortA:
			return int(a - b) // links run from lower to higher
		}
		return int(n.Spec[a] - n.Spec[b])
	})
	return out
}

// pool is who has a resource to hand on.
type pool struct {
	unused int
	users  []user // by finish, then as the plan lists them
}

// user is a node that has used a resource, and how much it has not handed on yet.
type user struct {
	node, number int32
	finish       calendars.Instant
	left         int
}

// handOn finds who hands on to whom from a moment on, and says whether it wasn't halted. A node
// that takes no time takes nothing.
func handOn(h *halt.Halt, set *Set, p *Problem, o *crews.Order, from calendars.Instant) bool {
	pools := make([]pool, len(set.Resources))
	for r := range pools {
		pools[r].unused = set.Capacity[r].Max()
	}
	earlier := newEarlier(p.Net, o)
	for _, k := range o.Nodes {
		if o.Times.Start[k] == o.Times.Finish[k] || o.Times.Finish[k] <= from {
			continue
		}
		before := earlier.finishes(k)
		if h.Steps(1 + len(earlier.list)) {
			return false
		}
		for _, need := range p.Modes[k][0].Needs {
			if set.Resources[need.Resource].Kind == Alone {
				continue
			}
			pool := &pools[need.Resource]
			if h.Steps(len(pool.users)) {
				return false
			}
			for _, g := range pool.take(int(need.Amount), o.Times.Start[k], before) {
				link(o, g, k)
			}
			pool.add(user{k, p.Net.Spec[k], o.Times.Finish[k], int(need.Amount)})
		}
	}
	return true
}

// take takes an amount for a node with the given start, and returns those who hand it
// on. before marks the nodes that finish before that start whatever slips.
func (p *pool) take(wants int, start calendars.Instant, before []bool) (from []int32) {
	give := func(surely bool) {
		for i := range p.users {
			u := &p.users[i]
			if gives := min(wants, u.left); gives > 0 && u.finish <= start && before[u.node] == surely {
				u.left -= gives
				wants -= gives
				from = append(from, u.node)
			}
		}
	}
	give(true)
	fresh := min(wants, p.unused)
	p.unused -= fresh
	wants -= fresh
	give(false)
	p.users = slices.DeleteFunc(p.users, func(u user) bool { return u.left == 0 })
	return from
}

func (p *pool) add(u user) {
	at, _ := slices.BinarySearchFunc(p.users, u, func(a, b user) int {
		return cmp.Or(cmp.Compare(a.finish, b.finish), cmp.Compare(a.number, b.number))
	})
	p.users = slices.Insert(p.users, at, u)
}

func link(o *crews.Order, giver, taker int32) {
	if !slices.Contains(o.Takers[giver], taker) {
		o.Takers[giver] = append(o.Takers[giver], taker)
		o.Givers[taker] = append(o.Givers[taker], giver)
	}
}
