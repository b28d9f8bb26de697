package solve

import (
	"context"
	"runtime"
	"slices"
	"sync/atomic"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/crews/resources"
	"build.example/turflast/schedule/crews/search"
	"build.example/turflast/schedule/internal/halt"
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
// when every date that the programme meets, and every longest wait, still holds, and
// no date that it breaks gets later.
type crewFloats struct {
	slip []calendars.Minutes // crew float, in minutes of the node's own calendar
	// lorry is the latest start of an unloading when its lorry comes that late, so
	// that its wait moves along; Past for other nodes, Never when nothing limits it. A
	// keep still counts from the booking.
	lorry []calendars.Instant
}

// slide is the order of one programme and what its slips may not make later.
type slide struct {
	p     *resources.Problem
	order crews.Order
	dates []crews.Date        // each at its own moment or, broken, at the programme's
	total []calendars.Minutes // total float, by node
	lorry []calendars.Instant // latest start of each unloading without its own wait; Past for other nodes
}

// crewFloatsOf computes the crew float of every node, never below zero and never above
// its total float, unless that is negative.
// The problem must be as resources.OrderOf requires. ok is false, and the floats mean
// nothing, when ctx was done before all was worked out.
func crewFloatsOf(
	ctx context.Context, set *resources.Set, p *resources.Problem, t *network.Times, total []calendars.Minutes,
) (out crewFloats, ok bool) {
	order, ok := resources.OrderUntil(halt.After(ctx, grace), set, p, t)
	if !ok {
		return out, false
	}
	s := &slide{p: p, order: order, total: total}
	s.promise(t)
	s.lateStarts()
	nodes := len(s.order.Nodes)
	out = crewFloats{make([]calendars.Minutes, nodes), make([]calendars.Instant, nodes)}
	var all together.Group
	workers := runtime.GOMAXPROCS(0)
	var halted atomic.Bool
	for w := range workers {
		all.Go(func() {
			if !s.floats(halt.After(ctx, grace), &out, w*nodes/workers, (w+1)*nodes/workers) {
				halted.Store(true)
			}
		})
	}
	all.Wait()
	return out, !halted.Load()
}

// promise lists what no slip may make later: the dates, and the finish of optional
// tasks, which are done by the hand-over or left out.
func (s *slide) promise(t *network.Times) {
	plan := s.p.Model.Plan
	s.dates = slices.Clone(s.p.Dates)
	for i := range plan.Tasks {
		if plan.Tasks[i].Optional && !s.p.Left(schedule.TaskID(i)) {
			k := int32(s.p.Model.Node(schedule.Activity(i)))
			s.dates = append(s.dates, crews.Date{Node: k, Event: crews.AtDone, At: plan.Site.Handover})
		}
	}
	for i := range s.dates {
		d := &s.dates[i]
		d.At = max(d.At, d.Of(t))
	}
}

// lateStarts finds latest starts from links, hand-ons and dates. No
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
	for _, d := range s.dates {
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

// floats finds the floats of the nodes from one place in the order to another, and says
// whether it came to the end.
func (s *slide) floats(h halt.Halt, out *crewFloats, from, to int) bool {
	x, err := search.NewSlider(&s.p.Problem, s.order, from)
	if err != nil {
		panic(err) // the programme was built from the same problem
	}
	x.Until(h)
	for range to - from {
		k := x.Node()
		out.lorry[k] = calendars.Past
		if !s.p.Net.Nodes[k].Joint && s.order.Times.Start[k].IsReal() {
			out.slip[k] = s.slip(x, k, s.order.Late[k], s.total[k])
			if s.lorry[k] != calendars.Past {
				out.lorry[k] = s.latest(x, k)
			}
		}
		if x.Halted() {
			return false
		}
		x.Next()
	}
	return true
}

// latest is the latest start of an unloading when its lorry comes that late; Never
// when nothing limits it.
func (s *slide) latest(x *search.Slider, k int) calendars.Instant {
	by := s.slip(x, k, s.lorry[k], schedule.FreeRange)
	if by == schedule.FreeRange {
		return calendars.Never
	}
	return s.p.Net.Calendars[s.p.Net.Nodes[k].Calendar].Add(s.order.Times.Start[k], by)
}

// freely is the slip, in minutes of work, that stands for any when neither dates nor
// total float limit it.
const freely = 4 * calendars.Week

// slip is the most minutes of its own calendar by which a node's start may slip,
// with a start by latest and within its total float, unless that is negative;
// [schedule.FreeRange] when nothing limits it.
func (s *slide) slip(x *search.Slider, k int, latest calendars.Instant, total calendars.Minutes) calendars.Minutes {
	start, own := s.order.Times.Start[k], s.p.Net.Calendars[s.p.Net.Nodes[k].Calendar]
	fine := func(slip calendars.Minutes) bool { return x.Fine(own.Add(start, slip), latest) }
	most := schedule.FreeRange
	if total >= 0 {
		most = total
	}
	if latest != calendars.Never {
		most = min(most, max(own.Between(start, latest), 0))
	}
	tried := most
	if most == schedule.FreeRange {
		tried = freely
	}
	if tried == 0 || fine(tried) {
		return most
	}
	least := calendars.Minutes(0)
	for tried-least > 1 {
		if mid := least + (tried-least)/2; fine(mid) {
			least = mid
		} else {
			tried = mid
		}
	}
	return least
}
