package schedule

import (
	"iter"
	"slices"
)

// Share says whether two activities need the same crew, machine or zone.
func (p *Plan) Share(a, b Activity) bool {
	return meet(p.CrewOf(a), p.CrewOf(b), func(n, o CrewNeed) bool { return n.Crew == o.Crew }) ||
		meet(p.MachinesOf(a), p.MachinesOf(b), func(n, o MachineNeed) bool { return n.Machine == o.Machine }) ||
		ShareZone(p.OccupiedBy(a), p.OccupiedBy(b))
}

// OccupiedBy lists the zones in which an activity's people work or its machines stand.
func (p *Plan) OccupiedBy(a Activity) []ZoneID {
	if d, ok := p.Delivery(a); ok {
		return p.Deliveries[d].Unload.Occupied()
	}
	return p.Tasks[a].Occupied()
}

// Occupied lists the zones in which a task's people work or its machines stand.
func (t *Task) Occupied() []ZoneID { return occupied(t.Zones, t.Machines) }

// Occupied lists the zones in which machines stand for an unloading.
func (u *Unload) Occupied() []ZoneID { return occupied(nil, u.Machines) }

func occupied(zones []ZoneID, machines []MachineNeed) []ZoneID {
	out := slices.Clone(zones)
	for _, m := range machines {
		for _, z := range m.Stands {
			if !slices.Contains(out, z) {
				out = append(out, z)
			}
		}
	}
	return out
}

// RoomIn is what heads in some zones and the places of machines take of a zone: a
// machine counts where it stands, or else where the heads are.
func (p *Plan) RoomIn(z ZoneID, zones []ZoneID, heads int, machines []MachineNeed) int {
	here, room := slices.Contains(zones, z), 0
	if here {
		room = heads
	}
	for _, m := range machines {
		if m.Stands == nil && here || slices.Contains(m.Stands, z) {
			room += m.Count * p.Machines[m.Machine].Places
		}
	}
	return room
}

// ShareZone says whether two lists of zones have one in common.
func ShareZone(a, b []ZoneID) bool {
	for _, z := range a {
		if slices.Contains(b, z) {
			return true
		}
	}
	return false
}

// meet says whether something in one list is the same as something in another.
func meet[T any](a, b []T, same func(T, T) bool) bool {
	return slices.ContainsFunc(a, func(x T) bool { return slices.ContainsFunc(b, func(y T) bool { return same(x, y) }) })
}

// KeptApart yields the pairs of tasks that must not go on side by side: those of which
// one names the other, with None, then those of each rule. A pair is yielded each time
// that the plan keeps it apart.
func (p *Plan) KeptApart() iter.Seq2[[2]TaskID, RuleID] {
	return func(yield func([2]TaskID, RuleID) bool) {
		for i := range p.Tasks {
			for _, other := range p.Tasks[i].Apart {
				if !yield([2]TaskID{TaskID(i), other}, None) {
					return
				}
			}
		}
		for r := range p.Rules {
			if p.Rules[r].Kind == Apart && !p.parted(RuleID(r), yield) {
				return
			}
		}
	}
}

// parted yields the pairs that one rule keeps apart, as long as they are wanted.
func (p *Plan) parted(rule RuleID, yield func([2]TaskID, RuleID) bool) bool {
	r := &p.Rules[rule]
	then := p.ruled(rule, r.Then)
	for _, a := range p.ruled(rule, r.First) {
		for _, b := range then {
			if p.near(r, a, b) && !yield([2]TaskID{a, b}, rule) {
				return false
			}
		}
	}
	return true
}

// ruled lists the tasks of some stages that aren't excused from a rule.
func (p *Plan) ruled(rule RuleID, stages []StageID) (out []TaskID) {
	for i := range p.Tasks {
		if slices.Contains(stages, p.Tasks[i].Stage) && !p.Tasks[i].Excused(rule) {
			out = append(out, TaskID(i))
		}
	}
	return out
}

// near says whether two tasks are where a rule is about both.
func (p *Plan) near(r *Rule, a, b TaskID) bool {
	return a != b && (r.Everywhere || ShareZone(p.Tasks[a].Zones, p.Tasks[b].Zones))
}

// parts says whether a rule keeps a task of its first stages apart from one of the
// others.
func (p *Plan) parts(rule RuleID, first, then TaskID) bool {
	r, a, b := &p.Rules[rule], &p.Tasks[first], &p.Tasks[then]
	return slices.Contains(r.Then, b.Stage) && slices.Contains(r.First, a.Stage) &&
		!a.Excused(rule) && !b.Excused(rule) && p.near(r, first, then)
}

// ApartBy says whether two tasks are kept apart, and by which rule: None where one of
// them names the other, else the first that does.
func (p *Plan) ApartBy(a, b TaskID) (rule RuleID, apart bool) {
	if slices.Contains(p.Tasks[a].Apart, b) || slices.Contains(p.Tasks[b].Apart, a) {
		return None, true
	}
	for r := range p.Rules {
		if id := RuleID(r); p.Rules[r].Kind == Apart && (p.parts(id, a, b) || p.parts(id, b, a)) {
			return id, true
		}
	}
	return None, false
}

// CutsOff lists the tasks that can't be reached while one closes the way in;
// behind is the result of [Plan.Behind].
func (p *Plan) CutsOff(t TaskID, behind [][]ZoneID) []TaskID {
	zones := p.ZonesBehind(&p.Tasks[t], behind)
	var out []TaskID
	for i := range p.Tasks {
		if o := TaskID(i); o != t && p.NeedsWayIn(&p.Tasks[i]) && ShareZone(p.Tasks[i].Zones, zones) {
			out = append(out, o)
		}
	}
	return out
}

// NeedsWayIn says whether a task can't be reached where the way in is closed: it isn't
// on boards, and neither leaves last nor is excused.
func (p *Plan) NeedsWayIn(t *Task) bool {
	return !t.OnBoards && !p.LeavesLast(t.Stage) && !t.Excused(WayIn)
}
