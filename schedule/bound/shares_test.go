package bound_test

import (
	"testing"

	"pgregory.net/rapid"

	"turflast/calendars"
	"turflast/schedule/bound"
)

// TestSharesAreTheLeast compares what a window says that nodes must spend in it
// with every schedule that keeps the links: unless it follows from more than
// those, no node may spend less.
func TestSharesAreTheLeast(t *testing.T) {
	plain, derived := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		b := drawSmall(t)
		if len(b.modes) > 3 {
			return
		}
		r := bound.Finish(b.p, bound.Options{})
		if r.Finish == calendars.Never {
			return
		}
		w := bound.Overfull(b.p, r.Finish-1, bound.Options{})
		if w == nil {
			return
		}
		b.recount(t, w)
		least, found := b.spent(w.Span, w.Until, w.Count == bound.Held, w.Resource)
		if !found {
			t.Fatalf("over-full until %d, when the links alone allow nothing", w.Until)
		}
		if w.Derived || w.Count == bound.InTurn {
			derived++
			return
		}
		plain++
		for _, s := range w.Nodes {
			number := b.p.Net.Spec[s.Node]
			if len(b.modes[number]) == 1 && int(s.Minutes) > least[number] {
				t.Fatalf("node %d may spend %d in %+v", number, least[number], *w)
			}
		}
	})
	t.Logf("%d windows proven by the links alone, %d by more", plain, derived)
	if plain == 0 {
		t.Error("no window is proven by the links alone")
	}
}
