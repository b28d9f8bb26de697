package bound_test

import (
	"testing"

	"pgregory.net/rapid"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/crews/bound"
)

// TestSharesAreTheLeast compares what a window says that nodes must spend in it
// with every schedule that keeps the links: unless it follows from more than
// those, no node may spend less.
func TestSharesAreTheLeast(t *testing.T) {
	compared := 0
	problems := rapid.Custom(drawSmall)
	for seed := range 1500 {
		b := problems.Example(seed)
		if len(b.modes) > 3 {
			continue
		}
		r := bound.Finish(b.p, bound.Options{})
		if r.Finish == calendars.Never {
			continue
		}
		w := bound.Overfull(b.p, r.Finish-1, bound.Options{})
		if w == nil || w.Derived || w.Count == bound.InTurn {
			continue
		}
		compared++
		least, found := b.spent(w.Span, w.Until, w.Count == bound.Held, w.Resource)
		if !found {
			t.Fatalf("seed %d: over-full until %d, when the links alone allow nothing", seed, w.Until)
		}
		for _, s := range w.Nodes {
			number := b.p.Net.Spec[s.Node]
			if len(b.modes[number]) == 1 && int(s.Minutes) > least[number] {
				t.Fatalf("seed %d: node %d may spend %d in %+v", seed, number, least[number], *w)
			}
		}
	}
	if compared < 20 {
		t.Errorf("only %d windows compared", compared)
	}
}
