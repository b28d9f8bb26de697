package critical_test

import (
	"testing"

	"pgregory.net/rapid"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/critical"
)

// drawSpec draws a small network with every kind of arc, wait and node, and
// the open minutes of its calendars.
func drawSpec(t *rapid.T) *oracle {
	o := &oracle{}
	o.s.Line = calendars.Span{Start: low, End: high}
	kinds := rapid.IntRange(1, 3).Draw(t, "calendars")
	for range kinds {
		o.open = append(o.open, make([]bool, top-base))
		open := rapid.SliceOfN(rapid.IntRange(1, 12), 30, 30).Draw(t, "hours")
		var spans []calendars.Span
		at := base
		for k, length := range open {
			end := min(at+calendars.Instant(length), top)
			if k%2 == 0 && at < end {
				spans = append(spans, calendars.Span{Start: at, End: end})
				for m := at; m < end; m++ {
					o.open[len(o.open)-1][m-base] = true
				}
			}
			at = end
		}
		o.s.Calendars = append(o.s.Calendars, calendars.New(spans))
	}
	nodes := rapid.IntRange(1, 7).Draw(t, "nodes")
	for range nodes {
		o.s.Nodes = append(o.s.Nodes, drawNode(t, o, kinds))
	}
	for to := 1; to < nodes; to++ {
		for from := range to {
			if rapid.IntRange(0, 9).Draw(t, "linked") < 5 {
				o.s.Arcs = append(o.s.Arcs, drawArc(t, from, to))
			}
		}
	}
	return o
}

func drawNode(t *rapid.T, o *oracle, kinds int) network.Node {
	minutes := func(most int, name string) calendars.Minutes {
		return calendars.Minutes(rapid.IntRange(0, most).Draw(t, name))
	}
	date := func(name string) calendars.Instant {
		if rapid.IntRange(0, 3).Draw(t, name+" said") > 0 {
			return calendars.Never
		}
		return base + calendars.Instant(minutes(150, name))
	}
	n := network.Node{
		Work: minutes(9, "work"), Calendar: int32(rapid.IntRange(0, kinds-1).Draw(t, "calendar")),
		Place: int32(rapid.IntRange(0, kinds-1).Draw(t, "place")), Unbroken: rapid.Bool().Draw(t, "unbroken"),
		Optional: rapid.IntRange(0, 3).Draw(t, "optional") == 0,
		Hold:     network.None, Earliest: base + calendars.Instant(minutes(20, "earliest")),
		LatestStart: date("latest start"), LatestFinish: date("latest finish"),
		LatestDone: base + 100 + calendars.Instant(minutes(50, "latest done")),
	}
	if rapid.Bool().Draw(t, "cures") {
		n.Cure = minutes(12, "cure")
	}
	if rapid.IntRange(0, 3).Draw(t, "held") == 0 {
		h := network.Hold{Takes: minutes(5, "takes")}
		for k := range rapid.IntRange(0, 3).Draw(t, "appointments") {
			h.Appointments = append(h.Appointments,
				base+calendars.Instant(30*(k+1))+calendars.Instant(minutes(29, "appointment")))
		}
		n.Hold = int32(len(o.s.Holds))
		o.s.Holds = append(o.s.Holds, h)
	}
	return n
}

func drawArc(t *rapid.T, from, to int) network.Arc {
	a := network.Arc{From: int32(from), To: int32(to)}
	if rapid.Bool().Draw(t, "plain") {
		return a
	}
	a.Kind = schedule.LinkKind(rapid.IntRange(0, 3).Draw(t, "kind"))
	switch rapid.IntRange(0, 2).Draw(t, "wait") {
	case 1:
		a.Wait = schedule.Wait{Kind: schedule.Lag, Time: calendars.Minutes(rapid.IntRange(-8, 8).Draw(t, "lag"))}
	case 2:
		a.Wait = schedule.Wait{Kind: schedule.Cure, Time: calendars.Minutes(rapid.IntRange(0, 20).Draw(t, "cure on link"))}
	}
	if rapid.IntRange(0, 2).Draw(t, "within said") == 0 {
		a.HasWithin, a.Within = true, calendars.Minutes(rapid.IntRange(0, 60).Draw(t, "within"))
	}
	return a
}

func solved(t *rapid.T, s network.Spec) (*network.Network, *network.Times) {
	n, err := network.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	times := network.NewTimes(n)
	critical.Forward(n, times)
	critical.Backward(n, times)
	return n, times
}

// TestEarlyDatesAreTheLeast and the next compare both passes with a model that
// tries starts minute by minute.
func TestEarlyDatesAreTheLeast(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := drawSpec(t)
		n, times := solved(t, o.s)
		for i, want := range o.early() {
			if got := times.Start[n.Number[i]]; got != want {
				t.Fatalf("node %d starts %d, want %d", i, got, want)
			}
		}
	})
}

func TestLateDatesAreTheGreatest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := drawSpec(t)
		n, times := solved(t, o.s)
		for i, want := range o.late() {
			if got := times.LateStart[n.Number[i]]; got != want {
				t.Fatalf("node %d starts latest %d, want %d", i, got, want)
			}
		}
	})
}

// TestRingHasNoPlace: whenever the clock alone proves a ring impossible, the
// model finds no place for its nodes either.
func TestRingHasNoPlace(t *testing.T) {
	found := 0
	rapid.Check(t, func(t *rapid.T) {
		o := drawSpec(t)
		n, err := network.Build(o.s)
		if err != nil {
			t.Fatal(err)
		}
		ring := critical.Ring(n)
		if len(ring) == 0 {
			return
		}
		found++
		early := o.early()
		for _, k := range ring {
			if at := early[n.Spec[k]]; at != calendars.Never {
				t.Fatalf("node %d is on a ring, yet starts %d", n.Spec[k], at)
			}
		}
	})
	if found == 0 {
		t.Error("no ring was drawn")
	}
}
