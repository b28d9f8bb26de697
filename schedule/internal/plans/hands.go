package plans

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

func (m *maker) crews() {
	for i, id := range []string{"joiners", "planters", "masons"}[:m.in(1, 3)] {
		c := schedule.Crew{ID: id, Name: id, People: m.in(2, 5), Rate: schedule.Money(3000 + 100*i)}
		if m.chance(30) {
			c.Hours = &calendars.Hours{Weekly: m.week(), On: m.named(25), Closed: m.closures(20)}
		} else {
			c.HoursOn, c.Closed = m.named(15), m.closures(20)
		}
		if m.chance(35) {
			c.Away = append(c.Away, m.away(c.People))
		}
		if m.chance(20) {
			on := m.first + calendars.Date(m.in(0, m.days-1))
			c.PeopleOn = []schedule.PeopleOn{{On: on, People: m.in(0, 6)}}
		}
		m.p.Crews = append(m.p.Crews, c)
	}
	if m.chance(10) {
		helpers := schedule.Crew{ID: "helpers", Name: "Volunteers"}
		for d := range m.days + 8 {
			helpers.PeopleOn = append(helpers.PeopleOn, schedule.PeopleOn{On: m.first + calendars.Date(d), People: m.in(2, 4)})
		}
		m.p.Crews = append(m.p.Crews, helpers)
	}
}

func (m *maker) away(people int) schedule.Away {
	a := schedule.Away{Span: m.span(120, 540)}
	if m.chance(40) {
		date := m.first + calendars.Date(m.in(0, m.days-1))
		a.Span = calendars.Span{Start: wall(m.p.Site.Location, date, 0), End: wall(m.p.Site.Location, date+1, 0)}
	}
	if a.All = m.chance(40); !a.All {
		a.People = m.in(1, people)
	}
	return a
}

// usual is a headcount that a crew has on many days.
func usual(c *schedule.Crew) int {
	if c.People == 0 {
		return 2
	}
	return c.People
}

func (m *maker) machines() {
	for _, id := range []string{"telehandler", "saw"}[:m.in(0, 2)] {
		k := schedule.Machine{ID: id, Name: id, Count: m.in(1, 2), Places: m.in(0, 2), Rate: 5500}
		if m.chance(50) {
			for d := 0; d < m.days+8; d += m.in(1, 2) {
				from, to := m.minutes(6*60, 9*60), m.minutes(12*60, 19*60)
				k.Ours = append(k.Ours, calendars.Span{Start: m.when(d, from), End: m.when(d, to)})
			}
		}
		m.p.Machines = append(m.p.Machines, k)
	}
}

func (m *maker) duties() {
	if !m.chance(20) {
		return
	}
	c := m.in(0, len(m.p.Crews)-1)
	from := m.first + calendars.Date(m.in(0, m.days-1))
	m.p.Duties = append(m.p.Duties, schedule.Duty{
		ID: "watering", Crew: []schedule.CrewNeed{{Crew: schedule.CrewID(c), Least: 1, Most: 1}},
		At: calendars.Range{From: 7 * 60, To: 8 * 60}, From: from, To: from + calendars.Date(m.in(0, 3)),
	})
}

// crewNeeds needs up to two crews, with no more heads than there is room for.
func (m *maker) crewNeeds(room int, ranges bool) []schedule.CrewNeed {
	var needs []schedule.CrewNeed
	first := m.in(0, len(m.p.Crews)-1)
	for k := range pick(m, []int{1, 1, 1, 2, 0}) {
		c := schedule.CrewID((first + k) % len(m.p.Crews))
		if k > 0 && c == needs[0].Crew {
			break
		}
		n := min(usual(&m.p.Crews[c]), room)
		if n < 1 {
			break
		}
		need := schedule.CrewNeed{Crew: c, Least: m.in(1, min(n, 3))}
		need.Most = need.Least
		if ranges && need.Least < n && m.chance(25) {
			need.Most = m.in(need.Least+1, n)
		}
		room -= need.Most
		needs = append(needs, need)
	}
	return needs
}

// machineNeeds needs machines of one kind at most, within the room.
func (m *maker) machineNeeds(percent, room int) []schedule.MachineNeed {
	if len(m.p.Machines) == 0 || !m.chance(percent) {
		return nil
	}
	id := m.in(0, len(m.p.Machines)-1)
	k := &m.p.Machines[id]
	n := m.in(1, k.Count)
	if n*k.Places > room {
		return nil
	}
	return []schedule.MachineNeed{{Machine: schedule.MachineID(id), Count: n}}
}
