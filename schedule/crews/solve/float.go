package solve

import (
	"runtime"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/crews/resources"
	"build.example/turflast/schedule/crews/search"
	"build.example/turflast/schedule/internal/together"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/critical"
)

// crewFloats are the crew floats of a crew programme, by node.
//
// Crew float is how far a task may slip when everyone keeps the order in which
// hands, machines, room and places at the gate are used (resources.OrderOf). The
// part of total float beyond it is known as phantom float (Bowers, 1995; Kim and
// de la Garza, 2003; from memory).
//
// When a task slips, nothing starts before its programmed start. In the order,
// everything starts as early as its links, the finish of the nodes that hand on to
// it, and what earlier nodes leave of each resource allow. A slip is acceptable
// when every date that the programme meets, and every longest wait, still holds.
type crewFloats struct {
	slip []calendars.Minutes // crew float, in minutes of the node's own calendar
	// lorry is the latest start of an unloading when its lorry comes that late, so
	// that its wait moves along; Past for other nodes, Never when nothing limits it. A
	// keep still counts from the booking.
	lorry []calendars.Instant
}

// slide is the order of one programme and what must hold in it.
type slide struct {
	p       *resources.Problem
	order   crews.Order
	holding []crews.Date
	total   []calendars.Minutes // total float, by node
	lorry   []calendars.Instant // latest start of each unloading without its own wait; Past for other nodes
}

// crewFloatsOf computes the crew float of every node, never above its total float.
// The problem must be as resources.OrderOf requires.
func crewFloatsOf(set *resources.Set, p *resources.Problem, t *network.Times, total []calendars.Minutes) crewFloats {
	s := &slide{p: p, order: resources.OrderOf(set, p, t), total: total}
	for _, d := range p.Dates {
		if d.Of(t) <= d.At {
			s.holding = append(s.holding, d)
		}
	}
	s.lateStarts()
	nodes := len(s.order.Nodes)
	out := crewFloats{make([]calendars.Minutes, nodes), make([]calendars.Instant, nodes)}
	var all together.Group
	workers := runtime.GOMAXPROCS(0)
	for w := range workers {
		all.Go(func() { s.floats(&out, w*nodes/workers, (w+1)*nodes/workers) })
	}
	all.Wait()
	return out
}

// lateStarts finds latest starts from links, hand-ons and the dates that hold. No
// slip beyond one is acceptable.
func (s *slide) lateStarts() {
	n := s.p.Net
	limits := make([]critical.Limit, len(n.Nodes))
	late := make([]calendars.Instant, len(n.Nodes))
	s.order.Late, s.lorry = late, make([]calendars.Instant, len(n.Nodes))
	waits := make([]calendars.Instant, len(n.Nodes)) // of unloadings, to be counted last
	finish := make([]calendars.Instant, len(n.Nodes))
	for k := range limits {
		limits[k] = critical.Limit{Start: calendars.Never, Finish: calendars.Never, Done: calendars.Never}
		late[k], finish[k] = calendars.Never, calendars.Never
		s.lorry[k], waits[k] = calendars.Past, calendars.Never
	}
	for i := range s.p.Model.Plan.Deliveries {
		s.lorry[s.p.Model.Node(s.p.Model.Plan.Unload(schedule.DeliveryID(i)))] = calendars.Never
	}
	for _, d := range s.holding {
		l := &limits[d.Node]
		switch d.Event {
		case crews.AtStart:
			waits[d.Node] = min(waits[d.Node], d.At)
		case crews.AtFinish:
			l.Finish = min(l.Finish, d.At)
		default:
			l.Done = min(l.Done, d.At)
		}
	}
	for at := len(s.order.Nodes) - 1; at >= 0; at-- {
		k := int(s.order.Nodes[at])
		limits[k].Follow(n, k, late, finish)
		for _, to := range s.order.Takers[k] {
			limits[k].Finish = min(limits[k].Finish, late[to])
		}
		if s.lorry[k] == calendars.Never {
			s.lorry[k], _ = critical.PlaceBack(n, &n.Nodes[k], limits[k])
		}
		limits[k].Start = min(limits[k].Start, waits[k])
		late[k], finish[k] = critical.PlaceBack(n, &n.Nodes[k], limits[k])
	}
}

// floats finds the floats of the nodes from one place in the order to another.
func (s *slide) floats(out *crewFloats, from, to int) {
	x, err := search.NewSlider(&s.p.Problem, s.order, from)
	if err != nil {
		panic(err) // the programme was built from the same problem
	}
	for range to - from {
		k := x.Node()
		out.lorry[k] = calendars.Past
		if !s.p.Net.Nodes[k].Joint && s.order.Times.Start[k].IsReal() {
			out.slip[k] = s.slip(x, k, s.order.Late[k], s.total[k])
			if s.lorry[k] != calendars.Past {
				out.lorry[k] = s.latest(x, k)
			}
		}
		x.Next()
	}
}

// latest is the latest start of an unloading when its lorry comes that late; Never
// when nothing limits it.
func (s *slide) latest(x *search.Slider, k int) calendars.Instant {
	by := s.slip(x, k, s.lorry[k], freely)
	if by == schedule.FreeRange {
		return calendars.Never
	}
	return s.p.Net.Calendars[s.p.Net.Nodes[k].Calendar].Add(s.order.Times.Start[k], by)
}

// freely is the longest slip looked for, in minutes of work; a slip of that much
// counts as unlimited.
const freely = 4 * calendars.Week

// slip is the most minutes of its own calendar by which a node's start may slip,
// with a start by latest and a slip of at most total; [schedule.FreeRange] when
// nothing limits it.
func (s *slide) slip(x *search.Slider, k int, latest calendars.Instant, total calendars.Minutes) calendars.Minutes {
	start, own := s.order.Times.Start[k], s.p.Net.Calendars[s.p.Net.Nodes[k].Calendar]
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
