package bound_test

import (
	"pgregory.net/rapid"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/network"
)

// low and high are the line of the small problems.
const low, high = calendars.Instant(5000), calendars.Instant(5040)

// small is a problem as the model of minutes sees it, nodes in the order of the
// spec.
type small struct {
	spec   network.Spec
	modes  [][]crews.Mode
	counts []bool
	open   [][]bool // by calendar, minutes from low
	there  [][]int  // by resource, minutes from low
	p      *crews.Problem
}

// drawSmall draws a problem of two to four nodes with every kind of link, wait,
// hold point and need, one or two ways to do each node, and counts that change.
func drawSmall(t *rapid.T) *small {
	b := &small{}
	b.spec.Line = calendars.Span{Start: low, End: high}
	for range rapid.IntRange(1, 3).Draw(t, "calendars") {
		b.drawCalendar(t)
	}
	nodes := rapid.IntRange(2, 4).Draw(t, "nodes")
	resources := rapid.IntRange(1, 2).Draw(t, "resources")
	for range resources {
		b.there = append(b.there, drawCount(t))
	}
	for i := range nodes {
		b.drawNode(t, i, resources)
	}
	for to := 1; to < nodes; to++ {
		for from := range to {
			if rapid.IntRange(0, 9).Draw(t, "linked") < 4 {
				b.spec.Arcs = append(b.spec.Arcs, drawArc(t, from, to))
			}
		}
	}
	b.build(t)
	return b
}

func (b *small) drawCalendar(t *rapid.T) {
	open := make([]bool, high-low)
	always := rapid.IntRange(0, 3).Draw(t, "always open") == 0
	for m, left, on := 0, 0, false; m < len(open); m, left = m+1, left-1 {
		if left <= 0 {
			left, on = rapid.IntRange(1, 9).Draw(t, "stretch"), !on
		}
		open[m] = on || always
	}
	b.open = append(b.open, open)
	b.spec.Calendars = append(b.spec.Calendars, openIn(open))
}

// openIn is the calendar of what is open minute by minute.
func openIn(open []bool) *calendars.Calendar {
	var spans []calendars.Span
	for m, on := range open {
		if on {
			spans = append(spans, calendars.Span{Start: low + calendars.Instant(m), End: low + calendars.Instant(m) + 1})
		}
	}
	return calendars.New(spans)
}

func drawCount(t *rapid.T) []int {
	count := make([]int, high-low)
	for m, left, n := 0, 0, 0; m < len(count); m, left = m+1, left-1 {
		if left <= 0 {
			left = rapid.IntRange(6, 40).Draw(t, "step")
			n = rapid.IntRange(0, 4).Draw(t, "count")
		}
		count[m] = max(n, 1-m%len(count))
	}
	return count
}

func drawMinutes(t *rapid.T, least, most int, name string) calendars.Minutes {
	return calendars.Minutes(rapid.IntRange(least, most).Draw(t, name))
}

func (b *small) drawNode(t *rapid.T, i, resources int) {
	n := network.Node{
		Place:       int32(rapid.IntRange(0, len(b.open)-1).Draw(t, "place")),
		Unbroken:    rapid.IntRange(0, 3).Draw(t, "unbroken") == 0,
		Hold:        network.None,
		Earliest:    low + calendars.Instant(drawMinutes(t, 0, 6, "earliest")*drawMinutes(t, 0, 1, "later")),
		LatestStart: low, LatestFinish: low + 1, LatestDone: low + 2, // dates that may break
	}
	if rapid.IntRange(0, 4).Draw(t, "cures") == 0 {
		n.Cure = drawMinutes(t, 1, 6, "cure")
	}
	if rapid.IntRange(0, 6).Draw(t, "held") == 0 {
		h := network.Hold{Takes: drawMinutes(t, 0, 4, "takes")}
		if rapid.Bool().Draw(t, "by appointment") {
			h.Appointments = []calendars.Instant{low + 12, low + 25, low + 36}
		}
		n.Hold = int32(len(b.spec.Holds))
		b.spec.Holds = append(b.spec.Holds, h)
	}
	var modes []crews.Mode
	for range rapid.SampledFrom([]int{1, 1, 1, 2}).Draw(t, "modes") {
		m := crews.Mode{
			Work:     drawMinutes(t, 0, 8, "work"),
			Calendar: int32(rapid.IntRange(0, len(b.open)-1).Draw(t, "calendar")),
		}
		for r := range resources {
			most := 0
			for _, k := range b.there[r] {
				most = max(most, k)
			}
			amount := int32(rapid.IntRange(0, most).Draw(t, "amount"))
			if amount == 0 {
				continue
			}
			need := crews.Need{Resource: int32(r), Amount: amount, Stays: rapid.IntRange(0, 2).Draw(t, "stays") == 0}
			if need.Stays && rapid.IntRange(0, 2).Draw(t, "closes") == 0 {
				need.After = drawMinutes(t, 1, 6, "after")
			}
			m.Needs = append(m.Needs, need)
		}
		modes = append(modes, m)
	}
	n.Work, n.Calendar = modes[0].Work, modes[0].Calendar
	b.spec.Nodes, b.modes = append(b.spec.Nodes, n), append(b.modes, modes)
	b.counts = append(b.counts, i == 0 || rapid.IntRange(0, 4).Draw(t, "counts") > 0)
}

func drawArc(t *rapid.T, from, to int) network.Arc {
	a := network.Arc{From: int32(from), To: int32(to)}
	if rapid.Bool().Draw(t, "plain") {
		return a
	}
	a.Kind = schedule.LinkKind(rapid.IntRange(0, 3).Draw(t, "kind"))
	switch rapid.IntRange(0, 2).Draw(t, "wait") {
	case 1:
		a.Wait = schedule.Wait{Kind: schedule.Lag, Time: drawMinutes(t, -4, 4, "lag")}
	case 2:
		a.Wait = schedule.Wait{Kind: schedule.Cure, Time: drawMinutes(t, 0, 5, "cure on link")}
	}
	if rapid.IntRange(0, 2).Draw(t, "within said") == 0 {
		a.HasWithin, a.Within = true, drawMinutes(t, 0, 20, "within")
	}
	return a
}

func (b *small) build(t failer) {
	n, err := network.Build(b.spec)
	if err != nil {
		t.Fatalf("%v", err)
	}
	b.p = &crews.Problem{Net: n, Modes: make([][]crews.Mode, len(b.modes)), Counts: make([]bool, len(b.modes))}
	for i, modes := range b.modes {
		b.p.Modes[n.Number[i]], b.p.Counts[n.Number[i]] = modes, b.counts[i]
	}
	for _, count := range b.there {
		var changes []calendars.Change
		for m, k := range count {
			at := low + calendars.Instant(m)
			changes = append(changes, calendars.Change{Span: calendars.Span{Start: at, End: at + 1}, By: k})
		}
		b.p.Capacity = append(b.p.Capacity, calendars.NewProfile(changes))
	}
}
