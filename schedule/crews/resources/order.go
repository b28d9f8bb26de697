package resources

import (
	"cmp"
	"slices"

	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/network"
)

// OrderOf returns the order of hands of a programme, without Late. The problem
// must leave no choice: every task has the heads of its first mode, and bookings
// stay as they are.
//
// Nodes are in the order of their starts. At equal starts, nodes that take no time
// come first, then tasks, then unloadings, as the plan lists them. Each user of a
// crew, machine, zone or the gate takes what it needs first from what nobody has
// used yet, then from earlier users that have finished and still have some to hand
// on (a resource flow: Artigues, Michelon and Reusser, 2003; from memory).
func OrderOf(set *Set, p *Problem, t *network.Times) crews.Order {
	o := crews.Order{
		Nodes: sequence(p.Net, t), Times: t,
		Givers: make([][]int32, len(p.Net.Nodes)), Takers: make([][]int32, len(p.Net.Nodes)),
	}
	handOn(set, p, &o)
	return o
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

// handOn finds who hands on to whom. A node that takes no time takes nothing.
func handOn(set *Set, p *Problem, o *crews.Order) {
	type user struct {
		node int32
		left int // not handed on yet
	}
	users := make([][]user, len(set.Resources))
	unused := make([]int, len(set.Resources))
	for r := range unused {
		unused[r] = set.Capacity[r].Max()
	}
	for _, k := range o.Nodes {
		if o.Times.Start[k] == o.Times.Finish[k] {
			continue
		}
		for _, need := range p.Modes[k][0].Needs {
			r, wants := need.Resource, int(need.Amount)
			if set.Resources[r].Kind == Alone {
				continue
			}
			fresh := min(wants, unused[r])
			unused[r] -= fresh
			wants -= fresh
			for g := range users[r] {
				if wants == 0 {
					break
				}
				giver := &users[r][g]
				if gives := min(wants, giver.left); gives > 0 && o.Times.Finish[giver.node] <= o.Times.Start[k] {
					giver.left -= gives
					wants -= gives
					link(o, giver.node, k)
				}
			}
			users[r] = append(users[r], user{k, int(need.Amount)})
		}
	}
}

func link(o *crews.Order, giver, taker int32) {
	if !slices.Contains(o.Takers[giver], taker) {
		o.Takers[giver] = append(o.Takers[giver], taker)
		o.Givers[taker] = append(o.Givers[taker], giver)
	}
}
