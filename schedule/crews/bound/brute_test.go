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
	var spans []calendars.Span
	for m, on := range open {
		if on {
			spans = append(spans, calendars.Span{Start: low + calendars.Instant(m), End: low + calendars.Instant(m) + 1})
		}
	}
	b.spec.Calendars = append(b.spec.Calendars, calendars.New(spans))
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
		Place: int32(rapid.IntRange(0, len(b.open)-1).Draw(t, "place")), Unbroken: rapid.IntRange(0, 3).Draw(t, "unbroken") == 0,
		Hold: network.None, Earliest: low + calendars.Instant(drawMinutes(t, 0, 6, "earliest")*drawMinutes(t, 0, 1, "later")),
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
		m := crews.Mode{Work: drawMinutes(t, 0, 8, "work"), Calendar: int32(rapid.IntRange(0, len(b.open)-1).Draw(t, "calendar"))}
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

func (b *small) build(t *rapid.T) {
	n, err := network.Build(b.spec)
	if err != nil {
		t.Fatal(err)
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

// placed is a node with its dates in one schedule.
type placed struct{ start, finish, done, signed calendars.Instant }

// brute tries every start of every node in every mode, minute by minute.
type brute struct {
	*small
	at      []placed
	left    [][]int
	alone   bool // leave the counts out
	best    calendars.Instant
	visit   func(at []placed, worked [][]calendars.Instant)
	minutes [][]calendars.Instant // worked, by node
}

// optimum is the least last done, or Never when no schedule exists.
func (b *small) optimum() calendars.Instant {
	x := &brute{small: b, at: make([]placed, len(b.modes)), best: calendars.Never, minutes: make([][]calendars.Instant, len(b.modes))}
	for _, count := range b.there {
		x.left = append(x.left, append(append([]int(nil), count...), make([]int, 40)...))
	}
	x.try(0)
	return x.best
}

func (x *brute) isOpen(c int32, t calendars.Instant) bool {
	return t >= low && t < high && x.open[c][t-low]
}

func (x *brute) try(i int) {
	if i == len(x.modes) {
		last := calendars.Past
		for k, p := range x.at {
			if x.counts[k] {
				last = max(last, p.done)
			}
		}
		if x.visit != nil {
			x.visit(x.at, x.minutes)
		}
		x.best = min(x.best, last)
		return
	}
	for mode := range x.modes[i] {
		for s := max(low, x.spec.Nodes[i].Earliest); s < high; s++ {
			x.tryAt(i, &x.modes[i][mode], s)
		}
	}
}

func (x *brute) tryAt(i int, m *crews.Mode, s calendars.Instant) {
	worked, ok := x.worked(i, m, s)
	if !ok {
		return
	}
	p := placed{start: s, finish: s}
	if len(worked) > 0 {
		p.finish = worked[len(worked)-1] + 1
	}
	if p.signed = x.signed(i, p.finish); p.signed == calendars.Never {
		return
	}
	p.done = max(p.finish+calendars.Instant(x.spec.Nodes[i].Cure), p.signed)
	if x.counts[i] && x.visit == nil && p.done >= x.best {
		return
	}
	x.at[i], x.minutes[i] = p, worked
	if !x.linked(i) {
		return
	}
	took := x.take(m, worked, p, 1)
	if took {
		x.try(i + 1)
	}
	x.take(m, worked, p, -1)
}

func (x *brute) worked(i int, m *crews.Mode, s calendars.Instant) ([]calendars.Instant, bool) {
	var out []calendars.Instant
	if m.Work > 0 && !x.isOpen(m.Calendar, s) {
		return nil, false
	}
	for t := s; len(out) < int(m.Work); t++ {
		if t >= high || x.spec.Nodes[i].Unbroken && !x.isOpen(m.Calendar, t) {
			return nil, false
		}
		if x.isOpen(m.Calendar, t) {
			out = append(out, t)
		}
	}
	return out, true
}

func (x *brute) signed(i int, finish calendars.Instant) calendars.Instant {
	n := &x.spec.Nodes[i]
	if n.Hold == network.None {
		return finish
	}
	h := &x.spec.Holds[n.Hold]
	if len(h.Appointments) == 0 {
		return x.on(n.Place, finish, h.Takes)
	}
	for _, a := range h.Appointments {
		if a >= finish {
			return a + calendars.Instant(h.Takes)
		}
	}
	return calendars.Never
}

// on is the earliest instant with so much open time after t.
func (x *brute) on(c int32, t calendars.Instant, w calendars.Minutes) calendars.Instant {
	for ; w > 0; t++ {
		if t >= high {
			return calendars.Never
		}
		if x.isOpen(c, t) {
			w--
		}
	}
	return t
}

// back is the latest instant with so much open time up to t.
func (x *brute) back(c int32, t calendars.Instant, w calendars.Minutes) calendars.Instant {
	for ; w > 0; t-- {
		if t <= low {
			return calendars.Past
		}
		if x.isOpen(c, t-1) {
			w--
		}
	}
	return t
}

// linked says whether the links among the nodes placed so far hold.
func (x *brute) linked(i int) bool {
	for k := range x.spec.Arcs {
		a := &x.spec.Arcs[k]
		if int(max(a.From, a.To)) != i {
			continue
		}
		from, to, n := &x.at[a.From], &x.at[a.To], &x.spec.Nodes[a.From]
		event, follows := from.start, to.start
		if a.Kind.FromFinish() {
			event = from.finish
		}
		if a.Kind.ToFinish() {
			follows = to.finish
		}
		if a.HasWithin && follows-event > calendars.Instant(a.Within) {
			return false
		}
		place := x.spec.Nodes[a.To].Place
		switch {
		case a.Wait.Kind == schedule.Cure:
			event += calendars.Instant(a.Wait.Time)
		case a.Wait.Kind == schedule.Lag && a.Wait.Time >= 0:
			event = x.on(place, event, a.Wait.Time)
		case a.Wait.Kind == schedule.Lag:
			event = x.back(place, event, -a.Wait.Time)
		case a.Kind.FromFinish():
			event += calendars.Instant(n.Cure)
		}
		if a.Kind.FromFinish() && n.Hold != network.None {
			event = max(event, from.signed)
		}
		if follows < event {
			return false
		}
	}
	return true
}

// take takes what a node needs, or gives it back, and says whether it was there.
func (x *brute) take(m *crews.Mode, worked []calendars.Instant, p placed, sign int) bool {
	fits := true
	use := func(r int32, t calendars.Instant, amount int32) {
		left := &x.left[r][t-low]
		*left -= sign * int(amount)
		fits = fits && *left >= 0
	}
	for _, need := range m.Needs {
		if x.alone || m.Work == 0 && need.After == 0 {
			continue
		}
		if !need.Stays {
			for _, t := range worked {
				use(need.Resource, t, need.Amount)
			}
			continue
		}
		for t := p.start; t < p.finish+calendars.Instant(need.After); t++ {
			use(need.Resource, t, need.Amount)
		}
	}
	return fits
}

// spent is the least that each node works or, so told, holds in a span, over all
// schedules that are done by a moment when counts are left out; false when there
// is none.
func (b *small) spent(span calendars.Span, until calendars.Instant, held bool, r int32) (least []int, found bool) {
	x := &brute{small: b, at: make([]placed, len(b.modes)), best: calendars.Never, minutes: make([][]calendars.Instant, len(b.modes)), alone: true}
	for range b.modes {
		least = append(least, 1<<30)
	}
	x.visit = func(at []placed, worked [][]calendars.Instant) {
		for i := range at {
			if b.counts[i] && at[i].done > until {
				return
			}
		}
		found = true
		for i := range at {
			minutes := 0
			for _, t := range worked[i] {
				if span.Holds(t) {
					minutes++
				}
			}
			if held {
				minutes = max(minutes, b.held(i, at[i], span, r))
			}
			least[i] = min(least[i], minutes)
		}
	}
	x.try(0)
	return least, found
}

// held is for how long a node holds something through its pauses in a span.
func (b *small) held(i int, p placed, span calendars.Span, r int32) int {
	after := calendars.Minutes(1 << 20)
	for _, m := range b.modes[i] {
		for _, n := range m.Needs {
			if n.Resource == r && n.Stays {
				after = min(after, n.After)
			}
		}
	}
	if after == 1<<20 {
		return 0
	}
	return max(0, int(min(p.finish+calendars.Instant(after), span.End)-max(p.start, span.Start)))
}
