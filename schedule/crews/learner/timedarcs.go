package learner

import (
	"math/bits"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/critical"
)

// join makes the arcs. The error is [ErrTooLarge].
func (t *timed) join() error {
	for v, i := range t.nodes {
		for _, p := range t.n.In.Of(int(i)) {
			if from := t.number[p]; from != network.None {
				t.events(from, func(way int32, _, done *curve) { t.hold(arc{from, int32(v), 0, done}, way) })
			}
		}
		ends := t.n.InOther.Of(int(i))
		for k := range ends {
			t.special(int(i), &ends[k])
		}
		if t.tooMuch() {
			return ErrTooLarge
		}
	}
	for k := range t.n.Withins {
		t.within(&t.n.Withins[k])
	}
	for k := range t.kept {
		t.keep(&t.kept[k])
	}
	if t.tooMuch() {
		return ErrTooLarge
	}
	return nil
}

// arc adds an arc from one node to another by the event that the one asks of the
// other, given its own start, end and done.
func (t *timed) arc(from, to int, finish bool, need func(start, end, done calendars.Instant) calendars.Instant) {
	t.events(t.number[from], func(way int32, over, done *curve) {
		asked := func(k int, at calendars.Instant) calendars.Instant {
			return need(at, t.instant(over.value[k]), t.instant(done.value[k]))
		}
		t.onlyArc(from, to, finish, way, anyWay, asked)
		if way == anyWay && finish {
			follower := &t.activities[t.number[to]]
			for k := range follower.count {
				t.onlyArc(from, to, finish, follower.first+k, follower.first+k, asked)
			}
		}
	})
}

// onlyArc adds an arc that holds if an activity is done a way; until is the way of the
// node that it goes to, if it goes to its finish.
func (t *timed) onlyArc(
	from, to int, finish bool, way, until int32, need func(k int, at calendars.Instant) calendars.Instant,
) {
	a := &t.activities[t.number[from]]
	c := &curve{from: a.low, value: make([]int32, len(a.over.value))}
	for k := range c.value {
		if t.halt.Step() {
			break
		}
		at := need(k, t.instant(a.low+int32(k)))
		if finish {
			at = t.startUntil(to, until, at)
		}
		c.value[k] = t.value(at)
	}
	t.values += len(c.value)
	t.hold(arc{t.number[from], t.number[to], 0, c}, way)
}

// startUntil is the least start of a node, done a way or whichever way, with its finish
// at a moment or later.
func (t *timed) startUntil(i int, way int32, until calendars.Instant) calendars.Instant {
	node := t.n.Nodes[i]
	out := calendars.Never
	for _, m := range t.modes(i, way) {
		node.Work, node.Calendar = m.Work, m.Calendar
		start, _ := critical.Place(t.n, &node, t.early.Start[i], until)
		out = min(out, start)
	}
	return out
}

// special adds an arc that isn't plain.
func (t *timed) special(i int, e *network.End) {
	if t.number[e.Node] == network.None {
		return
	}
	place := t.n.Calendars[t.n.Nodes[i].Place]
	t.arc(int(e.Node), i, e.Kind.ToFinish(), func(start, end, done calendars.Instant) calendars.Instant {
		return critical.Waited(t.n, &t.n.Nodes[e.Node], e, place, start, end, done)
	})
}

// within adds a longest wait: what it runs from holds off, so that it isn't over too soon.
func (t *timed) within(w *network.Within) {
	if t.number[w.From] == network.None || t.number[w.To] == network.None {
		return
	}
	t.arc(int(w.To), int(w.From), w.Kind.FromFinish(), func(start, end, _ calendars.Instant) calendars.Instant {
		if w.Kind.ToFinish() {
			start = end
		}
		return start.Plus(-w.Most)
	})
}

// keep adds a date that counts from a booking, which is no sooner than the date asks.
func (t *timed) keep(d *crews.Date) {
	b := &t.p.Bookings[d.Booking]
	if t.number[b.Node] == network.None {
		return
	}
	t.arc(int(d.Node), int(b.Node), false, func(start, end, done calendars.Instant) calendars.Instant {
		switch d.Event {
		case crews.AtFinish:
			start = end
		case crews.AtDone:
			start = done
		}
		if booked := start.Plus(-d.Limit); booked > b.Earliest {
			return booked
		}
		return calendars.Past
	})
}

// share makes resource r and its takers.
func (t *timed) share(r int32) {
	x := resource{}
	for v := range t.nodes {
		t.halt.Step()
		t.takersOf(&x, int32(v), r)
	}
	for s, count := range t.p.Capacity[r].Steps {
		if s.Start < t.far && s.End > t.dawn {
			x.capacity = max(x.capacity, int32(count))
		}
	}
	from := t.dawn
	lack := func(until calendars.Instant, count int) {
		g := segment{t.value(from), t.value(until), x.capacity - int32(count)}
		if g.start < g.end && g.used > 0 && t.wanted(&x, g) {
			x.short = append(x.short, g)
		}
		from = until
	}
	for s, count := range t.p.Capacity[r].Steps {
		if s.Start > from {
			lack(min(s.Start, t.far), 0) // before the first step there is nothing
		}
		if s.End > from && from < t.far {
			lack(min(s.End, t.far), count)
		}
	}
	t.resources = append(t.resources, x)
}

// wanted says whether a resource could be taken in a span at all.
func (t *timed) wanted(x *resource, g segment) bool {
	for _, k := range x.users {
		if _, taken := t.firstTaken(&t.takers[k], g.start, g.end); taken {
			return true
		}
	}
	return false
}

// least is what a node takes of a resource whichever way it is done: while it is worked
// on, the part that it keeps in pauses, and for how long it keeps that after its end.
func least(modes []crews.Mode, r int32) (all, stays int32, extra calendars.Minutes) {
	for k := range modes {
		a, s, e := takes(&modes[k], r)
		if k == 0 {
			all, stays, extra = a, s, e
			continue
		}
		all, stays, extra = min(all, a), min(stays, s), min(extra, e)
	}
	return all, stays, extra
}

func takes(m *crews.Mode, r int32) (all, stays int32, extra calendars.Minutes) {
	for _, n := range m.Needs {
		if n.Resource != r || m.Work == 0 && n.After == 0 {
			continue
		}
		if m.Work > 0 {
			all += n.Amount
		}
		if n.Stays || n.After > 0 {
			if stays == 0 || n.After < extra {
				extra = n.After
			}
			stays += n.Amount
		}
	}
	return all, stays, extra
}

// ordered returns a function that says whether plain arcs put two activities in order.
func (t *timed) ordered() func(i, j int32) bool {
	words := (len(t.nodes) + bits.UintSize - 1) / bits.UintSize
	before := make([][]uint, len(t.nodes))
	for v, i := range t.nodes {
		before[v] = make([]uint, words)
		if t.halt.Steps(words) {
			continue
		}
		for _, p := range t.n.In.Of(int(i)) {
			from := t.number[p]
			if from == network.None {
				continue
			}
			for k, w := range before[from] {
				before[v][k] |= w
			}
			before[v][from/bits.UintSize] |= 1 << (from % bits.UintSize)
		}
	}
	is := func(i, j int32) bool { return before[j][i/bits.UintSize]>>(i%bits.UintSize)&1 == 1 }
	return func(i, j int32) bool { return is(i, j) || is(j, i) }
}
