package network

import (
	"fmt"
	"slices"
)

// Cycle is the error for arcs that run in rings: no node on a ring can start.
type Cycle struct {
	// Rings holds one ring for each strongly connected part that has one: indices of
	// Spec.Arcs, each arc starting where the previous one ends.
	Rings [][]int32
}

// Error says how many rings there are.
func (c *Cycle) Error() string { return fmt.Sprintf("%d rings of arcs", len(c.Rings)) }

// topological orders the nodes so that every arc runs forward. It keeps the given
// order when every arc already does, and otherwise uses Kahn's algorithm (1962;
// from memory) with a queue that begins with the nodes without predecessors,
// lowest number first. The error is a [*Cycle].
func topological(s Spec) ([]int32, error) {
	order := make([]int32, len(s.Nodes))
	forward := true
	for i := range s.Arcs {
		forward = forward && s.Arcs[i].From < s.Arcs[i].To
	}
	if forward {
		for i := range order {
			order[i] = int32(i)
		}
		return order, nil
	}
	out := list(len(s.Nodes), s.Arcs, func(a *Arc) int32 { return a.From })
	waits := make([]int32, len(s.Nodes))
	for i := range s.Arcs {
		waits[s.Arcs[i].To]++
	}
	order = order[:0]
	for i, w := range waits {
		if w == 0 {
			order = append(order, int32(i))
		}
	}
	for at := 0; at < len(order); at++ {
		for _, a := range out.Of(int(order[at])) {
			to := s.Arcs[a].To
			if waits[to]--; waits[to] == 0 {
				order = append(order, to)
			}
		}
	}
	if len(order) < len(s.Nodes) {
		return nil, &Cycle{rings(s, &out, waits)}
	}
	return order, nil
}

// rings finds the strongly connected parts of the nodes that still wait after
// ordering (Tarjan, 1972; from memory) and, for each part that has a ring, returns
// a shortest ring through its first node.
func rings(s Spec, out *Plain, waits []int32) [][]int32 {
	k := knots{s: s, out: out,
		number: make([]int32, len(s.Nodes)), low: make([]int32, len(s.Nodes)), part: make([]int32, len(s.Nodes))}
	var found [][]int32
	for i := range s.Nodes {
		if waits[i] > 0 && k.number[i] == 0 {
			k.visit(int32(i))
		}
	}
	seen := make(map[int32]bool)
	for i := range s.Nodes {
		if waits[i] == 0 || seen[k.part[i]] {
			continue
		}
		seen[k.part[i]] = true
		if ring := k.ringThrough(int32(i)); ring != nil {
			found = append(found, ring)
		}
	}
	return found
}

// knots finds the strongly connected parts of a graph.
type knots struct {
	s           Spec
	out         *Plain // arcs out of each node
	number, low []int32
	part        []int32 // by node, from 1
	parts       int32
	count       int32
	stack       []int32
}

func (k *knots) visit(i int32) {
	k.count++
	k.number[i], k.low[i] = k.count, k.count
	k.stack = append(k.stack, i)
	for _, a := range k.out.Of(int(i)) {
		to := k.s.Arcs[a].To
		switch {
		case k.number[to] == 0:
			k.visit(to)
			k.low[i] = min(k.low[i], k.low[to])
		case k.part[to] == 0:
			k.low[i] = min(k.low[i], k.number[to])
		}
	}
	if k.low[i] < k.number[i] {
		return
	}
	k.parts++
	for {
		top := k.stack[len(k.stack)-1]
		k.stack = k.stack[:len(k.stack)-1]
		k.part[top] = k.parts
		if top == i {
			return
		}
	}
}

// ringThrough returns a shortest ring through a node, by breadth-first search in
// its part, or nil when there is none.
func (k *knots) ringThrough(start int32) []int32 {
	by := make(map[int32]int32)
	todo := []int32{start}
	for len(todo) > 0 {
		at := todo[0]
		todo = todo[1:]
		for _, a := range k.out.Of(int(at)) {
			to := k.s.Arcs[a].To
			if _, seen := by[to]; seen || k.part[to] != k.part[start] {
				continue
			}
			by[to] = a
			if to == start {
				return k.ringBack(by, start)
			}
			todo = append(todo, to)
		}
	}
	return nil
}

func (k *knots) ringBack(by map[int32]int32, start int32) []int32 {
	ring := []int32{by[start]}
	for at := k.s.Arcs[by[start]].From; at != start; at = k.s.Arcs[by[at]].From {
		ring = append(ring, by[at])
	}
	slices.Reverse(ring)
	return ring
}
