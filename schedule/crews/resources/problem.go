package resources

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/network"
)

// mostModes bounds the choices of heads for one task.
const mostModes = 200

// Problem is a plan's network with what it shares, as a problem of finite
// resources. Heads says which heads each mode of a task stands for.
type Problem struct {
	crews.Problem
	Model *network.Model
	Heads [][][]int // by TaskID and mode

	dropped []bool
	places  map[*calendars.Calendar]int32
}

// Problem makes the problem of a model without the dropped tasks. The model's plan
// may differ from the set's in arrivals. Movable deliveries may be rebooked where
// free says so; nil for none.
func (s *Set) Problem(m *network.Model, dropped, free []bool) *Problem {
	p := &Problem{
		Model: m, Heads: make([][][]int, len(s.plan.Tasks)), dropped: dropped,
		places: make(map[*calendars.Calendar]int32),
	}
	net := *m.Network
	net.Nodes, net.Calendars = slices.Clone(net.Nodes), slices.Clone(net.Calendars)
	for i, c := range net.Calendars {
		p.places[c] = int32(i)
	}
	p.Net, p.Capacity, p.OnDuty = &net, s.Capacity, s.onDuty()
	p.Modes = make([][]crews.Mode, len(net.Nodes))
	p.Counts = make([]bool, len(net.Nodes))
	for k := range net.Nodes {
		p.Modes[k] = []crews.Mode{{Work: net.Nodes[k].Work, Calendar: net.Nodes[k].Calendar}}
	}
	for i := range s.plan.Tasks {
		if !p.Left(schedule.TaskID(i)) {
			p.task(s, schedule.TaskID(i))
		}
	}
	for i := range s.plan.Deliveries {
		p.unload(s, schedule.DeliveryID(i), free != nil && free[i])
	}
	for i := range s.plan.Tasks {
		if !p.Left(schedule.TaskID(i)) {
			p.dates(schedule.TaskID(i))
		}
	}
	p.limits()
	return p
}

// Left says whether a task is left out, or has no place.
func (p *Problem) Left(t schedule.TaskID) bool {
	return p.dropped != nil && p.dropped[t] || p.Model.HasNoPlace(t.Activity())
}

func (p *Problem) task(s *Set, id schedule.TaskID) {
	t := &s.plan.Tasks[id]
	k := p.Model.Node(schedule.Activity(id))
	p.Counts[k] = s.required[id]
	p.Heads[id] = s.choices(id, p.Model.Heads[id])
	modes := make([]crews.Mode, 0, len(p.Heads[id]))
	for _, heads := range p.Heads[id] {
		all := 0
		for _, h := range heads {
			all += h
		}
		modes = append(modes, crews.Mode{
			Work: s.plan.Rest(id).Time(all), Calendar: p.calendar(s.Hours.Task(t, heads)), Needs: s.Task(id, heads),
		})
	}
	p.Modes[k] = modes
}

func (p *Problem) calendar(c *calendars.Calendar) int32 {
	i, known := p.places[c]
	if !known {
		i = int32(len(p.Net.Calendars))
		p.Net.Calendars = append(p.Net.Calendars, c)
		p.places[c] = i
	}
	return i
}

// choices lists up to mostModes choices of heads for a task, the model's own
// first. More heads gain nothing when work isn't shared among them, so it then
// takes the least.
func (s *Set) choices(id schedule.TaskID, first []int) [][]int {
	out := [][]int{first}
	if s.plan.Finished(id) {
		return out
	}
	t, shared := &s.plan.Tasks[id], s.plan.Rest(id).Shared()
	room := s.Hours.Room(t)
	heads := make([]int, len(t.Crew))
	var choose func(i, left int)
	choose = func(i, left int) {
		switch {
		case left < 0 || len(out) == mostModes:
		case i == len(heads):
			if !slices.Equal(heads, first) {
				out = append(out, slices.Clone(heads))
			}
		default:
			c := t.Crew[i]
			most := min(c.Most, s.Hours.Crews[c.Crew].Max())
			if !shared {
				most = c.Least
			}
			for h := most; h >= c.Least; h-- {
				heads[i] = h
				choose(i+1, left-h)
			}
		}
	}
	choose(0, room)
	return out
}

func (p *Problem) unload(s *Set, id schedule.DeliveryID, free bool) {
	d := &p.Model.Plan.Deliveries[id]
	if p.Model.HasNoPlace(p.Model.Plan.Unload(id)) {
		return
	}
	k := p.Model.Node(p.Model.Plan.Unload(id))
	p.Modes[k][0].Needs = s.Unload(id)
	booking, comes := int32(network.None), d.Arrives
	if free && d.Movable != nil {
		booking = int32(len(p.Bookings))
		p.Bookings = append(p.Bookings, crews.Booking{Node: int32(k), Earliest: d.Movable.Earliest, Latest: d.Movable.Latest})
		comes = d.Movable.Latest // one that is booked anew comes as it is begun, until then
		p.Net.Nodes[k].Earliest = max(d.Movable.Earliest, network.Admitted(s.plan, id), s.plan.Now())
	}
	if p.Counts[k] = s.required[s.plan.Unload(id)]; p.Counts[k] {
		p.add(k, crews.AtFinish, crews.Handover, s.plan.Site.Handover)
	}
	if !s.plan.Unloading(id) {
		p.add(k, crews.AtStart, crews.KeepsAndGate, s.Hours.GateShuts(comes))
	}
	if d.Keep == 0 {
		return
	}
	for _, u := range s.users[id] {
		if p.Left(u) || s.plan.Finished(u) {
			continue
		}
		weight := crews.KeepsAndGate
		if !s.required[u] {
			weight = crews.Left
		}
		p.Dates = append(p.Dates, crews.Date{
			Node: int32(p.Model.Node(schedule.Activity(u))), Event: crews.AtFinish, Weight: weight,
			Booking: booking, At: d.KeepsUntil(d.Arrives), Limit: d.Keep - d.Aged,
		})
	}
}

// dates adds the dates of a task other than keeps. An optional task that would miss
// one is better left out. The own date of a finished task can't be improved, and is
// none.
func (p *Problem) dates(id schedule.TaskID) {
	plan := p.Model.Plan
	t, k := &plan.Tasks[id], p.Model.Node(schedule.Activity(id))
	handover, by := crews.Handover, crews.ByDates
	if !plan.Required(id.Activity()) {
		handover, by = crews.Left, crews.Left
	}
	p.add(k, crews.AtDone, handover, plan.Site.Handover)
	if t.By != 0 && !plan.Finished(id) {
		p.add(k, crews.AtFinish, by, t.By)
	}
}

// limits adds the longest waits that run from what has happened.
func (p *Problem) limits() {
	for _, l := range p.Model.Limits {
		e := crews.AtStart
		if l.Finish {
			e = crews.AtFinish
		}
		p.add(int(p.Model.Number[l.Number]), e, crews.KeepsAndGate, l.At)
	}
}

func (p *Problem) add(k int, e crews.Event, w crews.Weight, at calendars.Instant) {
	p.Dates = append(p.Dates, crews.Date{Node: int32(k), Event: e, Weight: w, Booking: network.None, At: at})
}

// HandOver moves the line: the latest moment of a task's being done and of required
// unloading is the hand-over, and nothing else is. Never takes the line away.
func (p *Problem) HandOver(by calendars.Instant) {
	for k := range p.Net.Nodes {
		if n := &p.Net.Nodes[k]; n.LatestDone != calendars.Never {
			n.LatestDone = by
		}
	}
	kept := p.Dates[:0]
	for _, d := range p.Dates {
		if d.Weight == crews.Handover || d.Weight == crews.Left && d.Event == crews.AtDone {
			if d.At = by; by == calendars.Never {
				continue
			}
		}
		kept = append(kept, d)
	}
	p.Dates = kept
}
