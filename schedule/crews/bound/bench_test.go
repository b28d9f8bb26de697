package bound_test

import (
	"math/rand/v2"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/crews/bound"
	"build.example/turflast/schedule/network"
)

// large is a problem of n nodes in four kinds of hours, sharing resources of
// which each node takes up to three; some stay, some have a choice of hands.
func large(n, resources int, seed uint64) *crews.Problem {
	r := rand.New(rand.NewPCG(seed, 3))
	s := network.Spec{Line: calendars.Span{Start: 1, End: 1440 * 7 * 80}}
	for k := range 4 {
		var spans []calendars.Span
		for day := s.Line.Start; day < s.Line.End; day += 1440 {
			if (day/1440)%7 == 6 {
				continue
			}
			from := day + 420 + calendars.Instant(15*k)
			spans = append(spans, calendars.Span{Start: from, End: from + 300},
				calendars.Span{Start: from + 330, End: from + 630})
		}
		s.Calendars = append(s.Calendars, calendars.New(spans))
	}
	var modes [][]crews.Mode
	for i := range n {
		m := crews.Mode{Work: calendars.Minutes(15 * (1 + r.IntN(32))), Calendar: int32(r.IntN(4))}
		for _, k := range r.Perm(resources)[:1+r.IntN(3)] {
			m.Needs = append(m.Needs, crews.Need{Resource: int32(k), Amount: int32(1 + r.IntN(3)), Stays: r.IntN(10) == 0})
		}
		s.Nodes = append(s.Nodes, network.Node{
			Work: m.Work, Calendar: m.Calendar, Hold: network.None, Earliest: 1440 * 7,
			LatestStart: calendars.Never, LatestFinish: calendars.Never, LatestDone: calendars.Never,
		})
		choice := []crews.Mode{m}
		if r.IntN(5) == 0 {
			half := m
			half.Work, half.Needs = 2*m.Work, append([]crews.Need(nil), m.Needs...)
			half.Needs[0].Amount = (m.Needs[0].Amount + 1) / 2
			choice = append(choice, half)
		}
		modes = append(modes, choice)
		for range min(i, 2) {
			s.Arcs = append(s.Arcs, network.Arc{From: int32(i - 1 - r.IntN(min(i, 40))), To: int32(i)})
		}
	}
	net, err := network.Build(s)
	if err != nil {
		panic(err)
	}
	p := &crews.Problem{Net: net, Modes: make([][]crews.Mode, n)}
	for i, m := range modes {
		p.Modes[net.Number[i]] = m
	}
	for k := range resources {
		p.Capacity = append(p.Capacity, calendars.NewProfile([]calendars.Change{{Span: s.Line, By: 4 + k%3}}))
	}
	return p
}

// BenchmarkFinish's bar is a second for 1,000 nodes that share 20 resources.
func BenchmarkFinish(b *testing.B) {
	for _, c := range []struct {
		name             string
		nodes, resources int
	}{{"100x8", 100, 8}, {"1000x20", 1000, 20}} {
		b.Run(c.name, func(b *testing.B) {
			p := large(c.nodes, c.resources, 1)
			for b.Loop() {
				r := bound.Finish(p, bound.Options{})
				b.ReportMetric(float64(r.Finish-r.Network)/float64(r.Network-1440*7)*100, "%later")
				b.ReportMetric(float64(r.Work), "steps")
			}
		})
	}
}
