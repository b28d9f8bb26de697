package planfile

import (
	"fmt"
	"slices"
	"strings"

	"build.example/turflast/schedule"
)

// rings finds rings of things that lead to one another: each leads to the next,
// and the last to the first. No thing is in two of them; once the rings found
// are cut, others may be left.
func rings[ID ~int32](n int, next func(int) []ID) [][]ID {
	const (
		fresh = iota
		open
		done
	)
	var found [][]ID
	state, taken := make([]int, n), make([]bool, n)
	var path []ID
	var visit func(ID)
	visit = func(at ID) {
		state[at] = open
		path = append(path, at)
		for _, to := range next(int(at)) {
			switch state[to] {
			case fresh:
				visit(to)
			case open:
				ring := slices.Clone(path[slices.Index(path, to):])
				if !slices.ContainsFunc(ring, func(i ID) bool { return taken[i] }) {
					found = append(found, ring)
				}
				for _, i := range ring {
					taken[i] = true
				}
			}
		}
		path = path[:len(path)-1]
		state[at] = done
	}
	for i := range n {
		if state[i] == fresh {
			visit(ID(i))
		}
	}
	return found
}

// linkRings reports rings of written links in a plan that has other faults. In
// a plan without any, the network finds all rings, those of rules and ways in
// too. The words are those of package flaws.
func (r *reader) linkRings() {
	before := func(i int) []schedule.TaskID {
		var from []schedule.TaskID
		for _, l := range r.plan.Tasks[i].After {
			from = append(from, l.From)
		}
		return from
	}
	for _, ring := range rings(len(r.plan.Tasks), before) {
		slices.Reverse(ring[1:]) // from each task to what follows it
		var parts []string
		var at schedule.Pos
		for k, from := range ring {
			to := &r.plan.Tasks[ring[(k+1)%len(ring)]]
			link := to.After[slices.IndexFunc(to.After, func(l schedule.Link) bool { return l.From == from })]
			if k == 0 {
				at = link.Pos
			}
			parts = append(parts, fmt.Sprintf("%s before %s (after, line %d)", r.plan.Tasks[from].ID, to.ID, link.Pos.Line))
		}
		r.fault(at, "take one of these out, or excuse a task from its rule",
			"these wait for each other in a ring: %s", strings.Join(parts, ", "))
	}
}
