package worktime

import (
	"maps"
	"reflect"

	"build.example/turflast/schedule"
)

// Like builds the calendars of a plan that differs little from that of the set, such as in
// one crew's heads on one day. It takes over those that are the same, and is equal to [New].
func (s *Set) Like(p *schedule.Plan) *Set {
	b, was := builder{plan: p, line: timeLine(p)}, s.plan
	if b.line == s.Line && len(p.Crews) == len(was.Crews) && len(p.Machines) == len(was.Machines) &&
		reflect.DeepEqual(&p.Site, &was.Site) && reflect.DeepEqual(p.Zones, was.Zones) &&
		reflect.DeepEqual(p.Duties, was.Duties) {
		b.like = s
	}
	return b.set()
}

// sameCrew says whether a crew's heads are those of the set that the builder goes by.
func (b builder) sameCrew(id schedule.CrewID) bool {
	if b.like == nil || !reflect.DeepEqual(&b.plan.Crews[id], &b.like.plan.Crews[id]) {
		return false
	}
	was := builder{plan: b.like.plan, line: b.line}
	return b.runsOn(id) == was.runsOn(id)
}

// sameMachine says likewise of a machine.
func (b builder) sameMachine(id schedule.MachineID) bool {
	return b.like != nil && reflect.DeepEqual(&b.plan.Machines[id], &b.like.plan.Machines[id])
}

// sameSite takes over the calendars of the site of another set.
func (s *Set) sameSite(like *Set) {
	s.Site, s.Gate, s.Loud, s.Places, s.openings = like.Site, like.Gate, like.Loud, like.Places, like.openings
	s.calm, s.mild = like.calm, like.mild
}

// takeOver takes over what another set has worked out of the same calendars.
func (s *Set) takeOver(like *Set) {
	like.mu.Lock()
	defer like.mu.Unlock()
	s.signOffs, s.meets, s.dries = like.signOffs, maps.Clone(like.meets), maps.Clone(like.dries)
	for n, c := range like.needs {
		if s.profile(n.of) == like.profile(n.of) {
			s.needs[n] = c
		}
	}
}
