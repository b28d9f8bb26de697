// Package resources says what the tasks and unloadings of a plan share: crews,
// machines, room in zones, places at the gate, and time that rules reserve for one
// task. It turns a plan's network into a problem of finite resources.
package resources

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/network/worktime"
)

// Kind says what is shared.
type Kind uint8

// What is shared. An Alone resource keeps one task, its holder, apart from others.
// It has one place for each of the others: the holder takes all places, each of
// the others one.
const (
	Crew Kind = iota
	Machine
	Zone // room: people and the places of machines
	Gate
	Alone // time kept apart, cleared or closed
)

// Resource is one thing that is shared.
type Resource struct {
	Kind    Kind
	Crew    schedule.CrewID    // of Crew, else None
	Machine schedule.MachineID // of Machine, else None
	Zone    schedule.ZoneID    // of Zone, else None
	Task    schedule.TaskID    // of Alone: the holder, else None
}

// Set holds the resources of one plan and who needs how much of them. Several
// goroutines may use it at once.
type Set struct {
	Resources []Resource
	Capacity  []*calendars.Profile
	Hours     *worktime.Set

	plan     *schedule.Plan
	required []bool              // by Activity, as [schedule.Plan.Required]
	users    [][]schedule.TaskID // by DeliveryID, as [schedule.Plan.Users]
	crews    []int32             // resource by CrewID, or None
	machines []int32             // by MachineID
	zones    []int32             // by ZoneID
	gate     int32               // or None
	alone    [][]crews.Need      // by Activity: what it takes of Alone resources
}

// New finds what the tasks and unloadings of a plan share.
func New(p *schedule.Plan, hours *worktime.Set) *Set {
	s := &Set{plan: p, Hours: hours, gate: schedule.None, alone: make([][]crews.Need, p.Activities())}
	s.required, s.users = p.RequiredOfEach(), p.UsersOfEach()
	for i := range p.Crews {
		r := none(Crew)
		r.Crew = schedule.CrewID(i)
		s.crews = append(s.crews, s.add(r, hours.Crews[i]))
	}
	for i := range p.Machines {
		r := none(Machine)
		r.Machine = schedule.MachineID(i)
		s.machines = append(s.machines, s.add(r, s.always(p.Machines[i].Count)))
	}
	for i := range p.Zones {
		if p.Zones[i].People == 0 {
			s.zones = append(s.zones, schedule.None)
			continue
		}
		r := none(Zone)
		r.Zone = schedule.ZoneID(i)
		s.zones = append(s.zones, s.add(r, s.always(p.Zones[i].People)))
	}
	if g := p.Site.Gate; g != nil && g.AtOnce > 0 {
		s.gate = s.add(none(Gate), s.always(g.AtOnce))
	}
	s.keepApart()
	s.clear()
	s.close()
	return s
}

func none(k Kind) Resource {
	return Resource{Kind: k, Crew: schedule.None, Machine: schedule.None, Zone: schedule.None, Task: schedule.None}
}

func (s *Set) add(r Resource, there *calendars.Profile) int32 {
	s.Resources = append(s.Resources, r)
	s.Capacity = append(s.Capacity, there)
	return int32(len(s.Resources) - 1)
}

// onDuty marks the crews: work that needs people is done only while they are there.
func (s *Set) onDuty() []bool {
	out := make([]bool, len(s.Resources))
	for r := range out {
		out[r] = s.Resources[r].Kind == Crew
	}
	return out
}

// always is a count that holds for the whole time line.
func (s *Set) always(n int) *calendars.Profile {
	return calendars.NewProfile([]calendars.Change{{Span: s.Hours.Line, By: n}})
}

// Task is what a task needs with the given heads of each of its crews; nothing once
// it is finished.
func (s *Set) Task(id schedule.TaskID, heads []int) []crews.Need {
	if s.plan.Finished(id) {
		return nil
	}
	t := &s.plan.Tasks[id]
	var out []crews.Need
	all := 0
	for i, c := range t.Crew {
		out = put(out, s.crews[c.Crew], heads[i], false)
		all += heads[i]
	}
	for _, m := range t.Machines { // in the pauses of a task that stays, only the heads leave
		out = put(out, s.machines[m.Machine], m.Count, t.Stays)
	}
	for _, z := range t.Occupied() {
		if s.zones[z] != schedule.None {
			out = put(out, s.zones[z], s.plan.RoomIn(z, t.Zones, all, t.Machines), t.Stays)
		}
	}
	return with(out, s.alone[id])
}

// Unload is what an unloading needs; nothing once it is over.
func (s *Set) Unload(id schedule.DeliveryID) []crews.Need {
	if s.plan.Unloaded(id) {
		return nil
	}
	u := &s.plan.Deliveries[id].Unload
	var out []crews.Need
	for _, c := range u.Crew {
		out = put(out, s.crews[c.Crew], c.Least, false)
	}
	for _, m := range u.Machines {
		out = put(out, s.machines[m.Machine], m.Count, false)
	}
	for _, z := range u.Occupied() {
		if s.zones[z] != schedule.None {
			out = put(out, s.zones[z], s.plan.RoomIn(z, nil, 0, u.Machines), false)
		}
	}
	if s.gate != schedule.None {
		out = put(out, s.gate, 1, false)
	}
	return with(out, s.alone[s.plan.Unload(id)])
}

// with is needs and those of time that rules keep, which may be very many.
func with(needs, alone []crews.Need) []crews.Need {
	if len(needs) == 0 {
		return slices.Clip(alone)
	}
	return append(needs, alone...)
}

// put adds an amount of a resource, if there is any. A plan names each crew,
// machine and zone once, so nothing has two amounts to be summed.
func put(needs []crews.Need, r int32, amount int, stays bool) []crews.Need {
	if amount == 0 {
		return needs
	}
	return append(needs, crews.Need{Resource: r, Amount: int32(amount), Stays: stays})
}

// keep makes an Alone resource of which the holder takes all places and each of
// the others one. A finished holder keeps only what its need holds after the
// finish; finished others take nothing.
func (s *Set) keep(holder schedule.TaskID, others []schedule.Activity, its, theirs crews.Need) {
	if s.plan.Progress != nil {
		others = slices.DeleteFunc(slices.Clone(others), s.plan.Over)
	}
	finished := s.plan.Finished(holder)
	if len(others) == 0 || finished && its.After == 0 {
		return
	}
	r := none(Alone)
	r.Task = holder
	all := calendars.Change{Span: s.Hours.Line, By: len(others)}
	of := s.add(r, calendars.NewProfile([]calendars.Change{all}))
	if finished {
		was := s.plan.Progress.Tasks[holder].Finish
		s.Capacity[of] = calendars.NewProfile([]calendars.Change{
			all, {Span: calendars.Span{Start: was, End: was.Plus(its.After)}, By: -len(others)},
		})
		theirs.Resource, theirs.Amount = of, 1
		for _, o := range others {
			s.alone[o] = append(s.alone[o], theirs)
		}
		return
	}
	its.Resource, its.Amount = of, int32(len(others))
	s.alone[holder] = append(s.alone[holder], its)
	theirs.Resource, theirs.Amount = of, 1
	for _, o := range others {
		s.alone[o] = append(s.alone[o], theirs)
	}
}

// keepApart makes a resource for every task that others may not overlap, pauses
// included.
func (s *Set) keepApart() {
	apart := make([][]schedule.Activity, len(s.plan.Tasks))
	for pair := range s.plan.KeptApart() {
		lo, hi := min(pair[0], pair[1]), max(pair[0], pair[1]).Activity()
		apart[lo] = append(apart[lo], hi)
	}
	for i, others := range apart {
		slices.Sort(others) // several rules may name a pair
		apart[i] = slices.Compact(others)
	}
	s.makeRoom(apart)
	for i, others := range apart {
		whole := crews.Need{Stays: true}
		s.keep(schedule.TaskID(i), others, whole, whole)
	}
}

// makeRoom makes room at once for what activities take of time that is kept apart, which
// may be millions of needs.
func (s *Set) makeRoom(apart [][]schedule.Activity) {
	count := make([]int, len(s.alone))
	for holder, others := range apart {
		count[holder]++
		for _, o := range others {
			count[o]++
		}
	}
	for a, n := range count {
		if n > 1 { // else there is one need at most
			s.alone[a] = make([]crews.Need, 0, n)
		}
	}
}

// clear makes a resource for every task that clears zones, in which nobody else works
// and no machine of others stands: in its worked time, and in its pauses if it stays.
func (s *Set) clear() {
	for i := range s.plan.Tasks {
		t := &s.plan.Tasks[i]
		if len(t.Clears) == 0 {
			continue
		}
		var others []schedule.Activity
		for j := range s.plan.Tasks {
			if i != j && schedule.ShareZone(s.plan.Tasks[j].Occupied(), t.Clears) {
				others = append(others, schedule.Activity(j))
			}
		}
		for d := range s.plan.Deliveries {
			if schedule.ShareZone(s.plan.Deliveries[d].Unload.Occupied(), t.Clears) {
				others = append(others, s.plan.Unload(schedule.DeliveryID(d)))
			}
		}
		s.keep(schedule.TaskID(i), others, crews.Need{Stays: t.Stays}, crews.Need{})
	}
}

// close makes a resource for every task that closes the way in for a time.
func (s *Set) close() {
	behind := s.plan.Behind()
	for i := range s.plan.Tasks {
		t := &s.plan.Tasks[i]
		if !t.Closes.Timed || t.Excused(schedule.WayIn) {
			continue
		}
		id := schedule.TaskID(i)
		var others []schedule.Activity
		for _, o := range s.plan.CutsOff(id, behind) {
			others = append(others, o.Activity())
		}
		s.keep(id, others, crews.Need{Stays: true, After: t.Closes.For}, crews.Need{})
	}
}
