package bound_test

import (
	"fmt"
	"strings"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/crews/bound"
	"build.example/turflast/schedule/network"
)

// monday is the midnight from which the cases below count.
const monday = calendars.Instant(1440 * 4000)

// at is a moment of day 0, 1, ... at a time like 730.
func at(day, clock int) calendars.Instant {
	return monday + calendars.Instant(1440*day+clock/100*60+clock%100)
}

// job is a node of a hand-made problem: its work, its hours and what it needs.
type job struct {
	work   calendars.Minutes
	hours  int
	needs  []crews.Need
	other  *crews.Mode
	after  []int // jobs that come before
	from   calendars.Instant
	free   bool // the last finish doesn't count it
	within calendars.Minutes
}

// workingHours are two calendars: 7 to 12 and 13 to 18 of ten days, and always.
func workingHours() []*calendars.Calendar {
	var spans []calendars.Span
	for day := range 10 {
		spans = append(spans, calendars.Span{Start: at(day, 700), End: at(day, 1200)},
			calendars.Span{Start: at(day, 1300), End: at(day, 1800)})
	}
	return []*calendars.Calendar{calendars.New(spans), calendars.New([]calendars.Span{{Start: at(0, 0), End: at(10, 0)}})}
}

func problem(t *testing.T, jobs []job, capacity ...[]calendars.Change) *crews.Problem {
	t.Helper()
	s := network.Spec{Line: calendars.Span{Start: at(0, 0), End: at(10, 0)}, Calendars: workingHours()}
	for i, j := range jobs {
		s.Nodes = append(s.Nodes, network.Node{
			Work: j.work, Calendar: int32(j.hours), Place: 1, Hold: network.None, Earliest: max(j.from, at(0, 0)),
			LatestStart: calendars.Never, LatestFinish: calendars.Never, LatestDone: calendars.Never,
		})
		for _, before := range j.after {
			a := network.Arc{From: int32(before), To: int32(i)}
			if j.within > 0 {
				a.HasWithin, a.Within = true, j.within
			}
			s.Arcs = append(s.Arcs, a)
		}
	}
	n, err := network.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	p := &crews.Problem{Net: n, Modes: make([][]crews.Mode, len(jobs)), Counts: make([]bool, len(jobs))}
	for i, j := range jobs {
		modes := []crews.Mode{{Work: j.work, Calendar: int32(j.hours), Needs: j.needs}}
		if j.other != nil {
			modes = append(modes, *j.other)
		}
		p.Modes[n.Number[i]], p.Counts[n.Number[i]] = modes, !j.free
	}
	for _, c := range capacity {
		p.Capacity = append(p.Capacity, calendars.NewProfile(c))
	}
	return p
}

func always(n int) []calendars.Change {
	return []calendars.Change{{Span: calendars.Span{Start: at(0, 0), End: at(10, 0)}, By: n}}
}

func need(resource, amount int) []crews.Need {
	return []crews.Need{{Resource: int32(resource), Amount: int32(amount)}}
}

func stays(amount int, after calendars.Minutes) []crews.Need {
	return []crews.Need{{Amount: int32(amount), Stays: true, After: after}}
}

func clock(t calendars.Instant) string {
	m := int(t - monday)
	return fmt.Sprintf("day %d %02d:%02d", m/1440, m%1440/60, m%60)
}

// said is a window as it would be read out, nodes by their number as given.
func said(p *crews.Problem, w *bound.Window) string {
	if w == nil {
		return "none"
	}
	var b strings.Builder
	fmt.Fprintf(&b, "%s to %s: %s %d needs %d of %d until %s:", clock(w.Span.Start), clock(w.Span.End),
		[]string{"at once", "whole", "held", "fitting", "single", "in turn"}[w.Count], w.Resource, w.Needed, w.There,
		clock(w.Until))
	for number := range p.Net.Number {
		for _, s := range w.Nodes {
			if s.Node == p.Net.Number[number] {
				fmt.Fprintf(&b, " %d x %d for %d", number, s.Amount, s.Minutes)
			}
		}
	}
	return b.String()
}

// TestWindows has hand-made problems: the bound, and what is over-full when all
// is to be done by a moment.
func TestWindows(t *testing.T) {
	day := calendars.Minutes(600)
	for _, c := range []struct {
		name     string
		jobs     []job
		capacity [][]calendars.Change
		finish   calendars.Instant
		until    calendars.Instant
		window   string
	}{
		{
			name:     "enough hands",
			jobs:     []job{{work: 300, needs: need(0, 1)}, {work: 300, needs: need(0, 1)}},
			capacity: [][]calendars.Change{always(2)},
			finish:   at(0, 1200), until: at(0, 1200), window: "none",
		},
		{
			name: "a crew of two for five tasks of a day",
			jobs: []job{{work: day, needs: need(0, 1)}, {work: day, needs: need(0, 1)},
				{work: day, needs: need(0, 1)}, {work: day, needs: need(0, 1)}, {work: day, needs: need(0, 1)}},
			capacity: [][]calendars.Change{always(2)},
			finish:   at(2, 1200), until: at(1, 1800),
			window: "day 0 07:00 to day 1 18:00: whole 0 needs 3000 of 2400 until day 1 18:00: " +
				"0 x 1 for 600 1 x 1 for 600 2 x 1 for 600 3 x 1 for 600 4 x 1 for 600",
		},
		{
			name:     "a pause in the middle counts for nothing",
			jobs:     []job{{work: 360, needs: need(0, 1)}, {work: 360, needs: need(0, 1)}},
			capacity: [][]calendars.Change{always(1)},
			finish:   at(1, 900), until: at(0, 1800),
			window: "day 0 11:00 to day 0 12:00: at once 0 needs 120 of 60 until day 0 18:00: 0 x 1 for 60 1 x 1 for 60",
		},
		{
			name: "fewer hands on the second day",
			jobs: []job{{work: day, needs: need(0, 1)}, {work: day, needs: need(0, 1)}, {work: day, needs: need(0, 1)}},
			capacity: [][]calendars.Change{{
				{Span: calendars.Span{Start: at(0, 0), End: at(1, 0)}, By: 2},
				{Span: calendars.Span{Start: at(1, 0), End: at(10, 0)}, By: 1},
			}},
			finish: at(1, 1800), until: at(1, 1200),
			window: "day 0 13:00 to day 0 18:00: at once 0 needs 900 of 600 until day 1 12:00: " +
				"0 x 1 for 300 1 x 1 for 300 2 x 1 for 300",
		},
		{
			name:     "room for six holds one task of four",
			jobs:     []job{{work: 300, needs: need(0, 4)}, {work: 300, needs: need(0, 4)}, {work: 300, needs: need(0, 4)}},
			capacity: [][]calendars.Change{always(6)},
			finish:   at(1, 1200), until: at(0, 1800),
			window: "day 0 07:00 to day 0 18:00: fitting 0 needs 3600 of 2400 until day 0 18:00: " +
				"0 x 4 for 300 1 x 4 for 300 2 x 4 for 300",
		},
		{
			name: "three machines, two of which each task needs",
			jobs: []job{
				{work: 300, needs: append(need(0, 1), need(1, 1)...)}, {work: 300, needs: append(need(1, 1), need(2, 1)...)},
				{work: 300, needs: append(need(2, 1), need(0, 1)...)},
			},
			capacity: [][]calendars.Change{always(1), always(1), always(1)},
			finish:   at(1, 1200), until: at(0, 1800),
			window: "day 0 07:00 to day 0 18:00: single -1 needs 900 of 600 until day 0 18:00: " +
				"0 x 1 for 300 1 x 1 for 300 2 x 1 for 300",
		},
		{
			name: "only the days that links leave",
			jobs: []job{
				{work: day, hours: 0}, {work: day, needs: need(0, 1), after: []int{0}},
				{work: day, needs: need(0, 1), after: []int{0}},
				{work: day, after: []int{1, 2}},
			},
			capacity: [][]calendars.Change{always(1)},
			finish:   at(3, 1800), until: at(2, 1800),
			window: "day 1 07:00 to day 1 12:00: at once 0 needs 600 of 300 until day 2 18:00: 1 x 1 for 300 2 x 1 for 300",
		},
		{
			name:     "scaffolds that stay through the night",
			jobs:     []job{{work: 720, needs: stays(1, 0)}, {work: 720, needs: stays(1, 0)}, {work: 720, needs: stays(1, 0)}},
			capacity: [][]calendars.Change{always(1)},
			finish:   at(3, 1400), until: at(2, 1800),
			window: "day 0 07:00 to day 2 18:00: whole 0 needs 2160 of 1800 until day 2 18:00: " +
				"0 x 1 for 720 1 x 1 for 720 2 x 1 for 720",
		},
		{
			name: "one after the other, neither way round in time",
			jobs: []job{
				{work: 480, hours: 1, needs: need(0, 1), from: at(0, 600)},
				{work: 60, hours: 1, needs: stays(1, 300), from: at(0, 300)},
				{work: 120, hours: 1, after: []int{1}},
			},
			capacity: [][]calendars.Change{always(1)},
			finish:   at(0, 1700), until: at(0, 1600),
			window: "day 0 06:00 to day 0 14:00: in turn 0 needs 540 of 480 until day 0 16:00: 0 x 1 for 480 1 x 1 for 60",
		},
		{
			name:     "closed for a day after",
			jobs:     []job{{work: 120, needs: stays(1, 1440)}, {work: 120, needs: stays(1, 1440)}},
			capacity: [][]calendars.Change{always(1)},
			finish:   at(1, 1100), until: at(0, 1800),
			window: "day 0 16:00 to day 1 09:00: held 0 needs 2040 of 1020 until day 0 18:00: 0 x 1 for 1020 1 x 1 for 1020",
		},
		{
			name: "the fewest person-minutes of a choice of heads",
			jobs: []job{
				{work: 600, needs: need(0, 1), other: &crews.Mode{Work: 360, Needs: need(0, 2)}},
				{work: 600, needs: need(0, 1), other: &crews.Mode{Work: 360, Needs: need(0, 2)}},
				{work: 600, needs: need(0, 1), other: &crews.Mode{Work: 360, Needs: need(0, 2)}},
			},
			capacity: [][]calendars.Change{always(2)},
			finish:   at(1, 1400), until: at(0, 1800),
			window: "day 0 11:00 to day 0 12:00: at once 0 needs 180 of 120 until day 0 18:00: " +
				"0 x 1 for 60 1 x 1 for 60 2 x 1 for 60",
		},
		{
			name:     "what doesn't count may lie later",
			jobs:     []job{{work: day, needs: need(0, 1)}, {work: day, needs: need(0, 1), free: true}},
			capacity: [][]calendars.Change{always(1)},
			finish:   at(0, 1800), until: at(0, 1800), window: "none",
		},
		{
			name: "straight on after what holds the crew",
			jobs: []job{{work: 300, needs: need(0, 1)}, {work: 300, hours: 1},
				{work: 300, needs: need(0, 1), after: []int{1}, within: 60}},
			capacity: [][]calendars.Change{always(1)},
			finish:   at(0, 1800), until: at(0, 1759),
			window: "day 0 07:00 to day 0 17:59: whole 0 needs 600 of 599 until day 0 17:59: 0 x 1 for 300 2 x 1 for 300",
		},
		{
			name: "a choice of heads that would take too long has no part in it",
			jobs: []job{
				{work: 300, hours: 1, needs: need(0, 1)},
				{work: 300, hours: 1, needs: need(0, 1), other: &crews.Mode{Work: 4000, Calendar: 1, Needs: need(0, 1)}},
			},
			capacity: [][]calendars.Change{always(1)},
			finish:   at(0, 1000), until: at(0, 959),
			window: "day 0 00:00 to day 0 09:59: whole 0 needs 600 of 599 until day 0 09:59: 0 x 1 for 300 1 x 1 for 300",
		},
		{
			name: "straight on after work that others wait for",
			jobs: []job{
				{work: 60, hours: 1}, {work: 300, hours: 1, needs: need(0, 1), after: []int{0}, within: 60},
				{work: 300, hours: 1, needs: need(0, 1)}, {work: 600, hours: 1, after: []int{2}},
				{work: 800, hours: 1, after: []int{0}},
			},
			capacity: [][]calendars.Change{always(1)},
			finish:   at(0, 1720), until: at(0, 1719),
			window: "day 0 00:00 to day 0 09:59: whole 0 needs 600 of 599 until day 0 17:19: 1 x 1 for 300 2 x 1 for 300",
		},
		{
			name: "sooner for one crew, since another is taken at the end",
			jobs: []job{
				{work: 300, hours: 1, needs: need(1, 1)}, {work: 300, hours: 1, needs: need(0, 1), after: []int{0}},
				{work: 300, hours: 1, needs: need(0, 1), from: at(0, 1140)},
				{work: 300, hours: 1, needs: need(0, 1), from: at(0, 1140)},
				{work: 300, hours: 1, needs: need(1, 1)}, {work: 600, hours: 1, after: []int{4}},
			},
			capacity: [][]calendars.Change{always(2), always(1)},
			finish:   at(0, 2000), until: at(0, 1959),
			window: "day 0 00:00 to day 0 09:59: whole 1 needs 600 of 599 until day 0 19:59: 0 x 1 for 300 4 x 1 for 300",
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := problem(t, c.jobs, c.capacity...)
			if r := bound.Finish(p, bound.Options{}); r.Finish != c.finish {
				t.Errorf("bound %s, want %s", clock(r.Finish), clock(c.finish))
			}
			if got := said(p, bound.Overfull(p, c.until, bound.Options{})); got != c.window {
				t.Errorf("window\n%s, want\n%s", got, c.window)
			}
		})
	}
}
