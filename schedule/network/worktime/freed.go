package worktime

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Windy says whether work that must be calm stands still at any time.
func (s *Set) Windy() bool { return s.calm != nil }

// Harsh says whether work that must be mild stands still at any time.
func (s *Set) Harsh() bool { return s.mild != nil }

// Freed says whose hours are taken as always open, to find out whether they matter.
type Freed struct {
	Site, Gate, Loud, Dry, Calm, Mild bool

	Zones    []bool // places off site, by ZoneID
	Crews    []bool // all their people at work at any time, by CrewID
	Machines []bool // ours at any time, by MachineID
}

// Free is a set in which some hours never close. Who keeps the site's hours goes with
// the site: the gate and the crews without hours of their own. Days of a gate's
// openings and appointments stay as they are.
func (s *Set) Free(f Freed) *Set {
	out := &Set{
		Line: s.Line, Site: s.Site, Gate: s.Gate, Loud: s.Loud, Places: slices.Clone(s.Places),
		Crews: slices.Clone(s.Crews), Machines: slices.Clone(s.Machines), plan: s.plan, openings: s.openings,
		needs: make(map[need]*calendars.Calendar), meets: make(map[[2]*calendars.Calendar]*calendars.Calendar),
		goes: make(map[string]*calendars.Calendar),
	}
	if s.dries != nil && !f.Dry {
		out.dries = make(map[drying]*calendars.Calendar)
	}
	if !f.Calm {
		out.calm = s.calm
	}
	if !f.Mild {
		out.mild = s.mild
	}
	if f.Loud {
		out.Loud = nil
	}
	s.freePlaces(out, f, calendars.New([]calendars.Span{s.Line}))
	for m := range s.Machines {
		if f.Machines[m] {
			out.Machines[m] = nil
		}
	}
	s.freeCrews(out, f)
	return out
}

// freePlaces gives the places that are freed to a set.
func (s *Set) freePlaces(out *Set, f Freed, always *calendars.Calendar) {
	if f.Gate || f.Site && s.Gate == s.Site {
		out.Gate = always
	}
	for z := range s.Places {
		if f.Zones[z] || f.Site && s.Places[z] == s.Site {
			out.Places[z] = always
		}
	}
}

// freeCrews gives the crews that are freed, by themselves or with the site, to a set.
func (s *Set) freeCrews(out *Set, f Freed) {
	b := builder{plan: s.plan, line: s.Line}
	for c := range s.Crews {
		switch {
		case f.Crews[c]:
			all := calendars.Change{Span: s.Line, By: s.Crews[c].Max()}
			out.Crews[c] = calendars.NewProfile([]calendars.Change{all})
		case f.Site && s.KeepsSite(schedule.CrewID(c)):
			out.Crews[c] = b.crew(schedule.CrewID(c), []calendars.Span{s.Line})
		}
	}
}

// KeepsSite says whether a crew works in the site's hours, whatever they are.
func (s *Set) KeepsSite(id schedule.CrewID) bool {
	c := &s.plan.Crews[id]
	return c.Hours == nil && len(c.HoursOn) == 0 && len(c.Closed) == 0
}

// Varies says whether a crew has hours of its own, or not all of its people at all of
// the site's.
func (s *Set) Varies(id schedule.CrewID) bool {
	c := &s.plan.Crews[id]
	varies := !s.KeepsSite(id) || len(c.PeopleOn) > 0 || len(c.Away) > 0
	for i := range s.plan.Duties {
		varies = varies || slices.ContainsFunc(s.plan.Duties[i].Crew,
			func(n schedule.CrewNeed) bool { return n.Crew == id })
	}
	return varies
}

// Wet says whether work that must be dry stands still at some time.
func (s *Set) Wet() bool { return s.dries != nil }
