package search

import (
	"cmp"
	"runtime"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/internal/halt"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/critical"
)

// builder builds schedules of one problem. Only one goroutine may use it at a
// time.
type builder struct {
	p      *crews.Problem
	n      *network.Network    // a copy of p.Net whose nodes take the chosen modes
	modes  [][]mode            // by node
	mode   []uint8             // chosen, by node
	least  []calendars.Instant // no start is before it; nil: as the network says
	want   []calendars.Instant // no start is before it, and heldTo says of which that holds back; nil: none
	heldTo []calendars.Instant // by node; Past for what nothing holds back
	givers [][]int32           // by node: those whose finish it waits for; nil: none
	empty  []timeline
	there  []timeline // what is there when all are: of the lines that empty has less of
	lines  []timeline // what is left while a schedule is built
	times  *network.Times
	built  int                 // schedules so far
	due    []calendars.Instant // by node: the latest finish of a right-justified schedule; nil: the end for all

	against bool      // some links may run against an order of starts, or have longest waits
	withins [][]int32 // by node, into n.Withins
	floors  []floor   // raised when a link that runs against the order doesn't hold
	raised  bool
	partial bool // go on when a node has no place
	halt    halt.Halt
	lenient bool // a longest wait to a node without a place holds nothing

	gone   []bool              // by node: left out, with its links; nil: none
	past   *network.Times      // what is over by upto has these dates; nil: nothing is known to be over
	upto   calendars.Instant   // with it
	holds  []calendars.Minutes // by node: the longest that it holds anything after its finish
	latest []calendars.Instant // by node: a schedule in which it starts later isn't wanted; nil: all are

	spans []calendars.Span  // scratch
	whole [1]calendars.Span // scratch
}

// mode is a Mode with its needs by timeline.
type mode struct {
	work     calendars.Minutes
	calendar int32
	needs    []laneNeed
}

// laneNeed is what a node takes of one timeline.
type laneNeed struct {
	line  int32
	stays bool
	after calendars.Minutes
	need  uint64
}

// floor is the least start and finish found for a node.
type floor struct{ start, finish calendars.Instant }

func newBuilder(p *crews.Problem) *builder {
	n := *p.Net
	n.Nodes = append([]network.Node(nil), n.Nodes...)
	b := &builder{p: p, n: &n, times: network.NewTimes(&n), mode: make([]uint8, len(n.Nodes))}
	there := make([][]level, len(p.Capacity))
	for r := range there {
		there[r] = levelsOf(p, r)
	}
	for r := 0; r < len(there); r += lanes {
		b.empty = append(b.empty, newTimeline(there[r:min(r+lanes, len(there))]))
	}
	b.lines = make([]timeline, len(b.empty))
	b.modes = make([][]mode, len(p.Modes))
	for i, modes := range p.Modes {
		for _, m := range modes {
			own := mode{work: m.Work, calendar: m.Calendar}
			for _, need := range byResource(m.Needs) {
				own.add(need)
			}
			b.modes[i] = append(b.modes[i], own)
		}
	}
	b.against = len(n.Withins) > 0 || len(n.InOther.First) > 0
	if b.against {
		b.floors = make([]floor, len(n.Nodes))
		b.withins = make([][]int32, len(n.Nodes))
		for k, w := range n.Withins {
			b.withins[w.From] = append(b.withins[w.From], int32(k))
			b.withins[w.To] = append(b.withins[w.To], int32(k))
		}
	}
	return b
}

// byResource is needs in the order of what they are of, as which they mostly come.
func byResource(needs []crews.Need) []crews.Need {
	order := func(a, b crews.Need) int { return cmp.Compare(a.Resource, b.Resource) }
	if slices.IsSortedFunc(needs, order) {
		return needs
	}
	return slices.SortedStableFunc(slices.Values(needs), order)
}

// add puts a need into the word of its timeline, after those of lower resources.
func (m *mode) add(n crews.Need) {
	if n.Amount == 0 || m.work == 0 && n.After == 0 {
		return
	}
	line := n.Resource / lanes
	word := uint64(n.Amount) << (n.Resource % lanes * laneBits)
	stays := n.Stays || n.After > 0
	for k := len(m.needs) - 1; k >= 0 && m.needs[k].line == line; k-- {
		if l := &m.needs[k]; l.stays == stays && l.after == n.After {
			l.need += word
			return
		}
	}
	m.needs = append(m.needs, laneNeed{line, stays, n.After, word})
}

// use sets the mode of every node.
func (b *builder) use(modes []uint8) {
	for i, m := range modes {
		if len(b.modes[i]) > 1 {
			b.mode[i] = m
			b.n.Nodes[i].Work, b.n.Nodes[i].Calendar = b.modes[i][m].work, b.modes[i][m].calendar
		}
	}
}

func (b *builder) needs(i int) []laneNeed { return b.modes[i][b.mode[i]].needs }

func (b *builder) reset() {
	for i := range b.lines {
		b.lines[i].copyFrom(&b.empty[i])
	}
	b.built++
	runtime.Gosched() // lets other goroutines run, such as one that draws the screen
}

// mostRaises bounds the schedules built until all links that run against the
// order hold. An order that settles does so after a few; in one that can't, nodes
// push each other on for ever.
const mostRaises = 24

// forward builds a left-justified schedule: nodes in order, each as early as it
// may be. When a longest wait, or a link to a node that came earlier in the order,
// doesn't hold, it raises the floor under the node that must move and starts
// again. The starts that it finds are the least for that order, so from the order
// of any feasible schedule it finds one that is as early. It returns whether every
// node has a place; a halt leaves some without.
func (b *builder) forward(order []int32) bool {
	if !b.against {
		return b.place(order)
	}
	for i := range b.floors {
		b.floors[i] = floor{calendars.Past, calendars.Past}
	}
	past := b.past
	defer func() { b.past = past }()
	for range mostRaises {
		b.raised = false
		for i := range b.times.Start {
			b.times.Start[i], b.times.Finish[i], b.times.Done[i] = calendars.Past, calendars.Past, calendars.Past
		}
		all := b.place(order)
		if b.halt.Over() {
			return false
		}
		if !b.raised || !all && !b.partial {
			return all
		}
		b.past = nil // what is raised may move others
	}
	return false
}

func (b *builder) place(order []int32) bool {
	b.reset()
	t, all := b.times, true
	for _, k := range order {
		if b.halt.Step() {
			return false
		}
		i := int(k)
		if b.gone != nil && b.gone[i] {
			t.Start[i], t.Finish[i], t.Done[i] = calendars.Past, calendars.Past, calendars.Past
			continue
		}
		start, finish := b.over(i)
		if start == calendars.Never {
			start, finish = b.clear(b.from(i))
		}
		t.Start[i], t.Finish[i], t.Done[i] = start, finish, critical.Done(b.n, &b.n.Nodes[i], finish)
		if b.latest != nil && start > b.latest[i] {
			return false
		}
		all = all && t.Done[i] != calendars.Never
		if b.against && start != calendars.Never {
			b.raise(i)
		}
	}
	return all
}

// from is node i with the least start and the least finish that it may have, whatever is free.
func (b *builder) from(i int) (node int, from, until calendars.Instant) {
	from, until = critical.Held(b.n, b.times, i)
	if b.least != nil {
		from = max(from, b.least[i])
	}
	if b.givers != nil {
		for _, g := range b.givers[i] {
			from = max(from, b.times.Finish[g])
		}
	}
	if b.against {
		from, until = max(from, b.floors[i].start), max(until, b.floors[i].finish)
	}
	if b.want != nil {
		from = b.holdBack(i, from, until)
	}
	return i, from, until
}

// over returns the dates of a node that is known to be over, which holds nothing any more that
// others could want; Never for any other.
func (b *builder) over(i int) (start, finish calendars.Instant) {
	if b.past == nil || b.past.Finish[i].Plus(b.holds[i]) > b.upto {
		return calendars.Never, calendars.Never
	}
	return b.past.Start[i], b.past.Finish[i]
}

// holdBack notes whether node i would start sooner than is wanted, and is from when it may.
func (b *builder) holdBack(i int, from, until calendars.Instant) calendars.Instant {
	b.heldTo[i] = calendars.Past
	if start, _ := b.fit(i, from, until); start >= b.want[i] {
		return from
	}
	b.heldTo[i] = b.want[i]
	return b.want[i]
}

// clear places node i at the earliest start from which all that it needs is free,
// and takes what it needs.
func (b *builder) clear(i int, from, until calendars.Instant) (start, finish calendars.Instant) {
	start, finish = b.fit(i, from, until)
	if start != calendars.Never {
		b.hold(i, start, finish)
	}
	return start, finish
}

// fit is the earliest place of node i in which all that it needs is free.
func (b *builder) fit(i int, from, until calendars.Instant) (start, finish calendars.Instant) {
	node := &b.n.Nodes[i]
	start, finish = critical.Place(b.n, node, from, until)
	for len(b.needs(i)) > 0 && start != calendars.Never {
		free := b.freeFrom(i, start, finish)
		if free <= start || b.halt.Step() {
			break
		}
		start, finish = critical.Place(b.n, node, free, until)
	}
	return start, finish
}

// raise lifts floors where a longest wait at node i, or a link from it to a node
// that has its place already, doesn't hold.
func (b *builder) raise(i int) {
	t := b.times
	for _, k := range b.withins[i] {
		w := &b.n.Withins[k]
		if t.Start[w.From] == calendars.Past || t.Start[w.To] == calendars.Past {
			continue
		}
		if b.lenient && t.Start[w.To] == calendars.Never {
			continue
		}
		event, follows := t.Start[w.From], t.Start[w.To]
		if w.Kind.ToFinish() {
			follows = t.Finish[w.To]
		}
		if w.Kind.FromFinish() {
			b.lift(w.From, calendars.Past, follows.Plus(-w.Most), t.Finish[w.From])
		} else {
			b.lift(w.From, follows.Plus(-w.Most), calendars.Past, event)
		}
	}
	ends := b.n.OutOther.Of(i)
	for k := range ends {
		e := &ends[k]
		if t.Start[e.Node] == calendars.Past {
			continue
		}
		at := critical.Waited(b.n, &b.n.Nodes[i], e, b.n.Calendars[b.n.Nodes[e.Node].Place],
			t.Start[i], t.Finish[i], t.Done[i])
		if e.Kind.ToFinish() {
			b.lift(e.Node, calendars.Past, at, t.Finish[e.Node])
		} else {
			b.lift(e.Node, at, calendars.Past, t.Start[e.Node])
		}
	}
}

// lift raises the floors of a node whose present moment is below.
func (b *builder) lift(node int32, start, finish, present calendars.Instant) {
	if present >= max(start, finish) {
		return
	}
	f := &b.floors[node]
	f.start, f.finish, b.raised = max(f.start, start), max(f.finish, finish), true
}

// backward builds a right-justified schedule that ends at or before end: nodes in
// order, followers first, each as late as it may be. It is a guide for the next
// forward pass, so it ignores earliest starts, dates other than those in b.due,
// longest waits, and links to nodes that come later in the order. It returns the
// earliest start, Past when some node has no place or when halted.
func (b *builder) backward(order []int32, end calendars.Instant) calendars.Instant {
	b.reset()
	t, first := b.times, calendars.Never
	if b.against {
		for i := range t.Start {
			t.Start[i], t.Finish[i] = calendars.Never, calendars.Never
		}
	}
	for _, k := range order {
		if b.halt.Step() {
			return calendars.Past
		}
		i := int(k)
		end := end
		if b.due != nil {
			end = min(end, b.due[i])
		}
		start, finish := critical.Latest(b.n, i, t.Start, t.Finish, end)
		for len(b.needs(i)) > 0 && start != calendars.Past {
			if b.halt.Step() {
				return calendars.Past
			}
			upto := b.freeUpto(i, start, finish)
			if upto >= finish {
				b.hold(i, start, finish)
				break
			}
			start, finish = critical.Latest(b.n, i, t.Start, t.Finish, upto)
		}
		t.Start[i], t.Finish[i] = start, finish
		first = min(first, start)
	}
	return first
}

// freeFrom is the end of the last piece of time from start to finish in which too
// little is left for node i; start when there is none.
func (b *builder) freeFrom(i int, start, finish calendars.Instant) calendars.Instant {
	free, worked := start, b.worked(i, start, finish)
	for k := range b.needs(i) {
		l := &b.needs(i)[k]
		line := &b.lines[l.line]
		for _, s := range b.held(l, start, finish, worked) {
			if short := line.lastShort(s.Start, s.End, l.need); short != s.Start {
				free = max(free, short)
			}
		}
	}
	return free
}

// freeUpto is the latest finish of node i before the first such piece; finish when
// there is none.
func (b *builder) freeUpto(i int, start, finish calendars.Instant) calendars.Instant {
	upto, worked := finish, b.worked(i, start, finish)
	for k := range b.needs(i) {
		l := &b.needs(i)[k]
		line := &b.lines[l.line]
		for _, s := range b.held(l, start, finish, worked) {
			if short := line.firstShort(s.Start, s.End, l.need); short != s.End {
				upto = min(upto, short.Plus(-l.after))
			}
		}
	}
	return upto
}

// hold takes what node i needs from start to finish.
func (b *builder) hold(i int, start, finish calendars.Instant) {
	needs := b.needs(i)
	if len(needs) == 0 {
		return
	}
	worked := b.worked(i, start, finish)
	for k := range needs {
		l := &needs[k]
		for _, s := range b.held(l, start, finish, worked) {
			b.lines[l.line].take(s.Start, s.End, l.need)
		}
	}
}

// held is the time in which a node holds one of its needs: the stretches that it is
// worked, or all of it when it stays.
func (b *builder) held(
	l *laneNeed, start, finish calendars.Instant, worked []calendars.Span,
) []calendars.Span {
	if !l.stays {
		return worked
	}
	b.whole[0] = calendars.Span{Start: start, End: finish.Plus(l.after)}
	return b.whole[:]
}

// worked is the stretches in which node i is worked from start to finish. They are valid
// until the next call.
func (b *builder) worked(i int, start, finish calendars.Instant) []calendars.Span {
	b.spans = b.spans[:0]
	if finish-start == calendars.Instant(b.n.Nodes[i].Work) {
		b.spans = append(b.spans, calendars.Span{Start: start, End: finish})
		return b.spans
	}
	hours := b.n.Calendars[b.n.Nodes[i].Calendar]
	for at := start; at < finish; {
		open, _ := hours.Opening(at)
		to := min(open.End, finish)
		b.spans = append(b.spans, calendars.Span{Start: max(at, open.Start), End: to})
		at = to
	}
	return b.spans
}

// runsAlong says whether a link keeps its follower from starting before the node
// that it follows.
func runsAlong(kind schedule.LinkKind, wait schedule.Wait) bool {
	return wait.Time >= 0 && (kind == schedule.FinishStart || kind == schedule.StartStart)
}
