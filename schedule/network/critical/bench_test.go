package critical_test

import (
	"fmt"
	"math/rand/v2"
	"runtime"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/critical"
)

// weekdays is a calendar of two openings a day, six days a week, over years
// enough for the work given.
func weekdays(shift, work calendars.Minutes) *calendars.Calendar {
	var spans []calendars.Span
	for day, total := calendars.Instant(0), calendars.Minutes(0); total < work; day += 1440 {
		if (day/1440)%7 == 6 {
			continue
		}
		from := day + 420 + calendars.Instant(shift)
		spans = append(spans, calendars.Span{Start: from, End: from + 300},
			calendars.Span{Start: from + 330, End: from + 660})
		total += 630
	}
	return calendars.New(spans)
}

// randomSpec is a network of n nodes on as many calendars as kinds says, each node
// with about three predecessors drawn from all the nodes before it.
func randomSpec(n, kinds int, seed uint64) network.Spec {
	r := rand.New(rand.NewPCG(seed, 1))
	s := network.Spec{Line: calendars.Span{Start: calendars.Past, End: calendars.Never}, Nodes: make([]network.Node, n)}
	for i := range s.Nodes {
		s.Nodes[i] = network.Node{
			Work: calendars.Minutes(1 + r.IntN(480)), Calendar: int32(r.IntN(kinds)), Hold: network.None,
			LatestStart: calendars.Never, LatestFinish: calendars.Never, LatestDone: calendars.Never,
		}
		for range min(i, 3) {
			back := 1 + r.IntN(i)
			s.Arcs = append(s.Arcs, network.Arc{From: int32(i - back), To: int32(i)})
		}
	}
	long := calendars.Minutes(n) * 60
	for k := range kinds {
		s.Calendars = append(s.Calendars, weekdays(calendars.Minutes(7*k), long))
	}
	for i := range s.Nodes {
		s.Nodes[i].LatestDone = calendars.Instant(long) * 2
	}
	return s
}

func BenchmarkPasses(b *testing.B) {
	for _, c := range []struct{ nodes, calendars int }{
		{1_000, 1}, {100_000, 1}, {1_000_000, 1}, {1_000, 10}, {100_000, 10}, {1_000_000, 10},
	} {
		b.Run(fmt.Sprintf("nodes=%d/calendars=%d", c.nodes, c.calendars), func(b *testing.B) {
			n, err := network.Build(randomSpec(c.nodes, c.calendars, 1))
			if err != nil {
				b.Fatal(err)
			}
			t := network.NewTimes(n)
			for b.Loop() {
				critical.Forward(n, t)
				critical.Backward(n, t)
			}
			if t.Start[len(n.Nodes)-1] == calendars.Never {
				b.Fatal("the calendar is too short")
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*c.nodes), "ns/task")
		})
	}
}

func BenchmarkBuild(b *testing.B) {
	s := randomSpec(100_000, 1, 1)
	for b.Loop() {
		if _, err := network.Build(s); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*len(s.Nodes)), "ns/task")
}

// BenchmarkBuildUnordered gives the nodes in an order that must be sorted.
func BenchmarkBuildUnordered(b *testing.B) {
	s := randomSpec(100_000, 1, 1)
	last := int32(len(s.Nodes) - 1)
	for i := range s.Arcs {
		s.Arcs[i].From, s.Arcs[i].To = last-s.Arcs[i].From, last-s.Arcs[i].To
	}
	for b.Loop() {
		if _, err := network.Build(s); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*len(s.Nodes)), "ns/task")
}

// BenchmarkMemory reports what a built network and its times hold per task.
func BenchmarkMemory(b *testing.B) {
	s := randomSpec(100_000, 1, 1)
	var before, after runtime.MemStats
	for b.Loop() {
		runtime.GC()
		runtime.ReadMemStats(&before)
		n, err := network.Build(s)
		if err != nil {
			b.Fatal(err)
		}
		t := network.NewTimes(n)
		runtime.GC()
		runtime.ReadMemStats(&after)
		runtime.KeepAlive(n)
		runtime.KeepAlive(t)
	}
	b.ReportMetric(float64(after.HeapAlloc-before.HeapAlloc)/float64(len(s.Nodes)), "B/task")
}
