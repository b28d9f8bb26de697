package solve

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/resources"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/critical"
)

// Logic is the logic programme: dates over calendars, links and waits, as if no
// two activities shared anything. A task whose heads are a range has the fewest with
// which it can be finished as early as with any. Optional work is left out only where
// dates need that, with hands unlimited. The network of the case is that of the sizes
// and of the work that the programme has.
func (s *Solver) Logic() network.Case {
	whole := s.logic(nil)
	torn := torn(whole.Model, false)
	if order := droppable(whole.Model, torn); len(order) > 0 {
		whole = s.leaveOut(order, torn, whole)
	}
	whole.programme()
	return whole.Case
}

// logic has the times of the logic programme without the dropped tasks.
func (s *Solver) logic(dropped []bool) *assembly {
	m := s.logicModel(network.Choice{Dropped: dropped})
	if heads := s.leastHeads(m, dropped); heads != nil {
		m = s.logicModel(network.Choice{Heads: heads, Dropped: dropped})
	}
	t := network.NewTimes(m.Network)
	critical.Forward(m.Network, t)
	critical.Backward(m.Network, t)
	a := newAssembly(m, t, schedule.Logic)
	a.dropped = dropped
	return a
}

// logicModel is the network of a choice with every booking as it is.
func (s *Solver) logicModel(choice network.Choice) *network.Model {
	movable := func(d schedule.Delivery) bool { return d.Movable != nil }
	if choice.Heads == nil && choice.Dropped == nil && !slices.ContainsFunc(s.model.Plan.Deliveries, movable) {
		return s.model
	}
	m, err := expand(s.model.Plan, s.model.Hours, choice, false)
	if err != nil {
		panic(err) // other heads and fewer links can't run in a ring
	}
	return m
}

// leastHeads returns the heads of all tasks, those of a range the fewest together, then
// the fewest of the first crew named, with which the task is finished as early as all
// sizes apart allow. It is nil when those are the model's own.
func (s *Solver) leastHeads(m *network.Model, dropped []bool) [][]int {
	ranged := func(t *schedule.Task) bool {
		return slices.ContainsFunc(t.Crew, func(n schedule.CrewNeed) bool { return n.Least < n.Most })
	}
	if !slices.ContainsFunc(m.Plan.Tasks, func(t schedule.Task) bool { return ranged(&t) }) {
		return nil
	}
	p := s.shared().Problem(m, dropped, nil)
	ways := make([][]critical.Way, len(p.Modes))
	for k, modes := range p.Modes {
		for _, mode := range modes[1:] {
			ways[k] = append(ways[k], critical.Way{Work: mode.Work, Calendar: mode.Calendar})
		}
	}
	t := network.NewTimes(p.Net)
	critical.Apart(p.Net, t, ways)
	heads := slices.Clone(m.Heads)
	for i := range m.Plan.Tasks {
		k := m.Node(schedule.Activity(i))
		if len(p.Modes[k]) > 1 && t.Start[k] != calendars.Never {
			heads[i] = smallest(p, t, schedule.TaskID(i))
		}
	}
	return heads
}

// smallest returns the fewest heads with which a task that starts and finishes no
// earlier than in t finishes then.
func smallest(p *resources.Problem, t *network.Times, id schedule.TaskID) []int {
	k := p.Model.Node(schedule.Activity(id))
	sizes := slices.Clone(p.Heads[id])
	slices.SortFunc(sizes, func(a, b []int) int { return cmp.Or(cmp.Compare(sum(a), sum(b)), slices.Compare(a, b)) })
	node := p.Net.Nodes[k]
	for _, heads := range sizes {
		mode := &p.Modes[k][modeOf(p, id, heads)]
		node.Work, node.Calendar = mode.Work, mode.Calendar
		if _, finish := critical.Place(p.Net, &node, t.Start[k], t.Finish[k]); finish == t.Finish[k] {
			return heads
		}
	}
	return p.Heads[id][0]
}

func sum(heads []int) (n int) {
	for _, h := range heads {
		n += h
	}
	return n
}

// lateness is by how much dates break, weightiest first: how many activities have no
// place, the greatest lateness at the hand-over, the sum over own dates, and over the
// rest; last, whether optional work that isn't left out is done after the hand-over.
func (a *assembly) lateness() (late [5]calendars.Minutes) {
	a.finish()
	a.dates()
	a.breaks()
	for _, i := range a.t.Done {
		if i == calendars.Never {
			late[0]++
		}
	}
	for i := range a.Programme.Breaks {
		b := &a.Programme.Breaks[i]
		by := calendars.Minutes(b.Actual - b.Limit)
		switch b.Kind {
		case schedule.BreakHandover:
			late[1] = max(late[1], by)
		case schedule.BreakBy:
			late[2] += by
		default:
			late[3] += by
		}
	}
	for i := range a.Plan.Tasks {
		d := &a.Programme.Tasks[i]
		if !a.Plan.Required(schedule.Activity(i)) && !d.Dropped && d.Done > a.Plan.Site.Handover {
			late[4] = 1
		}
	}
	return late
}

// leaveOut is the logic programme without as few optional tasks as bring the lateness
// to the least, of equally few those that come first in the order. It is exact up to
// enumerated tasks; of more, it puts back one after the other what costs nothing. Of
// those that are torn, as many are left out as gives the others a place.
func (s *Solver) leaveOut(order, torn []schedule.TaskID, whole *assembly) *assembly {
	without := func(pick []int) *assembly { return s.logic(s.marked(order, pick)) }
	lateness := func(a *assembly) [5]calendars.Minutes {
		late := a.lateness()
		if leavesOut(a.Model, torn, a.dropped) {
			late[0]++
		}
		return late
	}
	every := make([]int, len(order))
	for k := range every {
		every[k] = k
	}
	late := lateness(whole)
	if late == ([5]calendars.Minutes{}) {
		return whole
	}
	least := without(every)
	bar := lateness(least)
	fine := func(late [5]calendars.Minutes) bool { return slices.Compare(late[:], bar[:]) <= 0 }
	if fine(late) {
		return whole
	}
	if len(order) <= enumerated {
		for pick := range picks(len(order)) {
			if a := without(pick); fine(lateness(a)) {
				return a
			}
		}
		return least
	}
	out := least
	for k := len(order) - 1; k >= 0; k-- {
		fewer := slices.DeleteFunc(slices.Clone(every), func(i int) bool { return i == k })
		if a := without(fewer); fine(lateness(a)) {
			every, out = fewer, a
		}
	}
	return out
}
