package plans

import (
	"fmt"
	"slices"
	"time"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// order is the stages that small plans use, as a usual build takes them. Tasks
// come in this order, and every link, rule and way in runs along it.
var order = [...]string{"set-out", "groundworks", "structure",
	"paving", "cladding", "lighting", "planting", "turf", "clean"}

func (m *maker) tasks() {
	if m.chance(25) {
		m.p.Stages = append(m.p.Stages, "lighting")
	}
	n := m.in(2, 12)
	ranks := make([]int, n)
	for i := range ranks {
		ranks[i] = m.in(0, len(order)-1)
	}
	slices.Sort(ranks)
	for i, rank := range ranks {
		stage := slices.Index(m.p.Stages, order[rank])
		if stage < 0 {
			stage = slices.Index(m.p.Stages, "cladding")
		}
		m.p.Tasks = append(m.p.Tasks, m.task(i, schedule.StageID(stage)))
	}
}

func (m *maker) task(i int, stage schedule.StageID) schedule.Task {
	name := m.p.Stages[stage]
	t := schedule.Task{
		ID:   fmt.Sprintf("%s-%d", name, i+1),
		Name: fmt.Sprintf("%s %d", name, i+1), Stage: stage, Zones: m.taskZones(),
	}
	room := 99
	for _, z := range t.Zones {
		if people := m.p.Zones[z].People; people > 0 {
			room = min(room, people)
		}
	}
	t.Machines = m.machineNeeds(25, room-1)
	for _, need := range t.Machines {
		room -= need.Count * m.p.Machines[need.Machine].Places
	}
	t.Crew = m.crewNeeds(room, true)
	t.Effort = m.effort(len(t.Crew) > 0)
	if t.Effort.Num == 0 && t.Effort.Takes > 0 && t.Effort.Takes <= 180 {
		t.Unbroken = m.chance(40)
	}
	if t.Effort.Num == 0 && m.chance(15) {
		t.Spread = &schedule.Spread{Best: t.Effort.Takes / 2, Worst: t.Effort.Takes * 2}
	}
	if m.chance(15) {
		t.Cure = m.minutes(120, 24*60)
	}
	t.Stays, t.Loud = m.chance(15), m.chance(15)
	if !m.offSite(&t) {
		t.OnBoards = m.chance(8)
		m.closes(&t, name)
	}
	return t
}

func (m *maker) offSite(t *schedule.Task) bool { return m.p.OffSite(t) }

// taskZones is the yard for an early task at times, else one or two on site.
func (m *maker) taskZones() []schedule.ZoneID {
	site := len(m.p.Zones)
	if m.p.Zones[site-1].OffSite {
		site--
		if m.chance(20) {
			return []schedule.ZoneID{schedule.ZoneID(site)}
		}
	}
	z := m.in(0, site-1)
	if site > 1 && m.chance(15) {
		return []schedule.ZoneID{schedule.ZoneID(z), schedule.ZoneID((z + 1) % site)}
	}
	return []schedule.ZoneID{schedule.ZoneID(z)}
}

func (m *maker) effort(shared bool) schedule.Effort {
	switch kind := m.in(0, 19); {
	case kind < 12, !shared && kind > 13:
		return schedule.Effort{Takes: m.minutes(30, 360)}
	case kind < 14:
		return schedule.Effort{}
	case kind < 17:
		return schedule.Effort{Num: 60 * int64(m.in(1, 12)), Den: 1}
	}
	amount, rate := int64(m.in(5, 50)), int64(m.in(4, 12))
	num, den := 60*amount, rate
	for k := int64(2); k <= den; k++ {
		for num%k == 0 && den%k == 0 {
			num, den = num/k, den/k
		}
	}
	return schedule.Effort{
		Num: num, Den: den, Amount: fmt.Sprintf("%d m2", amount),
		Rate: fmt.Sprintf("%d m2/person-hour", rate), Unit: "m2",
	}
}

func (m *maker) closes(t *schedule.Task, stage string) {
	switch {
	case m.chance(8):
		t.Closes = schedule.Closing{Timed: true, For: m.minutes(0, 24*60)}
	case stage == "turf":
		t.Closes.Orders = !m.chance(10)
	default:
		t.Closes.Orders = m.chance(5)
	}
}

func (m *maker) deliveries() {
	for i, id := range []string{"larch", "stone", "shrubs", "turf"}[:m.in(0, 4)] {
		d := schedule.Delivery{ID: id, What: "a load of " + id, Waits: 30, Unload: schedule.Unload{Takes: m.minutes(15, 60)}}
		d.Arrives = m.arrival()
		if m.chance(40) {
			d.Unload.Crew = m.crewNeeds(2, false)
			for k := range d.Unload.Crew {
				d.Unload.Crew[k].Most = d.Unload.Crew[k].Least
			}
		}
		d.Unload.Machines = m.machineNeeds(30, 99)
		if m.chance(70) {
			d.Waits = m.minutes(0, 16*60)
		}
		if m.chance(40) {
			d.Keep = m.minutes(12*60, 120*60)
		}
		if m.chance(25) {
			d.Movable = &schedule.Movable{
				Earliest: d.Arrives.Plus(-calendars.Day),
				Latest:   m.said(d.Arrives.Plus(m.minutes(0, 24*60))),
			}
		}
		if m.chance(20) {
			d.Late = &schedule.Lateness{Chance: 0.2, Likely: 60, Worst: calendars.Day}
		}
		if m.chance(20) {
			d.OrderAhead = 3 * calendars.Week
		}
		m.carries(&d, schedule.DeliveryID(i))
		m.p.Deliveries = append(m.p.Deliveries, d)
	}
}

// arrival is a morning of the window, mostly one on which the gate is open.
func (m *maker) arrival() calendars.Instant {
	day := m.in(0, m.days*2/3-1)
	for range 4 {
		date := m.first + calendars.Date(day)
		holiday := slices.ContainsFunc(m.p.Site.Holidays, func(h schedule.Holiday) bool { return h.On == date })
		if date.Weekday() != time.Sunday && !holiday {
			break
		}
		day = (day + 1) % m.days
	}
	return m.when(day, m.minutes(7*60, 9*60+30))
}

// carries gives a delivery its users and what it comes after: a collection
// follows a task, another may follow off-site work before all its users.
func (m *maker) carries(d *schedule.Delivery, id schedule.DeliveryID) {
	n := len(m.p.Tasks)
	if m.chance(15) {
		d.Out, d.Keep = true, 0
		d.After = []schedule.Link{{From: schedule.TaskID(m.in(0, n-1))}}
		return
	}
	first := m.in(0, n-1)
	for t := first; t < n && t < first+3; t++ {
		if t == first || m.chance(30) {
			m.p.Tasks[t].Uses = append(m.p.Tasks[t].Uses, id)
		}
	}
	for t := range first {
		if m.offSite(&m.p.Tasks[t]) && m.chance(50) {
			d.After = []schedule.Link{{From: schedule.TaskID(t)}}
			return
		}
	}
}
