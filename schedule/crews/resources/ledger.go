package resources

import (
	"cmp"
	"iter"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/network"
)

// Ledger records which nodes hold each resource, and when, in one programme.
type Ledger struct {
	capacity []*calendars.Profile
	holds    [][]hold // by resource, by start
}

// hold is an amount of a resource that a node takes for a span.
type hold struct {
	span   calendars.Span
	amount int
	node   int32
}

// NewLedger records what nodes hold at the times t; needs returns what a node
// takes. A node without a place holds nothing.
func NewLedger(
	capacity []*calendars.Profile, n *network.Network, t *network.Times, needs func(node int) []crews.Need,
) *Ledger {
	l := &Ledger{capacity: capacity, holds: make([][]hold, len(capacity))}
	for k := range n.Nodes {
		if !t.Start[k].IsReal() {
			continue
		}
		for _, need := range needs(k) {
			for span := range Stretches(n, k, need, t.Start[k], t.Finish[k]) {
				l.holds[need.Resource] = append(l.holds[need.Resource], hold{span, int(need.Amount), int32(k)})
			}
		}
	}
	for _, holds := range l.holds {
		slices.SortFunc(holds, func(a, b hold) int {
			return cmp.Or(cmp.Compare(a.span.Start, b.span.Start), cmp.Compare(a.node, b.node))
		})
	}
	return l
}

// Stretches yields the spans in which a node holds a need when it runs from start
// to finish.
func Stretches(
	n *network.Network, node int, need crews.Need, start, finish calendars.Instant,
) iter.Seq[calendars.Span] {
	if need.Stays || need.After > 0 {
		return func(yield func(calendars.Span) bool) {
			if end := finish.Plus(need.After); end > start {
				yield(calendars.Span{Start: start, End: end})
			}
		}
	}
	return n.Calendars[n.Nodes[node].Calendar].Openings(start, finish)
}

// Short returns the end of the last stretch within a span in which other nodes
// leave too little for a node's need, and which node holds what it lacks there
// (see lets); what the nodes in gone hold isn't counted. ok is false when there is
// enough throughout.
func (l *Ledger) Short(need crews.Need, span calendars.Span, node int, gone ...int32) (
	end calendars.Instant, holder int, ok bool,
) {
	var at []calendars.Instant
	here := func(t calendars.Instant) {
		if span.Holds(t) {
			at = append(at, t)
		}
	}
	here(span.Start)
	var others []hold
	for _, h := range l.holds[need.Resource] {
		if int(h.node) != node && !slices.Contains(gone, h.node) && h.span.Start < span.End && span.Start < h.span.End {
			others = append(others, h)
			here(h.span.Start)
			here(h.span.End)
		}
	}
	l.capacity[need.Resource].Steps(func(s calendars.Span, _ int) bool {
		here(s.Start)
		here(s.End)
		return s.Start < span.End
	})
	slices.Sort(at)
	at = slices.Compact(at)
	for k := len(at) - 1; k >= 0; k-- {
		left := l.capacity[need.Resource].At(at[k]) - int(need.Amount)
		for _, h := range others {
			if h.span.Holds(at[k]) {
				left -= h.amount
			}
		}
		if left < 0 {
			end = span.End
			if k+1 < len(at) {
				end = at[k+1]
			}
			return end, lets(others, at[k], end), true
		}
	}
	return 0, network.None, false
}

// lets returns a holder at a moment that lets go by end, or any holder when none
// does; [network.None] when there is none. Of several it takes the one that starts
// last, and of equals the first in the list.
func lets(holds []hold, at, end calendars.Instant) int {
	best := network.None
	var start calendars.Instant
	for _, ends := range []bool{true, false} {
		for _, h := range holds {
			if h.span.Holds(at) && (!ends || h.span.End <= end) && (best == network.None || h.span.Start > start) {
				best, start = int(h.node), h.span.Start
			}
		}
		if best != network.None {
			break
		}
	}
	return best
}
