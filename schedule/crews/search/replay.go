package search

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/network"
)

// Replayer builds single schedules of one problem. Only one goroutine may use it
// at a time.
type Replayer struct {
	b *builder
	s *search // sorts
}

// NewReplayer prepares a problem whose nodes keep their first modes.
func NewReplayer(p *crews.Problem) (*Replayer, error) {
	if err := check(p); err != nil {
		return nil, err
	}
	b := newBuilder(p)
	b.n.Calendars = slices.Clone(b.n.Calendars)
	return &Replayer{b, &search{b: b, order: make([]int32, len(b.n.Nodes))}}, nil
}

// Network is the replayer's own copy of the problem's network. Between schedules a
// caller may change the work and the earliest start of its nodes and the contents
// of Calendars, but a node must not gain its first work or lose its last.
func (r *Replayer) Network() *network.Network { return r.b.n }

// Past says what is over by a moment in the schedules to come: nodes that finish by then in t
// keep the dates that they have there. Least starts must keep all others from starting sooner than
// that moment, but for those that have begun in t by then. A moment of Past takes it back.
func (r *Replayer) Past(t *network.Times, upto calendars.Instant) {
	if r.b.past, r.b.upto = t, upto; upto == calendars.Past {
		r.b.past = nil
	}
	if r.b.holds != nil {
		return
	}
	r.b.holds = make([]calendars.Minutes, len(r.b.n.Nodes))
	for i := range r.b.holds {
		for _, need := range r.b.needs(i) {
			r.b.holds[i] = max(r.b.holds[i], need.after)
		}
	}
}

// Away takes so many of a resource away for a span of the schedules to come, in which there are
// as many at least.
func (r *Replayer) Away(of int32, span calendars.Span, amount int) {
	b := r.b
	if b.there == nil {
		b.there = make([]timeline, len(b.empty))
	}
	line := of / lanes
	if len(b.there[line].at) == 0 {
		b.there[line].copyFrom(&b.empty[line])
	}
	b.empty[line].take(span.Start, span.End, uint64(amount)<<(of%lanes*laneBits))
}

// AllThere takes back what [Replayer.Away] took.
func (r *Replayer) AllThere() {
	for line := range r.b.there {
		if all := &r.b.there[line]; len(all.at) > 0 {
			r.b.empty[line].copyFrom(all)
		}
	}
}

// Leave leaves nodes out of the schedules to come: they hold nothing, nor do links to them and
// from them. What nodes are left out may change between schedules; nil leaves out none.
func (r *Replayer) Leave(gone []bool) { r.b.gone = gone }

// InOrder places nodes as Forward does in the order o, with its hand-ons kept too, and
// goes on where a node has no place: what waits for it has none either, and a longest
// wait to it holds nothing. It returns whether all other waits hold; if they don't, the
// times mean nothing.
func (r *Replayer) InOrder(o *crews.Order, least []calendars.Instant) (t *network.Times, holds bool) {
	r.b.givers, r.b.partial, r.b.lenient = o.Givers, true, true
	defer func() { r.b.givers, r.b.partial, r.b.lenient = nil, false, false }()
	t, _ = r.Forward(o.Nodes, least)
	return t, !r.b.raised
}

// HeldBack finds what the programme of an order holds back: by node, the start in the
// programme of what the order and its hand-ons would let start sooner, with all else as in
// the programme; Past for the rest.
func (r *Replayer) HeldBack(o *crews.Order) []calendars.Instant {
	held := make([]calendars.Instant, len(o.Nodes))
	r.b.want, r.b.heldTo = o.Times.Start, held
	r.InOrder(o, nil)
	r.b.want, r.b.heldTo = nil, nil
	for _, k := range r.raisable(o) {
		if was := held[k]; was != calendars.Past {
			held[k] = calendars.Past
			if t, _ := r.InOrder(o, held); t.Start[k] < was {
				held[k] = was
			}
		}
	}
	return held
}

// raisable lists the nodes that what comes after them in an order may hold back by itself:
// through a longest wait or through a link that runs against the order.
func (r *Replayer) raisable(o *crews.Order) (out []int32) {
	if !r.b.against {
		return nil
	}
	place := make([]int, len(o.Nodes))
	for at, k := range o.Nodes {
		place[k] = at
	}
	for _, k := range o.Nodes {
		before := func(e network.End) bool { return place[e.Node] > place[k] }
		waits := func(w int32) bool { return r.b.n.Withins[w].From == k }
		if slices.ContainsFunc(r.b.n.InOther.Of(int(k)), before) || slices.ContainsFunc(r.b.withins[k], waits) {
			out = append(out, k)
		}
	}
	return out
}

// Forward places nodes in order, each as early as possible at or after its least
// start, and returns whether every link holds and every node has a place. least
// may be nil; a least start of Never leaves a node and its followers without a
// place. The times are valid until the next call.
func (r *Replayer) Forward(order []int32, least []calendars.Instant) (*network.Times, bool) {
	r.b.least = least
	return r.b.times, r.b.forward(order)
}

// ByKey places nodes in the order of keys, which it moves up to where links run along them,
// each as early as possible at or after its least start. It returns whether every link holds
// and every node has a place; it gives up once a node starts after its latest. Latest may be nil.
// The times are valid until the next call.
func (r *Replayer) ByKey(key, least, latest []calendars.Instant) (*network.Times, bool) {
	r.b.latest = latest
	defer func() { r.b.latest = nil }()
	return r.Forward(r.orderOf(key), least)
}

// orderOf is the order of keys, moved up to where links run along them.
func (r *Replayer) orderOf(key []calendars.Instant) []int32 {
	r.s.makeCompatible(key)
	return r.s.byKey(key)
}

// Some builds a schedule of as many nodes as have a place, in the order of keys.
// Nodes whose links can't all hold have none, nor those done beyond the time line, nor
// have their followers.
func (r *Replayer) Some(key []calendars.Instant) *network.Times {
	n := r.b.n
	key = slices.Clone(key)
	r.s.alongAll(key) // so that only longest waits hold back what has its place
	order := slices.Clone(r.s.byKey(key))
	least := make([]calendars.Instant, len(n.Nodes))
	for i := range least {
		least[i] = calendars.Past
	}
	r.b.partial = true
	defer func() { r.b.partial = false }()
	for {
		t, _ := r.Forward(order, least)
		moved := false
		for i := range n.Nodes {
			if r.torn(t, i) && least[i] != calendars.Never {
				least[i], moved = calendars.Never, true
			}
			if t.Done[i] == calendars.Never {
				moved = r.without(t, i, least) || moved
			}
		}
		if !moved {
			return t
		}
	}
}

// torn says whether node i has a place in which its links don't all hold, or one beyond the
// time line.
func (r *Replayer) torn(t *network.Times, i int) bool {
	r.b.raised = false
	if t.Start[i].IsReal() && r.b.against {
		r.b.raise(i)
	}
	return r.b.raised || t.Done[i] != calendars.Never && t.Done[i] > r.b.n.Line.End
}

// without takes the place from the followers of node i, which has none, and says
// whether any had one.
func (r *Replayer) without(t *network.Times, i int, least []calendars.Instant) (any bool) {
	take := func(k int32) {
		if t.Start[k].IsReal() && least[k] != calendars.Never {
			least[k], any = calendars.Never, true
		}
	}
	for _, k := range r.b.n.Out.Of(i) {
		take(k)
	}
	for _, e := range r.b.n.OutOther.Of(i) {
		take(e.Node)
	}
	return any
}

// InTurn builds the schedule that takes nodes in the order of the network, which every
// link runs along, so that only longest waits can keep it from giving all a place; ok
// says whether all have one.
func (r *Replayer) InTurn() (t *network.Times, ok bool) {
	order := make([]int32, len(r.b.n.Nodes))
	for i := range order {
		order[i] = int32(i)
	}
	return r.Forward(order, nil)
}
