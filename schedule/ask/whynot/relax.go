package whynot

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/worktime"
)

// only is the problem in which no facts but those kept hold.
func (q *question) only(kept []bool) *crews.Problem {
	p, net := q.base.Problem, *q.base.Net
	net.Nodes, net.Calendars = slices.Clone(net.Nodes), slices.Clone(net.Calendars)
	p.Net, p.Modes = &net, slices.Clone(p.Modes)
	p.Tie, p.Told, p.Content, p.Bookings = nil, nil, 0, nil
	away := make([]bool, len(q.set.Resources))
	idle := make([]bool, len(net.Nodes))
	for i := range q.all {
		if f := &q.all[i]; !kept[i] {
			q.leave(&net, f, away, idle)
		}
	}
	hours := q.freed(kept)
	p.Capacity = slices.Clone(p.Capacity)
	for r, of := range q.set.Resources {
		if of.Crew != schedule.None {
			p.Capacity[r] = hours.Crews[of.Crew]
		}
	}
	q.modes(&p, hours, away, idle)
	q.unlink(&net, kept, idle)
	q.due(&p)
	return &p
}

// leave leaves a fact of nodes and of shared things away.
func (q *question) leave(net *network.Network, f *Fact, away, idle []bool) {
	switch f.Kind {
	case Within, Wait: // see unlink
	case Alone, Room, GatePlaces, Machines, People:
		away[f.resource] = true
	case Work:
		idle[f.node] = true
	case Cure:
		net.Nodes[f.node].Cure = 0
	case SignOff:
		net.Nodes[f.node].Hold = network.None
	case Start:
		net.Nodes[f.node].Earliest = q.floor(f.Activity)
	}
}

// freed are the hours in which those left away never close.
func (q *question) freed(kept []bool) *worktime.Set {
	p := q.plan
	free := worktime.Freed{
		Zones: make([]bool, len(p.Zones)), Crews: make([]bool, len(p.Crews)), Machines: make([]bool, len(p.Machines)),
	}
	key := make([]byte, len(q.all))
	for i := range q.all {
		if !kept[i] && leaveHours(&free, &q.all[i]) {
			key[i] = 1
		}
	}
	hours, known := q.known[string(key)]
	if !known {
		hours = q.set.Hours.Free(free)
		q.known[string(key)] = hours
	}
	return hours
}

// leaveHours frees the hours that a fact is about; false for another fact.
func leaveHours(free *worktime.Freed, f *Fact) bool {
	switch f.Kind {
	case CrewHours:
		free.Crews[f.Crew] = true
	case MachineHours:
		free.Machines[f.Machine] = true
	case ZoneHours:
		free.Zones[f.Zone] = true
	case DryHours:
		free.Dry = true
	case CalmHours:
		free.Calm = true
	case MildHours:
		free.Mild = true
	case LoudHours:
		free.Loud = true
	case GateHours:
		free.Gate = true
	case SiteHours:
		free.Site = true
	default:
		return false
	}
	return true
}

// modes gives each node the ways to do it that the facts kept leave.
func (q *question) modes(p *crews.Problem, hours *worktime.Set, away, idle []bool) {
	places := make(map[*calendars.Calendar]int32, len(p.Net.Calendars))
	for k := range p.Net.Nodes {
		node, a := &p.Net.Nodes[k], q.base.Model.At(int32(k))
		switch {
		case a == schedule.Nothing || node.Fixed || q.gone(a):
			continue
		case idle[k]:
			node.Work = 0
			p.Modes[k] = []crews.Mode{{Calendar: node.Calendar}}
			continue
		}
		modes := slices.Clone(p.Modes[k])
		for i := range modes {
			m := &modes[i]
			c := q.worked(hours, a, i)
			at, known := places[c]
			if !known {
				at = int32(len(p.Net.Calendars))
				p.Net.Calendars, places[c] = append(p.Net.Calendars, c), at
			}
			m.Calendar = at
			m.Needs = slices.DeleteFunc(slices.Clone(m.Needs), func(n crews.Need) bool { return away[n.Resource] })
		}
		p.Modes[k], node.Calendar = modes, modes[0].Calendar
	}
}

// worked is the working time of an activity in a mode.
func (q *question) worked(hours *worktime.Set, a schedule.Activity, mode int) *calendars.Calendar {
	if t, ok := q.plan.Task(a); ok {
		return hours.Task(&q.plan.Tasks[t], q.base.Heads[t][mode])
	}
	d, _ := q.plan.Delivery(a)
	return hours.Unload(&q.plan.Deliveries[d])
}

// unlink takes waits and longest waits away. An idle activity whose start lets others
// begin and whose finish waits for others would tie the two together, which work that
// takes time does not: its finish then waits for nothing.
func (q *question) unlink(net *network.Network, kept, idle []bool) {
	loose := make([]bool, len(net.Nodes))
	for k := range net.Nodes {
		loose[k] = idle[k] && slices.ContainsFunc(net.OutOther.Of(k),
			func(e network.End) bool { return !e.Kind.FromFinish() })
	}
	gone := make(map[Fact]bool)
	for i := range q.all {
		if f := &q.all[i]; f.Kind == Wait && !kept[i] {
			gone[Fact{arc: f.arc, end: f.end}] = true
		}
	}
	ends := func(from, to int32, e network.End) (network.End, bool) {
		e.Node = from
		if gone[Fact{arc: [2]int32{from, to}, end: e}] {
			e.Wait = schedule.Wait{Kind: schedule.Cure}
		}
		return e, !(loose[to] && e.Kind.ToFinish())
	}
	net.InOther = rewired(net.InOther, len(net.Nodes), ends)
	net.OutOther = rewired(net.OutOther, len(net.Nodes), func(to, from int32, e network.End) (network.End, bool) {
		e, keep := ends(from, to, e)
		e.Node = to
		return e, keep
	})
	net.Withins = q.longest(kept, idle)
}

// longest are the longest waits kept between work that is.
func (q *question) longest(kept, idle []bool) (out []network.Within) {
	gone := make([]bool, len(q.base.Net.Withins))
	for i := range q.all {
		if f := &q.all[i]; f.Kind == Within && !kept[i] {
			gone[f.within] = true
		}
	}
	for i, w := range q.base.Net.Withins {
		if !gone[i] && !idle[w.From] && !idle[w.To] {
			out = append(out, w)
		}
	}
	return out
}

// rewired are arcs changed one by one, or dropped. Change takes the far end, the near
// end and the arc.
func rewired(s network.Special, nodes int,
	change func(far, near int32, e network.End) (network.End, bool)) network.Special {
	if len(s.First) == 0 {
		return s
	}
	out := network.Special{First: make([]int32, nodes+1)}
	for k := range nodes {
		for _, e := range s.Of(k) {
			if e, keep := change(e.Node, int32(k), e); keep {
				out.Arcs = append(out.Arcs, e)
			}
		}
		out.First[k+1] = int32(len(out.Arcs))
	}
	return out
}

// due makes the moment asked for the only date: what is required is done by then.
func (q *question) due(p *crews.Problem) {
	p.Dates = nil
	for k := range p.Net.Nodes {
		n := &p.Net.Nodes[k]
		n.LatestStart, n.LatestFinish, n.LatestDone = calendars.Never, calendars.Never, calendars.Never
		if p.Counts[k] {
			n.LatestDone = q.by
			p.Dates = append(p.Dates, crews.Date{
				Node: int32(k), Event: crews.AtDone, Weight: crews.Handover, Booking: network.None, At: q.by,
			})
		}
	}
}
