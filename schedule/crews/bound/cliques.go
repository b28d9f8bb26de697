package bound

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/internal/halt"
)

// mostCliques bounds the sets of nodes that are counted one at a time.
const mostCliques = 100

// clique is a set of nodes of which no two can be worked on at once.
type clique struct {
	nodes []int32
	work  calendars.Minutes
}

// addCliques adds views of sets of nodes that can't be worked on at once. Each set
// is grown from one node by adding the longest node that still fits (a greedy
// clique of the graph of conflicts; bounds from such sets: Mingozzi, Maniezzo,
// Ricciardelli and Bianco, 1998).
func (m *model) addCliques(c *conflicts) {
	n := len(m.n.Nodes)
	least := make([]calendars.Minutes, n)
	order := make([]int32, n)
	for i := range n {
		order[i] = int32(i)
		least[i] = m.options[m.first[i]].Work
		for o := m.first[i] + 1; o < m.first[i+1]; o++ {
			least[i] = min(least[i], m.options[o].Work)
		}
	}
	slices.SortFunc(order, func(a, b int32) int { return cmp.Or(cmp.Compare(least[b], least[a]), cmp.Compare(a, b)) })
	var found []clique
	for _, seed := range order {
		if least[seed] == 0 {
			break
		}
		q := c.grow(seed, order, least, &m.halt)
		if m.halt.Over() {
			return
		}
		if len(q.nodes) > 1 {
			found = append(found, q)
		}
	}
	slices.SortStableFunc(found, func(a, b clique) int { return cmp.Compare(b.work, a.work) })
	found = slices.CompactFunc(found, func(a, b clique) bool { return slices.Equal(a.nodes, b.nodes) })
	for _, q := range found[:min(len(found), mostCliques)] {
		if m.halt.Now() {
			return
		}
		m.views = append(m.views, m.single(q.nodes, c))
	}
}

// grow makes a set from a seed: of the nodes in an order, it adds each that can't
// be worked on at once with any node of the set so far. The set is empty when
// links alone keep its nodes apart, and when halted.
func (c *conflicts) grow(seed int32, order []int32, work []calendars.Minutes, h *halt.Halt) clique {
	q := clique{nodes: []int32{seed}, work: work[seed]}
	clash := false
	for _, i := range order {
		if i == seed || work[i] == 0 {
			continue
		}
		if h.Steps(1 + len(q.nodes)) {
			return clique{}
		}
		if all, some := c.apart(i, q.nodes); all {
			q.nodes, q.work, clash = append(q.nodes, i), q.work+work[i], clash || some
		}
	}
	if !clash { // the links alone keep these apart, and are counted already
		return clique{}
	}
	slices.Sort(q.nodes)
	return q
}

// apart says whether a node can't be worked on at once with any of others, and whether
// that is so of some for another reason than links.
func (c *conflicts) apart(i int32, others []int32) (all, some bool) {
	for _, k := range others {
		hit := c.clash[i].has(k)
		if !hit && !c.after[i].has(k) && !c.after[k].has(i) {
			return false, false
		}
		some = some || hit
	}
	return true, some
}

// single is a view that counts nodes one at a time.
func (m *model) single(nodes []int32, c *conflicts) *view {
	var users []user
	for _, i := range nodes {
		u := user{node: i}
		for o := m.first[i]; o < m.first[i+1]; o++ {
			u.choices = append(u.choices, choice{option: o, amount: 1})
		}
		users = append(users, u)
	}
	v := m.newView(m.shared(nodes, c), Single, users)
	open := m.open(v)
	there, known := m.ones[open]
	if !known {
		for o := range open.Openings(m.dawn, m.n.Line.End) {
			there.add(o, 1)
		}
		m.ones[open] = there
	}
	v.there = there
	return v
}

// shared is a resource that keeps apart every two nodes of a set that links don't;
// None when different pairs share different resources.
func (m *model) shared(nodes []int32, c *conflicts) int32 {
	for r, holds := range c.holds {
		most, all := int64(m.p.Capacity[r].Max()), true
		for k, a := range nodes {
			for _, b := range nodes[:k] {
				all = all && (c.after[a].has(b) || c.after[b].has(a) || over(holds[a].worked, holds[b].worked, most))
			}
		}
		if all {
			return int32(r)
		}
	}
	return None
}
