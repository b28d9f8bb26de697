package plans

import (
	"slices"

	"build.example/turflast/schedule"
)

// What follows is drawn after all else that moves dates, so that the rest of a plan
// doesn't depend on it.

// aged lets living stock be old already when it comes.
func (m *maker) aged() {
	for i := range m.p.Deliveries {
		if d := &m.p.Deliveries[i]; d.Keep > 0 && m.chance(30) {
			d.Aged = m.minutes(0, min(d.Keep-30, 10*60))
		}
	}
}

// owed lets deliveries wait for what others provide.
func (m *maker) owed() {
	for i := range m.p.Deliveries {
		if len(m.p.Givens) > 0 && m.chance(40) {
			m.p.Deliveries[i].Givens = []schedule.GivenID{0}
		}
	}
}

// dries lets work that must be dry wait its own time after a wet day.
func (m *maker) dries() {
	for i := range m.p.Tasks {
		if t := &m.p.Tasks[i]; t.Weather&schedule.Dry != 0 && m.chance(30) {
			dries := m.minutes(0, 5*60)
			t.Dries = &dries
		}
	}
}

// stands lets machines of work on the plot and of unloadings stand in another zone,
// where it has room for them.
func (m *maker) stands() {
	var zones []schedule.ZoneID
	for z := range m.p.Zones {
		if !m.p.Zones[z].OffSite {
			zones = append(zones, schedule.ZoneID(z))
		}
	}
	elsewhere := func(needs []schedule.MachineNeed, taken []schedule.ZoneID) {
		for i := range needs {
			z, need := pick(m, zones), &needs[i]
			holds, places := m.p.Zones[z].People, need.Count*m.p.Machines[need.Machine].Places
			if m.chance(40) && !slices.Contains(taken, z) && (holds == 0 || places <= holds) {
				need.Stands = []schedule.ZoneID{z}
			}
		}
	}
	for i := range m.p.Tasks {
		if t := &m.p.Tasks[i]; !m.p.OffSite(t) {
			elsewhere(t.Machines, t.Zones)
		}
	}
	for i := range m.p.Deliveries {
		elsewhere(m.p.Deliveries[i].Unload.Machines, nil)
	}
}

// soaks lets hold points without appointments run on the clock, day and night.
func (m *maker) soaks() {
	for i := range m.p.Tasks {
		if h := m.p.Tasks[i].Hold; h != nil && len(h.Appointments) == 0 && m.chance(50) {
			h.OnTheClock, h.Takes = true, m.minutes(15, 20*60)
		}
	}
}

// standsClear lets work that clears a zone stay in it through its pauses.
func (m *maker) standsClear() {
	for i := range m.p.Tasks {
		if t := &m.p.Tasks[i]; len(t.Clears) > 0 && m.chance(50) {
			t.Stays = true
		}
	}
}

// soaks are in whole half hours.
func (m tiny) soaks() {
	for i := range m.p.Tasks {
		if h := m.p.Tasks[i].Hold; h != nil && len(h.Appointments) == 0 && m.chance(50) {
			h.OnTheClock, h.Takes = true, m.half(30, 16*60)
		}
	}
}

// aged is in whole half hours.
func (m tiny) aged() {
	for i := range m.p.Deliveries {
		if d := &m.p.Deliveries[i]; d.Keep > 0 && m.chance(40) {
			d.Aged = m.half(30, 90)
		}
	}
}
