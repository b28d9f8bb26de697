package search

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/internal/halt"
	"build.example/turflast/schedule/network/critical"
)

// Slider tests how far nodes of a schedule can slip when all keep their order.
// Only one goroutine may use it at a time.
type Slider struct {
	b      *builder
	o      crews.Order
	at     int        // the node that slips
	prefix []timeline // what the nodes before it leave
	place  []int32    // in the order, by node

	dirty   []bool // by node: something that it waits for has moved
	touched []int32
	pending int               // dirty nodes to come
	until   calendars.Instant // moved nodes hold nothing from then on
}

// NewSlider makes a slider that begins with the node at a place in the order.
func NewSlider(p *crews.Problem, o crews.Order, at int) (*Slider, error) {
	if err := check(p); err != nil {
		return nil, err
	}
	s := &Slider{b: newBuilder(p), o: o, place: make([]int32, len(o.Nodes)), dirty: make([]bool, len(o.Nodes))}
	for k, i := range o.Nodes {
		s.place[i] = int32(k)
	}
	s.prefix = make([]timeline, len(s.b.empty))
	for k := range s.prefix {
		s.prefix[k].copyFrom(&s.b.empty[k])
	}
	for s.at < at {
		s.Next()
	}
	return s, nil
}

// Until makes the slider end when h says so; then nothing is fine.
func (s *Slider) Until(h halt.Halt) { s.b.halt = h }

// Halted says whether it ended, so that what it found last means nothing.
func (s *Slider) Halted() bool { return s.b.halt.Over() }

// Node is the node that slips.
func (s *Slider) Node() int { return int(s.o.Nodes[s.at]) }

// Next goes on to the next node in the order.
func (s *Slider) Next() {
	i := s.Node()
	s.b.lines, s.prefix = s.prefix, s.b.lines
	if s.o.Times.Start[i].IsReal() {
		s.b.hold(i, s.o.Times.Start[i], s.o.Times.Finish[i])
	}
	s.b.lines, s.prefix = s.prefix, s.b.lines
	s.at++
}

// Fine says whether the schedule holds when the node starts at from or later: it
// starts by latest, every other node by its own latest start, and all links and
// longest waits hold. The nodes after it in the order start as early as they can,
// but never before their starts in the schedule.
func (s *Slider) Fine(from, latest calendars.Instant) bool {
	t := s.b.times
	copy(t.Start, s.o.Times.Start)
	copy(t.Finish, s.o.Times.Finish)
	copy(t.Done, s.o.Times.Done)
	for k := range s.prefix {
		s.b.lines[k].copyFrom(&s.prefix[k])
	}
	for _, i := range s.touched {
		s.dirty[i] = false
	}
	s.touched, s.pending, s.until = s.touched[:0], 0, calendars.Past
	s.mark(s.o.Nodes[s.at])
	for k := s.at; k < len(s.o.Nodes); k++ {
		if s.b.halt.Step() {
			return false
		}
		i := int(s.o.Nodes[k])
		start := s.o.Times.Start[i]
		if s.pending == 0 && start >= s.until {
			break // all that is left stays
		}
		if !s.dirty[i] && start >= s.until {
			s.b.hold(i, start, s.o.Times.Finish[i])
			continue
		}
		upto := s.o.Late[i]
		if k == s.at {
			start, upto = from, latest
		}
		if !s.move(i, start, upto) {
			return false
		}
	}
	return s.withins()
}

// mark notes that a node to come must be placed again.
func (s *Slider) mark(i int32) {
	if !s.dirty[i] {
		s.dirty[i] = true
		s.touched = append(s.touched, i)
		s.pending++
	}
}

// move places a node at or after from. It returns false when the node can't start
// by upto, has no place, or breaks a link to a node before it in the order.
func (s *Slider) move(i int, from, upto calendars.Instant) bool {
	t := s.b.times
	if s.dirty[i] {
		s.pending--
	}
	least, until := critical.Held(s.b.n, t, i)
	least = max(least, from)
	for _, g := range s.o.Givers[i] {
		least = max(least, t.Finish[g])
	}
	start, finish := s.b.clear(i, least, until)
	if start > upto || start == calendars.Never {
		return false
	}
	if start == t.Start[i] {
		return true
	}
	t.Start[i], t.Finish[i], t.Done[i] = start, finish, critical.Done(s.b.n, &s.b.n.Nodes[i], finish)
	if t.Done[i] == calendars.Never {
		return false
	}
	s.until = max(s.until, finish)
	for _, l := range s.b.needs(i) {
		s.until = max(s.until, finish.Plus(l.after))
	}
	return s.push(i)
}

// push marks the nodes that wait for a moved node, and returns whether its links
// to nodes that come before it in the order still hold.
func (s *Slider) push(i int) bool {
	for _, f := range s.b.n.Out.Of(i) {
		s.mark(f)
	}
	for _, f := range s.o.Takers[i] {
		s.mark(f)
	}
	t, ends := s.b.times, s.b.n.OutOther.Of(i)
	for k := range ends {
		e := &ends[k]
		if s.place[e.Node] > s.place[i] {
			s.mark(e.Node)
			continue
		}
		at := critical.Waited(s.b.n, &s.b.n.Nodes[i], e, s.b.n.Calendars[s.b.n.Nodes[e.Node].Place],
			t.Start[i], t.Finish[i], t.Done[i])
		if e.Kind.ToFinish() && t.Finish[e.Node] < at || !e.Kind.ToFinish() && t.Start[e.Node] < at {
			return false
		}
	}
	return true
}

func (s *Slider) withins() bool {
	t := s.b.times
	for k := range s.b.n.Withins {
		w := &s.b.n.Withins[k]
		event, follows := w.Events(t.Start, t.Finish)
		if follows > event.Plus(w.Most) {
			return false
		}
	}
	return true
}
