package network

import "slices"

// unseen says whether late dates of required nodes see neither of two nodes as such.
func unseen(a, b *Node) bool { return (a.Joint || a.Optional) && (b.Joint || b.Optional) }

// reduce marks the plain arcs that other plain arcs imply: those along a path
// whose nodes, all but the last, have no cure, no hold point and no option to drop
// them. It marks none when arcs run in a ring. No date depends on a marked arc: late
// dates of required nodes don't see optional ones, so a path through those implies
// nothing from joints and optional nodes to others such, and those arcs stay.
func reduce(s Spec, outOf *Plain, optional []bool) {
	order, err := topological(s)
	if err != nil {
		return
	}
	nodes, arcs := s.Nodes, s.Arcs
	bare := func(i int32) bool {
		n := &nodes[i]
		return n.Cure == 0 && n.Hold == None && !optional[i]
	}
	rank := make([]int32, len(nodes))
	for at, i := range order {
		rank[i] = int32(at)
	}
	words := (len(nodes) + 63) / 64
	reached := make([]uint64, len(nodes)*words) // by node: what plain paths from it lead to
	for at := len(order) - 1; at >= 0; at-- {
		i := order[at]
		if !bare(i) {
			continue
		}
		mine := reached[int(i)*words : (int(i)+1)*words]
		out := slices.DeleteFunc(slices.Clone(outOf.Of(int(i))), func(a int32) bool {
			return !arcs[a].plain() || arcs[a].HasWithin
		})
		// The nearest follower comes first, so that all it leads to is known before the
		// farther ones.
		slices.SortStableFunc(out, func(a, b int32) int { return int(rank[arcs[a].To]) - int(rank[arcs[b].To]) })
		for _, a := range out {
			to := arcs[a].To
			if mine[to/64]&(1<<(to%64)) != 0 {
				arcs[a].Dropped = !unseen(&nodes[i], &nodes[to])
				continue
			}
			mine[to/64] |= 1 << (to % 64)
			if !bare(to) {
				continue
			}
			for w, set := range reached[int(to)*words : (int(to)+1)*words] {
				mine[w] |= set
			}
		}
	}
}
