package timecost_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"build.example/turflast/schedule/ask/timecost"
)

// drawn is a small network of activities.
func drawn(t *rapid.T) []timecost.Activity {
	list := make([]timecost.Activity, rapid.IntRange(1, 6).Draw(t, "activities"))
	for i := range list {
		a := &list[i]
		a.Normal = int64(rapid.IntRange(0, 5).Draw(t, "normal"))
		a.Shortest = max(a.Normal-int64(rapid.IntRange(0, 3).Draw(t, "shorter")), 0)
		a.Price = int64(rapid.IntRange(0, 9).Draw(t, "price"))
		for p := range i {
			if rapid.IntRange(0, 2).Draw(t, "after") == 0 {
				a.After = append(a.After, p)
			}
		}
	}
	return list
}

// enumerated is the least cost of every finish, by trying every length of every
// activity; math.MaxInt64 where there is none.
func enumerated(list []timecost.Activity) []int64 {
	best := make([]int64, 64)
	for k := range best {
		best[k] = math.MaxInt64
	}
	finish := make([]int64, len(list))
	var try func(i int, cost, end int64)
	try = func(i int, cost, end int64) {
		if i == len(list) {
			for k := int(end); k < len(best); k++ {
				best[k] = min(best[k], cost)
			}
			return
		}
		a := &list[i]
		start := int64(0)
		for _, p := range a.After {
			start = max(start, finish[p])
		}
		for long := a.Shortest; long <= a.Normal; long++ {
			finish[i] = start + long
			try(i+1, cost+(a.Normal-long)*a.Price, max(end, finish[i]))
		}
	}
	try(0, 0, 0)
	return best
}

// TestEveryPoint compares every finish with the cheapest of all that can be
// bought.
func TestEveryPoint(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		list := drawn(t)
		n := timecost.Of(list)
		c, err := n.Curve()
		if err != nil {
			t.Fatal(err)
		}
		for time, want := range enumerated(list) {
			p, ok := c.At(int64(time))
			if ok != (want != math.MaxInt64) || ok && p.Cost != want {
				t.Fatalf("done by %d costs %d (there is one: %v), the cheapest of all %d", time, p.Cost, ok, want)
			}
		}
		b := timecost.Beside{
			Running: int64(rapid.IntRange(0, 6).Draw(t, "running")), Late: int64(rapid.IntRange(0, 9).Draw(t, "late")),
			Due: int64(rapid.IntRange(0, 20).Draw(t, "due")),
		}
		cheapest := c.Cheapest(b)
		for time, cost := range enumerated(list) {
			p := timecost.Point{Time: int64(time), Cost: cost}
			if cost != math.MaxInt64 && b.Total(&p) < b.Total(&cheapest) {
				t.Fatalf("%d is cheaper than %d", time, cheapest.Time)
			}
		}
	})
}

// TestCorners checks each corner on its own: what it says is kept and paid, and
// each unit sooner costs more than the one before.
func TestCorners(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		n := timecost.Of(drawn(rt))
		c, err := n.Curve()
		if err != nil {
			rt.Fatal(err)
		}
		rate := int64(0)
		for k := range c.Corners {
			p := &c.Corners[k]
			costs(t, n, p)
			if k < len(c.Corners)-1 && p.Rate <= rate {
				rt.Fatalf("the curve is not bent at %d: %d after %d", p.Time, p.Rate, rate)
			}
			rate = p.Rate
		}
	})
}

// TestLengthened is a network on which what is bought first is given back later:
// the way through all of A, B, C first loses a unit of B, the cheapest; the
// second unit is cheapest by A and C shorter and B longer.
func TestLengthened(t *testing.T) {
	n := &timecost.Network{Events: 4, Start: 0, Finish: 3, Arcs: []timecost.Arc{
		{From: 0, To: 1, Normal: 4, Shortest: 1, Price: 5}, // A
		{From: 1, To: 2, Normal: 4, Shortest: 3, Price: 4}, // B
		{From: 2, To: 3, Normal: 4, Shortest: 1, Price: 5}, // C
		{From: 0, To: 2, Normal: 7, Shortest: 7},
		{From: 1, To: 3, Normal: 7, Shortest: 7},
	}}
	c, err := n.Curve()
	if err != nil {
		t.Fatal(err)
	}
	lengths := func(time int64) (out [3]int64) {
		p, ok := c.At(time)
		if !ok {
			t.Fatalf("%d is not to be had", time)
		}
		for k := range out {
			out[k] = p.Length(&n.Arcs[k])
		}
		return out
	}
	if got := lengths(11); got != [3]int64{4, 3, 4} {
		t.Errorf("at 11: %v", got)
	}
	if got := lengths(10); got != [3]int64{3, 4, 3} {
		t.Errorf("at 10: %v", got)
	}
}

func TestFaults(t *testing.T) {
	for _, x := range []struct {
		n    timecost.Network
		want error
	}{
		{timecost.Network{Events: 3, Finish: 2, Arcs: []timecost.Arc{{From: 1, To: 2}, {From: 2, To: 1}}}, timecost.ErrRing},
		{timecost.Network{Events: 2, Finish: 1, Arcs: []timecost.Arc{{From: 0, To: 2}}}, timecost.ErrEvent},
		{timecost.Network{Events: 2, Finish: 1, Arcs: []timecost.Arc{{From: 0, To: 1, Normal: 1, Price: -1}}},
			timecost.ErrEvent},
		{timecost.Network{Events: 2, Finish: 2}, timecost.ErrEvent},
		{timecost.Network{Events: 2, Finish: 1, Arcs: []timecost.Arc{{From: 0, To: 1, Normal: 1 << 40, Price: 1 << 40}}},
			timecost.ErrLarge},
	} {
		if _, err := x.n.Curve(); !errors.Is(err, x.want) {
			t.Errorf("%+v gives %v, not %v", x.n, err, x.want)
		}
	}
}

func BenchmarkCurve1000(b *testing.B) {
	r := rand.New(rand.NewPCG(1, 2))
	list := make([]timecost.Activity, 1000)
	for i := range list {
		a := &list[i]
		a.Normal = 60 + r.Int64N(600)
		a.Shortest = a.Normal - r.Int64N(a.Normal/2)
		a.Price = 10 + r.Int64N(90)
		for range min(i, 3) {
			a.After = append(a.After, max(i-1-r.IntN(40), 0))
		}
	}
	n := timecost.Of(list)
	corners := 0
	for b.Loop() {
		c, err := n.Curve()
		if err != nil {
			b.Fatal(err)
		}
		corners = len(c.Corners)
	}
	b.ReportMetric(float64(corners), "corners")
}
