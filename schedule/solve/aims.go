package solve

import (
	"cmp"
	"slices"

	"turflast/calendars"
	"turflast/schedule"
	"turflast/schedule/critical"
	"turflast/schedule/levelling"
	"turflast/schedule/resources"
)

// aims weighs programmes that are equal in dates and finish: fewest and smallest
// moves from the reference, least waiting of living stock, fewest changes of
// zone, least sum of starts.
type aims struct {
	wanted *levelling.From // the reference's starts and heads, by node; nil without one
	stock  []stock
	crews  [][]int32 // nodes of the tasks of each crew
	zone   []schedule.ZoneID
}

// stock is a living delivery: its unloading and the tasks that use it, by node.
type stock struct {
	unload int32
	users  []int32
}

func newAims(c *crews, f *found) *aims {
	p, m := c.s.plan, f.problem.Model
	a := &aims{zone: make([]schedule.ZoneID, len(m.Nodes)), crews: make([][]int32, len(p.Crews))}
	left := func(t schedule.TaskID) bool { return f.dropped != nil && f.dropped[t] }
	for d := range p.Deliveries {
		if p.Deliveries[d].Keep == 0 {
			continue
		}
		s := stock{unload: int32(m.UnloadNode(schedule.DeliveryID(d)))}
		for _, u := range p.Users(schedule.DeliveryID(d)) {
			if !left(u) {
				s.users = append(s.users, int32(m.TaskNode(u)))
			}
		}
		a.stock = append(a.stock, s)
	}
	for i := range p.Tasks {
		k := int32(m.TaskNode(schedule.TaskID(i)))
		a.zone[k] = p.Tasks[i].Zones[0]
		for _, need := range p.Tasks[i].Crew {
			if !left(schedule.TaskID(i)) {
				a.crews[need.Crew] = append(a.crews[need.Crew], k)
			}
		}
	}
	a.want(c.o.Reference, f.problem)
	return a
}

// want reads the starts and heads of a reference.
func (a *aims) want(g *schedule.Programme, p *resources.Problem) {
	m := p.Model
	if g == nil || len(g.Tasks) != len(m.Plan.Tasks) {
		return
	}
	a.wanted = &levelling.From{Start: make([]calendars.Instant, len(m.Nodes)), Mode: make([]uint8, len(m.Nodes))}
	for k := range a.wanted.Start {
		a.wanted.Start[k] = calendars.Past
	}
	for i := range g.Tasks {
		k := m.TaskNode(schedule.TaskID(i))
		if t := &g.Tasks[i]; !t.Dropped && t.Start.IsReal() && !p.Left(schedule.TaskID(i)) {
			a.wanted.Start[k] = t.Start
			same := func(heads []int) bool { return slices.Equal(heads, t.Heads) }
			a.wanted.Mode[k] = uint8(max(slices.IndexFunc(p.Heads[i], same), 0))
		}
	}
	for i := range g.Unloads {
		if u := &g.Unloads[i]; i < len(m.Plan.Deliveries) && u.Start.IsReal() {
			a.wanted.Start[m.UnloadNode(schedule.DeliveryID(i))] = u.Start
		}
	}
}

func (a *aims) weigh(t *critical.Times, _ []uint8) (w [5]int64) {
	if a.wanted != nil {
		for k, was := range a.wanted.Start {
			if was != calendars.Past && was != t.Start[k] {
				w[0]++
				w[1] += int64(max(was-t.Start[k], t.Start[k]-was))
			}
		}
	}
	for _, s := range a.stock {
		last := t.Finish[s.unload]
		for _, u := range s.users {
			last = max(last, t.Finish[u])
		}
		w[2] += int64(last - t.Finish[s.unload])
	}
	w[3] = a.changes(t)
	for k := range t.Start {
		if t.Start[k] != calendars.Past {
			w[4] += int64(t.Start[k])
		}
	}
	return w
}

// changes counts how often crews go on to another zone.
func (a *aims) changes(t *critical.Times) (n int64) {
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
