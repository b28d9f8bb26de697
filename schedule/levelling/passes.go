package levelling

import (
	"turflast/calendars"
	"turflast/schedule/critical"
	"turflast/schedule/network"
)

// builder builds schedules of one problem. It is not for several goroutines.
type builder struct {
	p     *Problem
	n     *network.Network
	needs [][]laneNeed // by node
	empty []timeline
	lines []timeline // what is left while a schedule is built
	times *critical.Times
	built int // schedules so far

}

// laneNeed is what a node takes of one timeline.
type laneNeed struct {
	line  int32
	stays bool
	need  uint64
}

func newBuilder(p *Problem) *builder {
	b := &builder{p: p, n: p.Net, times: critical.NewTimes(p.Net)}
	for r := 0; r < len(p.Capacity); r += lanes {
		b.empty = append(b.empty, newTimeline(p.Capacity[r:min(r+lanes, len(p.Capacity))]))
	}
	b.lines = make([]timeline, len(b.empty))
	b.needs = make([][]laneNeed, len(p.Needs))
	for i, needs := range p.Needs {
		for _, n := range needs {
			b.addNeed(i, n)
		}
	}
	return b
}

// addNeed puts a need into the word of its timeline.
func (b *builder) addNeed(i int, n Need) {
	if n.Amount == 0 || b.n.Nodes[i].Work == 0 {
		return
	}
	line := n.Resource / lanes
	word := uint64(n.Amount) << (n.Resource % lanes * laneBits)
	for k := range b.needs[i] {
		if l := &b.needs[i][k]; l.line == line && l.stays == n.Stays {
			l.need += word
			return
		}
	}
	b.needs[i] = append(b.needs[i], laneNeed{line, n.Stays, word})
}

func (b *builder) reset() {
	for i := range b.lines {
		b.lines[i].copyFrom(&b.empty[i])
	}
	b.built++
}

// forward builds a left-justified schedule: nodes in order, each as early as
// it may be. It returns the finish, Never when some node has no place.
func (b *builder) forward(order []int32) calendars.Instant {
	b.reset()
	t, end := b.times, calendars.Past
	for _, k := range order {
		i := int(k)
		node := &b.n.Nodes[i]
		from, until := critical.Held(b.n, t, i)
		start, finish := critical.Place(b.n, node, from, until)
		for len(b.needs[i]) > 0 && start != calendars.Never {
			free := b.freeFrom(i, start, finish)
			if free <= start {
				b.hold(i, start, finish)
				break
			}
			start, finish = critical.Place(b.n, node, free, until)
		}
		t.Start[i], t.Finish[i], t.Done[i] = start, finish, critical.Done(b.n, node, finish)
		end = max(end, t.Done[i])
	}
	return end
}

// backward builds a right-justified schedule that ends at or before end: nodes
// in order, followers first, each as late as it may be. It is a guide for the
// next forward pass: earliest starts, and dates, are left out. It returns the
// earliest start, Past when some node has no place.
func (b *builder) backward(order []int32, end calendars.Instant) calendars.Instant {
	b.reset()
	t, first := b.times, calendars.Never
	for _, k := range order {
		i := int(k)
		start, finish := critical.Latest(b.n, i, t.Start, t.Finish, end)
		for len(b.needs[i]) > 0 && start != calendars.Past {
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

// freeFrom is the least start that keeps node i clear of every piece of time
// in which too little is left, among those that it meets from start to finish.
func (b *builder) freeFrom(i int, start, finish calendars.Instant) calendars.Instant {
	free := start
	for _, l := range b.needs[i] {
		line := &b.lines[l.line]
		b.stretches(i, l.stays, start, finish, func(from, to calendars.Instant) {
			if short := line.lastShort(from, to, l.need); short != from {
				free = max(free, short)
			}
		})
	}
	return free
}

// freeUpto is the greatest finish that keeps node i clear likewise.
func (b *builder) freeUpto(i int, start, finish calendars.Instant) calendars.Instant {
	upto := finish
	for _, l := range b.needs[i] {
		line := &b.lines[l.line]
		b.stretches(i, l.stays, start, finish, func(from, to calendars.Instant) {
			if short := line.firstShort(from, to, l.need); short != to {
				upto = min(upto, short)
			}
		})
	}
	return upto
}

// hold takes what node i needs from start to finish.
func (b *builder) hold(i int, start, finish calendars.Instant) {
	for _, l := range b.needs[i] {
		b.stretches(i, l.stays, start, finish, func(from, to calendars.Instant) {
			b.lines[l.line].take(from, to, l.need)
		})
	}
}

// stretches yields the time from start to finish in which node i holds what it
// needs: the worked stretches, or all of it when it stays.
func (b *builder) stretches(i int, stays bool, start, finish calendars.Instant, yield func(from, to calendars.Instant)) {
	if stays || finish-start == calendars.Instant(b.n.Nodes[i].Work) {
		yield(start, finish)
		return
	}
	hours := b.n.Calendars[b.n.Nodes[i].Calendar]
	for at := start; at < finish; {
		open, _ := hours.Opening(at)
		to := min(open.End, finish)
		yield(max(at, open.Start), to)
		at = to
	}
}
