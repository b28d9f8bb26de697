package search_test

import (
	"context"
	"math/rand/v2"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/crews/search"
	"build.example/turflast/schedule/network"
)

// TestOverCalendars shares resources whose count changes among activities that
// pause, wait and stay, and counts every minute of the schedules found.
func TestOverCalendars(t *testing.T) {
	paused := 0
	for seed := range uint64(200) {
		p := overCalendars(rand.New(rand.NewPCG(seed, 9)))
		r, err := search.Search(context.Background(), p, search.Options{Schedules: 40, Seed: seed})
		if err != nil {
			t.Fatal(err)
		}
		if !r.Found {
			continue
		}
		for i := range p.Net.Nodes {
			if r.Finish[i]-r.Start[i] > calendars.Instant(p.Net.Nodes[i].Work) {
				paused++
			}
		}
		for m := calendars.Instant(1000); m < calendars.Instant(r.Cost.End); m++ {
			for res, c := range p.Capacity {
				if used := usedAt(p, &r, int32(res), m); used > c.At(m) {
					t.Fatalf("seed %d: %d of resource %d at minute %d, of %d", seed, used, res, m, c.At(m))
				}
			}
		}
		for i := range p.Net.Nodes {
			for _, before := range p.Net.In.Of(i) {
				if r.Start[i] < r.Finish[before].Plus(p.Net.Nodes[before].Cure) {
					t.Fatalf("seed %d: node %d starts before %d is done", seed, i, before)
				}
			}
			for _, e := range p.Net.InOther.Of(i) {
				if r.Start[i] < r.Start[e.Node].Plus(e.Wait.Time) {
					t.Fatalf("seed %d: node %d starts too soon after %d", seed, i, e.Node)
				}
			}
		}
	}
	if paused == 0 {
		t.Error("nothing paused")
	}
}

func usedAt(p *crews.Problem, r *search.Result, res int32, m calendars.Instant) int {
	used := 0
	for i := range p.Modes {
		if m < r.Start[i] || m >= r.Finish[i] {
			continue
		}
		open := p.Net.Calendars[p.Net.Nodes[i].Calendar].IsOpen(m)
		for _, n := range p.Modes[i][r.Mode[i]].Needs {
			if n.Resource == res && (open || n.Stays) {
				used += int(n.Amount)
			}
		}
	}
	return used
}

func overCalendars(r *rand.Rand) *crews.Problem {
	line := calendars.Span{Start: 1000, End: 5000}
	s := network.Spec{Line: line}
	for range 2 {
		var spans []calendars.Span
		for at := line.Start; at < line.End; at += calendars.Instant(20 + r.IntN(30)) {
			spans = append(spans, calendars.Span{Start: at, End: at + 15})
		}
		s.Calendars = append(s.Calendars, calendars.New(spans))
	}
	for i := range int32(8) {
		s.Nodes = append(s.Nodes, network.Node{
			Work: calendars.Minutes(r.IntN(40)), Calendar: int32(r.IntN(2)), Hold: network.None, Earliest: line.Start,
			LatestStart: calendars.Never, LatestFinish: calendars.Never,
			LatestDone: calendars.Never, Cure: calendars.Minutes(r.IntN(10)),
		})
		for j := range i {
			switch r.IntN(6) {
			case 0:
				s.Arcs = append(s.Arcs, network.Arc{From: j, To: i})
			case 1:
				s.Arcs = append(s.Arcs, network.Arc{
					From: j, To: i, Kind: schedule.StartStart,
					Wait: schedule.Wait{Kind: schedule.Cure, Time: calendars.Minutes(r.IntN(30))},
				})
			}
		}
	}
	n, err := network.Build(s)
	if err != nil {
		panic(err)
	}
	p := &crews.Problem{Net: n}
	for i := range n.Nodes {
		p.Modes = append(p.Modes, []crews.Mode{{Work: n.Nodes[i].Work, Calendar: n.Nodes[i].Calendar}})
	}
	for res := range int32(5) {
		changes := []calendars.Change{{Span: line, By: 2}}
		for range 4 {
			at := line.Start + calendars.Instant(r.IntN(600))
			changes = append(changes,
				calendars.Change{Span: calendars.Span{Start: at, End: at + calendars.Instant(r.IntN(60))}, By: r.IntN(3) - 1})
		}
		p.Capacity = append(p.Capacity, calendars.NewProfile(changes))
		for i := range p.Modes {
			if r.IntN(3) == 0 {
				m := &p.Modes[i][0]
				m.Needs = append(m.Needs, crews.Need{Resource: res, Amount: 1 + int32(r.IntN(2)), Stays: r.IntN(4) == 0})
			}
		}
	}
	return p
}
