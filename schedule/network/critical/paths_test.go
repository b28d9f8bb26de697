package critical_test

import (
	"math/rand/v2"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/critical"
)

// TestLongestPaths compares 1,000 random networks without closed hours with an
// exhaustive oracle: the length of every path is added up.
func TestLongestPaths(t *testing.T) {
	for seed := range uint64(1000) {
		r := rand.New(rand.NewPCG(seed, 2))
		s := pathSpec(r)
		n, err := network.Build(s)
		if err != nil {
			t.Fatal(err)
		}
		times := network.NewTimes(n)
		critical.Forward(n, times)
		into, from, whole := allPaths(s)
		for i := range s.Nodes {
			k := n.Number[i]
			if got := times.Start[k] - base; got != into[i] {
				t.Fatalf("seed %d: node %d starts %d after the longest path of %d", seed, i, got, into[i])
			}
		}
		for i := range n.Nodes {
			n.Nodes[i].LatestDone = base + whole
		}
		critical.Backward(n, times)
		for i := range s.Nodes {
			k := n.Number[i]
			if got := base + whole - times.LateStart[k]; got != from[i] {
				t.Fatalf("seed %d: node %d starts latest %d before the end; its longest path is %d", seed, i, got, from[i])
			}
		}
	}
}

// pathSpec is a finish-start network of up to 12 nodes with cures, in shuffled
// order.
func pathSpec(r *rand.Rand) network.Spec {
	line := calendars.Span{Start: low, End: high}
	s := network.Spec{Line: line, Calendars: []*calendars.Calendar{calendars.New([]calendars.Span{line})}}
	count := 1 + r.IntN(12)
	order := r.Perm(count)
	for range count {
		s.Nodes = append(s.Nodes, network.Node{
			Work: calendars.Minutes(r.IntN(20)), Cure: calendars.Minutes(r.IntN(3) * r.IntN(10)),
			Hold: network.None, Earliest: base,
			LatestStart: calendars.Never, LatestFinish: calendars.Never, LatestDone: calendars.Never,
		})
	}
	for i := range order {
		for j := range i {
			if r.IntN(3) == 0 {
				s.Arcs = append(s.Arcs, network.Arc{From: int32(order[j]), To: int32(order[i])})
			}
		}
	}
	return s
}

// allPaths walks every path: the longest before each node, the longest from its
// start on, and the longest of all.
func allPaths(s network.Spec) (into, from []calendars.Instant, whole calendars.Instant) {
	into, from = make([]calendars.Instant, len(s.Nodes)), make([]calendars.Instant, len(s.Nodes))
	length := func(i int32) calendars.Instant { return calendars.Instant(s.Nodes[i].Work + s.Nodes[i].Cure) }
	var walk func(path []int32, done calendars.Instant)
	walk = func(path []int32, done calendars.Instant) {
		last := path[len(path)-1]
		into[last] = max(into[last], done)
		done += length(last)
		whole = max(whole, done)
		rest := calendars.Instant(0)
		for k := len(path) - 1; k >= 0; k-- {
			rest += length(path[k])
			from[path[k]] = max(from[path[k]], rest)
		}
		for _, a := range s.Arcs {
			if a.From == last {
				walk(append(path, a.To), done)
			}
		}
	}
	for i := range s.Nodes {
		walk([]int32{int32(i)}, 0)
	}
	return into, from, whole
}
