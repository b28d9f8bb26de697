package starters

import (
	"fmt"
	"slices"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// byMachine says whether a task lifts by machine.
func byMachine(t *schedule.Task) bool {
	return slices.Contains(t.Hazards, "lifting") && len(t.Machines) > 0
}

// machine is the machine by which most tasks of an undoing were built in a zone, but for lifts;
// empty for work by hand.
func (s *Strike) machine(u undoing, zone string) (best string) {
	by := map[string]int{}
	for i := range s.of.Tasks {
		t := &s.of.Tasks[i]
		if byMachine(t) || !s.in(t, zone) || !slices.Contains(u.stages, s.of.Stages[t.Stage]) {
			continue
		}
		for _, need := range t.Machines {
			id := s.of.Machines[need.Machine].ID
			if by[id]++; by[id] > by[best] {
				best = id
			}
		}
	}
	return best
}

// machines are those of the plan that the strike uses.
func (s *Strike) machines() (out []schedule.Machine) {
	for _, m := range s.of.Machines {
		if slices.ContainsFunc(s.tasks, func(w work) bool { return w.machine == m.ID }) {
			out = append(out, m)
		}
	}
	return out
}

// longestLift is the longest that one unbroken lift is guessed to take: it has to fit into half
// a day.
const longestLift = 4 * calendars.Hour

// liftOut adds the lifts by which what machines lifted into a zone goes out of it again, one a
// machine: unbroken, in calm air, with nobody below.
func (s *Strike) liftOut(u undoing, zone string, last map[string]string) {
	for _, m := range s.of.Machines {
		var took calendars.Minutes
		heads, crew := 0, ""
		for i := range s.of.Tasks {
			t := &s.of.Tasks[i]
			byIt := func(n schedule.MachineNeed) bool { return s.of.Machines[n.Machine].ID == m.ID }
			if !byMachine(t) || s.of.Zones[t.Zones[0]].ID != zone || len(t.Crew) == 0 || !slices.ContainsFunc(t.Machines, byIt) {
				continue
			}
			least := t.Crew[0].Least
			took += t.Effort.Time(max(least, 1))
			if least > heads {
				heads, crew = least, s.of.Crews[t.Crew[0].Crew].ID
			}
		}
		if took == 0 {
			continue
		}
		took = min(max(calendars.Minutes(u.share*float64(took))/15*15, 30), longestLift)
		heads = min(max(heads, 1), s.heads(crew))
		s.add(work{id: u.id + "-" + zone + "-" + m.ID, name: fmt.Sprintf("%s by %s: %s", u.name, m.Name, s.zoneName(zone)),
			stage: "strike", zone: zone, crew: crew, least: heads, takes: span(float64(took)), machine: m.ID,
			hazards: u.hazards, weather: "calm", after: []string{"dead"},
			more: "unbroken: true, clears: [" + strings.Join(s.under(zone), ", ") + "]",
			why:  fmt.Sprintf("time: a guess, %.0f %% of what the lifts in took, at most half a day", 100*u.share)}, last)
	}
}

// under are the zones over which a load leaves a zone: those next on its way out, or itself.
func (s *Strike) under(zone string) (out []string) {
	for _, z := range s.of.Zones {
		if z.ID == zone {
			for _, over := range z.WayIn {
				out = append(out, s.of.Zones[over].ID)
			}
		}
	}
	if len(out) == 0 {
		out = []string{zone}
	}
	return out
}
