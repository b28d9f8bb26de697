package resources

import (
	"cmp"
	"runtime"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/search"
	"build.example/turflast/schedule/internal/together"
	"build.example/turflast/schedule/network/critical"
)

// slide is the order of one programme and what must hold in it.
type slide struct {
	set     *Set
	p       *Problem
	t       *critical.Times
	order   []int32
	givers  [][]int32 // by node: who hands on to it
	takers  [][]int32 // by node: to whom it hands on
	holding []search.Date
	late    []calendars.Instant // latest start when only links and hand-ons count
	total   []calendars.Minutes // total float, by node
	lorry   []calendars.Instant // latest start of each unloading without its own wait; Past for other nodes
}

// Floats are the crew floats of a crew programme, by node.
//
// Crew float is how far a task may slip when everyone keeps the order in which
// hands, machines, room and places at the gate are used. What total float claims
// beyond it is known as phantom float.
//
// The order is that of the starts in the programme; at equal starts what takes no
// time comes first, then tasks before unloadings, as the plan lists them. Each
// user of a crew, machine, zone or the gate takes what it needs first from what
// nobody has used yet, then from those before it in that order that have finished
// and have not handed on all. In the slide nothing starts before its programmed
// start. In that order everything starts as early as its links, the finish of
// those that hand on to it, and what the ones before it leave of every shared
// thing allow. A slip is fine when every date that the programme meets, and every
// longest wait, still holds.
type Floats struct {
	Slip []calendars.Minutes // crew float, in minutes of the node's own calendar
	// Lorry is the latest start of an unloading when its lorry comes as late as
	// that, so that its wait moves along; Past for other nodes, Never when nothing
	// limits it. Keep is counted from the booking all the same.
	Lorry []calendars.Instant
}

// FloatsOf is the crew float of every node of a problem, never above its total float.
// The problem has no other choices left than those made: every task has the heads
// of its first mode, bookings are as they are.
func FloatsOf(set *Set, p *Problem, t *critical.Times, total []calendars.Minutes) Floats {
	s := newSlide(set, p, t)
	s.total = total
	for _, d := range p.Dates {
		if d.Of(t) <= d.At {
			s.holding = append(s.holding, d)
		}
	}
	s.lateStarts()
	out := Floats{make([]calendars.Minutes, len(s.order)), make([]calendars.Instant, len(s.order))}
	var all together.Group
	workers := runtime.GOMAXPROCS(0)
	for w := range workers {
		all.Go(func() { s.floats(&out, w*len(s.order)/workers, (w+1)*len(s.order)/workers) })
	}
	all.Wait()
	return out
}

func newSlide(set *Set, p *Problem, t *critical.Times) *slide {
	s := &slide{set: set, p: p, t: t}
	s.sequence()
	s.handOn()
	return s
}

// OrderOf is the order of hands of a programme, but for its latest starts. The
// problem is as Of takes it.
func OrderOf(set *Set, p *Problem, t *critical.Times) search.Order {
	s := newSlide(set, p, t)
	return search.Order{Nodes: s.order, Times: t, Givers: s.givers, Takers: s.takers}
}

// sequence orders all nodes.
func (s *slide) sequence() {
	n, t := s.p.Net, s.t
	for k := range n.Nodes {
		s.order = append(s.order, int32(k))
	}
	slices.SortFunc(s.order, func(a, b int32) int {
		shortA, shortB := t.Start[a] == t.Finish[a], t.Start[b] == t.Finish[b]
		switch by := cmp.Compare(t.Start[a], t.Start[b]); {
		case by != 0:
			return by
		case shortA != shortB:
			if shortA {
				return -1
			}
			return 1
		case shortA:
			return int(a - b) // in the order of the links
		}
		return int(n.Spec[a] - n.Spec[b])
	})
}

// handOn finds who hands on to whom.
func (s *slide) handOn() {
	s.givers = make([][]int32, len(s.p.Net.Nodes))
	s.takers = make([][]int32, len(s.p.Net.Nodes))
	type user struct {
		node int32
		left int // not handed on yet
	}
	users := make([][]user, len(s.set.Resources))
	unused := make([]int, len(s.set.Resources))
	for r := range unused {
		unused[r] = s.set.Capacity[r].Max()
	}
	for _, k := range s.order {
		for _, need := range s.needs(k) {
			r, wants := need.Resource, int(need.Amount)
			if s.set.Resources[r].Kind == Alone {
				continue
			}
			fresh := min(wants, unused[r])
			unused[r] -= fresh
			wants -= fresh
			for g := range users[r] {
				if wants == 0 {
					break
				}
				giver := &users[r][g]
				if gives := min(wants, giver.left); gives > 0 && s.t.Finish[giver.node] <= s.t.Start[k] {
					giver.left -= gives
					wants -= gives
					s.link(giver.node, k)
				}
			}
			users[r] = append(users[r], user{k, int(need.Amount)})
		}
	}
}

// needs is what a node takes; nothing when it takes no time.
func (s *slide) needs(k int32) []search.Need {
	if s.t.Start[k] == s.t.Finish[k] {
		return nil
	}
	return s.p.Modes[k][0].Needs
}

func (s *slide) link(giver, taker int32) {
	if !slices.Contains(s.takers[giver], taker) {
		s.takers[giver] = append(s.takers[giver], taker)
		s.givers[taker] = append(s.givers[taker], giver)
	}
}

// lateStarts finds latest starts from links, hand-ons and the dates that hold.
// No slip beyond one can be fine.
func (s *slide) lateStarts() {
	n := s.p.Net
	limits := make([]critical.Limit, len(n.Nodes))
	s.late, s.lorry = make([]calendars.Instant, len(n.Nodes)), make([]calendars.Instant, len(n.Nodes))
	waits := make([]calendars.Instant, len(n.Nodes)) // of unloadings, to be counted last
	finish := make([]calendars.Instant, len(n.Nodes))
	for k := range limits {
		limits[k] = critical.Limit{Start: calendars.Never, Finish: calendars.Never, Done: calendars.Never}
		s.late[k], finish[k] = calendars.Never, calendars.Never
		s.lorry[k], waits[k] = calendars.Past, calendars.Never
	}
	for i := range s.p.Model.Plan.Deliveries {
		s.lorry[s.p.Model.Node(s.p.Model.Plan.Unload(schedule.DeliveryID(i)))] = calendars.Never
	}
	for _, d := range s.holding {
		l := &limits[d.Node]
		switch d.Event {
		case search.AtStart:
			waits[d.Node] = min(waits[d.Node], d.At)
		case search.AtFinish:
			l.Finish = min(l.Finish, d.At)
		default:
			l.Done = min(l.Done, d.At)
		}
	}
	for at := len(s.order) - 1; at >= 0; at-- {
		k := int(s.order[at])
		limits[k].Follow(n, k, s.late, finish)
		for _, to := range s.takers[k] {
			limits[k].Finish = min(limits[k].Finish, s.late[to])
		}
		if s.lorry[k] == calendars.Never {
			s.lorry[k], _ = critical.PlaceBack(n, &n.Nodes[k], limits[k])
		}
		limits[k].Start = min(limits[k].Start, waits[k])
		s.late[k], finish[k] = critical.PlaceBack(n, &n.Nodes[k], limits[k])
	}
}

// floats finds the floats of the nodes from one place in the order to another.
func (s *slide) floats(out *Floats, from, to int) {
	x, err := search.NewSlider(&s.p.Problem, search.Order{
		Nodes: s.order, Times: s.t, Givers: s.givers, Takers: s.takers, Late: s.late,
	}, from)
	if err != nil {
		panic(err) // the programme was built from the same problem
	}
	for range to - from {
		k := x.Node()
		out.Lorry[k] = calendars.Past
		if !s.p.Net.Nodes[k].Joint && s.t.Start[k].IsReal() {
			out.Slip[k] = s.slip(x, k, s.late[k], s.total[k])
			if s.lorry[k] != calendars.Past {
				out.Lorry[k] = s.latest(x, k)
			}
		}
		x.Next()
	}
}

// latest is the latest start of an unloading whose lorry comes as late.
func (s *slide) latest(x *search.Slider, k int) calendars.Instant {
	by := s.slip(x, k, s.lorry[k], freely)
	if by == schedule.FreeRange {
		return calendars.Never
	}
	return s.p.Net.Calendars[s.p.Net.Nodes[k].Calendar].Add(s.t.Start[k], by)
}

// freely is more than a plan lasts, in minutes of work.
const freely = 4 * calendars.Week

// slip is the most minutes of its own calendar that a node's start may slip when
// it is to start by latest, and no more than total.
func (s *slide) slip(x *search.Slider, k int, latest calendars.Instant, total calendars.Minutes) calendars.Minutes {
	start, own := s.t.Start[k], s.p.Net.Calendars[s.p.Net.Nodes[k].Calendar]
	fine := func(slip calendars.Minutes) bool { return x.Fine(own.Add(start, slip), latest) }
	most := min(freely, total)
	if latest != calendars.Never {
		most = min(most, max(own.Between(start, latest), 0))
	}
	switch {
	case most <= 0:
		return most
	case !fine(most):
	case most == freely:
		return schedule.FreeRange
	default:
		return most
	}
	least := calendars.Minutes(0)
	for most-least > 1 {
		if mid := least + (most-least)/2; fine(mid) {
			least = mid
		} else {
			most = mid
		}
	}
	return least
}
