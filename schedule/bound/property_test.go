package bound_test

import (
	"testing"

	"pgregory.net/rapid"

	"turflast/calendars"
	"turflast/schedule/bound"
)

// TestNeverAboveTheOptimum compares bounds with the best of all schedules, found
// minute by minute.
func TestNeverAboveTheOptimum(t *testing.T) {
	all, later, tight, closed, windows := 0, 0, 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		b := drawSmall(t)
		best := b.optimum()
		r := bound.Finish(b.p, bound.Options{})
		if r.Finish > best {
			t.Fatalf("bound %d, optimum %d: %+v", r.Finish, best, b.spec)
		}
		if r.Network > r.Finish {
			t.Fatalf("network %d above the bound %d", r.Network, r.Finish)
		}
		if best == calendars.Never {
			return
		}
		all++
		if r.Finish == best {
			closed++
		}
		if best > r.Network {
			later++
			if r.Finish == best {
				tight++
			}
		}
		if r.Window != nil {
			windows++
			if r.Window.Until >= r.Finish || r.Window.Until < r.Network {
				t.Fatalf("window until %d, bound %d, network %d", r.Window.Until, r.Finish, r.Network)
			}
			b.recount(t, r.Window)
		}
		if own := bound.Finish(b.p, bound.Options{Upper: best}); own.Finish > best {
			t.Fatalf("bound %d when told of the optimum %d", own.Finish, best)
		}
		if w := bound.Overfull(b.p, best, bound.Options{}); w != nil {
			t.Fatalf("over-full until %d, yet a schedule is done then: %+v", best, *w)
		}
	})
	t.Logf("%d with a schedule, %d bounds reach the optimum; %d later than the network, of which %d; %d windows", all, closed, later, tight, windows)
	if 2*tight < later || windows == 0 {
		t.Errorf("of %d optima above the network's bound %d are proven, with %d windows", later, tight, windows)
	}
}

// recount adds a window up minute by minute.
func (b *small) recount(t *rapid.T, w *bound.Window) {
	if w.Count == bound.InTurn {
		if w.There >= w.Needed || len(w.Nodes) != 2 {
			t.Fatalf("%+v", *w)
		}
		return
	}
	needed, there := 0, 0
	for _, s := range w.Nodes {
		needed += int(s.Minutes) * int(s.Amount)
	}
	for m := range high - low {
		at := low + m
		if !w.Span.Holds(at) {
			continue
		}
		open := w.Count == bound.Held
		for _, modes := range b.p.Modes {
			for k := range modes {
				needs := w.Resource == bound.None
				for _, n := range modes[k].Needs {
					needs = needs || n.Resource == w.Resource
				}
				open = open || needs && b.open[modes[k].Calendar][m]
			}
		}
		if !open {
			continue
		}
		if w.Count == bound.Single {
			there++
		} else {
			there += b.there[w.Resource][m]
		}
	}
	if needed != int(w.Needed) || w.There >= w.Needed {
		t.Fatalf("%d needed, said to be %d, of %d", needed, w.Needed, w.There)
	}
	if int(w.There) > there {
		t.Fatalf("%d there, said to be %d: %+v", there, w.There, *w)
	}
}
