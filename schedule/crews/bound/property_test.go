package bound_test

import (
	"testing"

	"pgregory.net/rapid"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/crews/bound"
)

// TestNeverAboveTheOptimum compares bounds with the best of all schedules, found
// minute by minute.
func TestNeverAboveTheOptimum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) { drawSmall(t).compare(t, &tally{}) })
}

// tally counts how telling bounds are. Of the problems in none there is no
// schedule, and refuted is how often that was proven.
type tally struct{ none, refuted, all, closed, later, tight, windows, derived int }

// hard are problems beyond the first ones that need more than those for a proof:
// the order that is left to a pair, and dates cut off from both ends.
var hard = []int{2200, 2247, 5285}

// TestBoundsReachTheOptimum takes the same problems every time, of which every
// bound is the optimum.
func TestBoundsReachTheOptimum(t *testing.T) {
	var n tally
	problems := rapid.Custom(drawSmall)
	for seed := range 500 {
		problems.Example(seed).compare(t, &n)
	}
	for _, seed := range hard {
		problems.Example(seed).compare(t, &n)
	}
	t.Logf("%+v", n)
	if n.closed < n.all || n.refuted < n.none {
		t.Errorf("bounds prove too little: %+v", n)
	}
	if n.none < 50 || n.all < 200 || n.later < 50 || n.windows < 20 || n.derived == n.windows {
		t.Errorf("too few problems to mean much: %+v", n)
	}
}

// failer is a test of either kind.
type failer interface {
	Fatalf(format string, args ...any)
}

// compare checks the bound of a problem.
func (b *small) compare(t failer, n *tally) {
	best := b.optimum()
	r := bound.Finish(b.p, bound.Options{})
	if r.Finish > best || r.Network > r.Finish {
		t.Fatalf("bound %d, network %d, optimum %d", r.Finish, r.Network, best)
	}
	if best == calendars.Never {
		n.none++
		if r.Finish == best {
			n.refuted++
		}
		return
	}
	n.count(best, &r)
	if w := r.Window; w != nil {
		if w.Until >= r.Finish || w.Until < r.Network {
			t.Fatalf("window until %d, bound %d, network %d", w.Until, r.Finish, r.Network)
		}
		b.recount(t, w)
	}
	if own := bound.Finish(b.p, bound.Options{Upper: best}); own.Finish > best {
		t.Fatalf("bound %d when told of the optimum %d", own.Finish, best)
	}
	if w := bound.Overfull(b.p, best, bound.Options{}); w != nil {
		t.Fatalf("over-full until %d, yet a schedule is done then: %+v", best, *w)
	}
}

func (n *tally) count(best calendars.Instant, r *bound.Result) {
	n.all++
	if r.Finish == best {
		n.closed++
	}
	if best > r.Network {
		n.later++
		if r.Finish == best {
			n.tight++
		}
	}
	if r.Window != nil {
		n.windows++
		if r.Window.Derived {
			n.derived++
		}
	}
}

// recount adds a window up minute by minute. Of nodes counted one at a time, only
// the minutes of their own set are there, and less than all can be of needs that
// must fit together.
func (b *small) recount(t failer, w *bound.Window) {
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
		switch {
		case !w.Span.Holds(low+m) || w.Count != bound.Held && !b.anyOpen(m, w.Resource):
		case w.Count == bound.Single:
			there++
		default:
			there += b.there[w.Resource][m]
		}
	}
	if needed != int(w.Needed) || w.There >= w.Needed || int(w.There) > there ||
		(w.Count == bound.Whole || w.Count == bound.Held) && int(w.There) != there {
		t.Fatalf("%d needed of %d there: %+v", needed, there, *w)
	}
}

// anyOpen says whether a node that can't do without a resource can be worked on
// in a minute.
func (b *small) anyOpen(m calendars.Instant, resource int32) bool {
	for _, modes := range b.p.Modes {
		open, all := false, true
		for k := range modes {
			needs := resource == bound.None
			for _, n := range modes[k].Needs {
				needs = needs || n.Resource == resource && modes[k].Work > 0
			}
			all = all && needs
			open = open || b.open[modes[k].Calendar][m]
		}
		if open && all {
			return true
		}
	}
	return false
}
