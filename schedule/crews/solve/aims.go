package solve

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/crews/resources"
	"build.example/turflast/schedule/crews/search"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/worktime"
)

// aims compares programmes that are equal in dates and finish: least work beyond the
// line, fewest and smallest moves from the reference, least waiting of living stock and waiting time of
// lorries, fewest changes of zone, least sum of starts.
type aims struct {
	hours  *worktime.Set
	of     *resources.Problem
	known  bool         // the line is; else no work lies beyond it
	wanted *search.From // the reference's starts and heads that can be kept, by node; nil without a reference
	from   *search.From // all the reference's starts and heads
	inHand []kept       // tasks in hand, whose heads are kept as well
	stock  []stock
	stands []stands
	crews  [][]int32 // nodes of the tasks of each crew
	zone   []schedule.ZoneID
}

// stock is a living delivery: its unloading and the tasks that use it, by node.
type stock struct {
	unload int32
	users  []int32
}

// stands is a lorry that isn't unloaded yet: its node and its delivery, and the
// moments between which it comes as it is begun, equal unless it may be rebooked.
type stands struct {
	node        int32
	of          *schedule.Delivery
	first, last calendars.Instant
}

// kept is a node and the mode that it had.
type kept struct {
	node int32
	mode uint8
}

func newAims(c *crewSearch, f *found) *aims {
	p, m := c.s.model.Plan, f.problem.Model
	a := &aims{
		hours: m.Hours, of: f.problem, known: c.line == c.o.Promise.line(p),
		zone: make([]schedule.ZoneID, len(m.Nodes)), crews: make([][]int32, len(p.Crews)),
	}
	left := f.problem.Left
	users := p.UsersOfEach()
	for d := range p.Deliveries {
		if m.HasNoPlace(p.Unload(schedule.DeliveryID(d))) {
			continue
		}
		a.stand(f, schedule.DeliveryID(d))
		if p.Deliveries[d].Keep == 0 {
			continue
		}
		s := stock{unload: int32(m.Node(m.Plan.Unload(schedule.DeliveryID(d))))}
		for _, u := range users[d] {
			if !left(u) {
				s.users = append(s.users, int32(m.Node(schedule.Activity(u))))
			}
		}
		a.stock = append(a.stock, s)
	}
	for i := range p.Tasks {
		k := int32(m.Node(schedule.Activity(i)))
		a.zone[k] = p.Tasks[i].Zones[0]
		for _, need := range p.Tasks[i].Crew {
			if !left(schedule.TaskID(i)) {
				a.crews[need.Crew] = append(a.crews[need.Crew], k)
			}
		}
	}
	for i := range p.Tasks {
		if id := schedule.TaskID(i); p.InHand(id) && !left(id) {
			mode := modeOf(f.problem, id, p.Progress.Tasks[i].Heads)
			a.inHand = append(a.inHand, kept{int32(m.Node(schedule.Activity(id))), mode})
		}
	}
	a.want(c.o.Reference, f.problem)
	return a
}

// stand takes in the waiting time of a lorry.
func (a *aims) stand(f *found, d schedule.DeliveryID) {
	m := f.problem.Model
	if m.Plan.Unloading(d) {
		return
	}
	l := stands{node: int32(m.Node(m.Plan.Unload(d))), of: &m.Plan.Deliveries[d]}
	l.first, l.last = l.of.Arrives, l.of.Arrives
	if f.free != nil && f.free[d] && l.of.Movable != nil {
		l.first, l.last = l.of.Movable.Earliest, l.of.Movable.Latest
	}
	a.stands = append(a.stands, l)
}

// want reads the starts and heads of a reference. A start that has happened can't
// be moved, so it isn't wanted.
func (a *aims) want(g *schedule.Programme, p *resources.Problem) {
	m := p.Model
	if g == nil || len(g.Tasks) != len(m.Plan.Tasks) {
		return
	}
	a.from = &search.From{Start: make([]calendars.Instant, len(m.Nodes)), Mode: make([]uint8, len(m.Nodes))}
	for k := range a.from.Start {
		a.from.Start[k] = calendars.Past
	}
	a.wanted = &search.From{Start: slices.Clone(a.from.Start), Mode: a.from.Mode}
	for i := range g.Tasks {
		k, id := m.Node(schedule.Activity(i)), schedule.TaskID(i)
		t := &g.Tasks[i]
		if t.Dropped || !t.Start.IsReal() || p.Left(id) {
			continue
		}
		a.from.Start[k] = t.Start
		if !m.Plan.Started(id) {
			a.wanted.Start[k] = t.Start
		}
		a.from.Mode[k] = modeOf(p, id, t.Heads)
	}
	a.wantLorries(g, m)
}

func (a *aims) wantLorries(g *schedule.Programme, m *network.Model) {
	for i := range g.Unloads {
		if u := &g.Unloads[i]; i < len(m.Plan.Deliveries) && u.Start.IsReal() &&
			!m.HasNoPlace(m.Plan.Unload(schedule.DeliveryID(i))) {
			k := m.Node(m.Plan.Unload(schedule.DeliveryID(i)))
			a.from.Start[k] = u.Start
			if !m.Plan.Unloading(schedule.DeliveryID(i)) {
				a.wanted.Start[k] = u.Start
			}
		}
	}
}

// modeOf is the mode in which a task has the given heads, or the first mode when
// there is none.
func modeOf(p *resources.Problem, t schedule.TaskID, heads []int) uint8 {
	same := func(h []int) bool { return slices.Equal(h, heads) }
	return uint8(max(slices.IndexFunc(p.Heads[t], same), 0))
}

func (a *aims) weigh(t *network.Times, modes []uint8) (w crews.Ties) {
	w[0] = a.beyond(t, modes)
	for _, h := range a.inHand {
		if modes[h.node] != h.mode {
			w[1]++
		}
	}
	if a.wanted != nil {
		for k, was := range a.wanted.Start {
			if was == calendars.Past {
				continue
			}
			if was != t.Start[k] || a.wanted.Mode[k] != modes[k] {
				w[1]++
				w[2] += int64(max(was-t.Start[k], t.Start[k]-was))
			}
		}
	}
	w[3], w[4] = a.waits(t), a.changes(t)
	for k := range t.Start {
		if t.Start[k] != calendars.Past {
			w[5] += int64(t.Start[k])
		}
	}
	return w
}

// beyond is the work after the hand-over, in worked minutes, summed.
func (a *aims) beyond(t *network.Times, modes []uint8) (sum int64) {
	if !a.known {
		return 0
	}
	line := a.of.Model.Plan.Site.Handover
	for k := range t.Start {
		m := &a.of.Modes[k][modes[k]]
		if m.Work > 0 && t.Finish[k].IsReal() && t.Finish[k] > line {
			sum += int64(a.of.Net.Calendars[m.Calendar].Between(max(t.Start[k], line), t.Finish[k]))
		}
	}
	return sum
}

// waits is how long living stock waits until its last use and lorries stand beyond
// what they do for nothing, summed.
func (a *aims) waits(t *network.Times) (sum int64) {
	for _, s := range a.stock {
		last := t.Finish[s.unload]
		for _, u := range s.users {
			last = max(last, t.Finish[u])
		}
		sum += int64(last - t.Finish[s.unload])
	}
	for _, l := range a.stands {
		begun := t.Start[l.node]
		sum += int64(a.hours.WaitingTime(l.of, min(max(begun, l.first), l.last), begun))
	}
	return sum
}

// changes counts how often a crew goes on to another zone.
func (a *aims) changes(t *network.Times) (n int64) {
	var order []int32
	for _, nodes := range a.crews {
		order = append(order[:0], nodes...)
		slices.SortFunc(order, func(x, y int32) int { return cmp.Or(cmp.Compare(t.Start[x], t.Start[y]), cmp.Compare(x, y)) })
		for k := 1; k < len(order); k++ {
			if a.zone[order[k]] != a.zone[order[k-1]] {
				n++
			}
		}
	}
	return n
}
