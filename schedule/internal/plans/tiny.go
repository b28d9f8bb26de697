package plans

import (
	"fmt"
	"slices"
	"time"

	"build.example/turflast/calendars"
	"build.example/turflast/calendars/zones"
	"build.example/turflast/schedule"
)

// tiny makes a plan whose best crew programme can be found by trying them all.
type tiny struct{ *maker }

// Tiny makes a plan of 2 to 6 tasks and at most 2 deliveries over two or three
// days. All its times are whole steps of 15 minutes, nearly all of 30, and people,
// machines, room and the gate are scarce.
func Tiny(src Source) *schedule.Plan {
	m := tiny{&maker{src: src, p: &schedule.Plan{Garden: "Random Corner", Stages: schedule.BuiltInStages()}}}
	m.window()
	m.gate()
	m.zones()
	m.crews()
	m.machines()
	m.duties()
	m.tasks()
	m.deliveries()
	m.rules()
	m.links()
	m.extras()
	m.excuse()
	m.ends()
	m.aged()
	m.soaks()
	m.owed()
	m.standsClear()
	m.stands()
	return m.p
}

// half is a length of whole half hours.
func (m tiny) half(lo, hi calendars.Minutes) calendars.Minutes {
	return calendars.Minutes(m.in(int(lo/30), int(hi/30))) * 30
}

func (m tiny) window() {
	loc, err := zones.Load("Europe/London")
	if err != nil {
		panic(fmt.Sprintf("plans: %v", err))
	}
	d := calendars.DateOf
	s := &m.p.Site
	s.Location = loc
	m.first = pick(m.maker, []calendars.Date{d(2027, 6, 7), d(2027, 6, 4), d(2027, 3, 26), d(2027, 10, 29)})
	m.days = m.in(2, 3)
	s.Opens = m.when(0, m.half(7*60, 9*60))
	s.Handover = m.when(m.days-1, m.half(11*60, 17*60))
	if m.chance(20) {
		s.Aim = s.Handover.Plus(-m.half(60, 180))
	}
	if m.chance(8) {
		s.Holidays = []schedule.Holiday{{On: m.first + calendars.Date(m.in(1, 2)), Name: "show preview"}}
	}
	s.Hours = calendars.Hours{Weekly: m.week(), On: m.named(10), Closed: m.closures(12)}
	if m.chance(40) {
		s.Loud = allWeek([]calendars.Range{{From: 9 * 60, To: 12 * 60}, {From: 13 * 60, To: 16 * 60}})
	}
}

// allWeek are hours that are the same on all days but Sunday.
func allWeek(day []calendars.Range) *calendars.WeekHours {
	w := &calendars.WeekHours{}
	for d := time.Monday; d <= time.Saturday; d++ {
		w[d] = day
	}
	return w
}

func (m tiny) week() calendars.WeekHours {
	w := allWeek(pick(m.maker, [][]calendars.Range{
		{{From: 8 * 60, To: 12 * 60}, {From: 13 * 60, To: 17 * 60}},
		{{From: 8 * 60, To: 15 * 60}},
		{{From: 7 * 60, To: 11 * 60}, {From: 11*60 + 30, To: 16 * 60}},
	}))
	if m.chance(60) {
		w[time.Sunday] = []calendars.Range{{From: 9 * 60, To: 14 * 60}}
	}
	return *w
}

func (m tiny) closures(percent int) []calendars.Closure {
	if !m.chance(percent) {
		return nil
	}
	return []calendars.Closure{{Span: m.span(60, 180), Why: "show inspection"}}
}

func (m tiny) span(least, most calendars.Minutes) calendars.Span {
	from := m.when(m.in(0, m.days-1), m.half(7*60, 14*60))
	return calendars.Span{Start: from, End: from.Plus(m.half(least, most))}
}

func (m tiny) gate() {
	if !m.chance(75) {
		return
	}
	g := &schedule.Gate{AtOnce: m.in(1, 5)/5 + 1}
	if m.chance(40) {
		g.Hours = &calendars.Hours{
			Closed: m.closures(20),
			Weekly: *allWeek([]calendars.Range{{From: 7 * 60, To: 10 * 60}, {From: 13 * 60, To: 15 * 60}}),
		}
	}
	m.p.Site.Gate = g
}

// zones are one to three, in some plans each behind the one before, and a yard.
func (m tiny) zones() {
	for i, name := range []string{"front", "lawn", "rear"}[:m.in(1, 3)] {
		z := schedule.Zone{ID: name, Name: name}
		if m.chance(60) {
			z.People = m.in(2, 4)
		}
		if i > 0 && m.chance(80) {
			z.WayIn = []schedule.ZoneID{schedule.ZoneID(i - 1)}
		}
		m.p.Zones = append(m.p.Zones, z)
	}
	if m.chance(35) {
		m.p.Zones = append(m.p.Zones, schedule.Zone{
			ID: "yard", Name: "yard", OffSite: true, From: m.when(-m.in(0, 1), 8*60),
			Hours: calendars.Hours{Weekly: *allWeek([]calendars.Range{{From: 8 * 60, To: 14 * 60}}), Closed: m.closures(20)},
		})
	}
}

func (m tiny) crews() {
	for _, id := range []string{"joiners", "planters", "masons"}[:pick(m.maker, []int{1, 1, 1, 2, 2, 3})] {
		c := schedule.Crew{ID: id, Name: id, People: pick(m.maker, []int{2, 1, 2, 3})}
		if m.chance(12) {
			day := []calendars.Range{{From: 9 * 60, To: 13 * 60}, {From: 13*60 + 30, To: 18 * 60}}
			c.Hours = &calendars.Hours{Weekly: *allWeek(day), Closed: m.closures(30)}
		} else {
			c.HoursOn, c.Closed = m.named(8), m.closures(8)
		}
		if m.chance(20) {
			a := schedule.Away{Span: m.span(60, 240), People: 1}
			if m.chance(40) {
				a.All, a.People = true, 0
			}
			c.Away = []schedule.Away{a}
		}
		if m.chance(15) {
			c.PeopleOn = []schedule.PeopleOn{{On: m.first + calendars.Date(m.in(0, m.days-1)), People: m.in(0, 3)}}
		}
		m.p.Crews = append(m.p.Crews, c)
	}
}

func (m tiny) machines() {
	for _, id := range []string{"telehandler", "saw"}[:pick(m.maker, []int{1, 0, 1, 2})] {
		k := schedule.Machine{ID: id, Name: id, Count: m.in(1, 5)/5 + 1, Places: m.in(0, 1)}
		if m.chance(40) {
			for d := range m.days + 12 {
				k.Ours = append(k.Ours, calendars.Span{Start: m.when(d, m.half(7*60, 9*60)), End: m.when(d, m.half(13*60, 17*60))})
			}
		}
		m.p.Machines = append(m.p.Machines, k)
	}
}

func (m tiny) duties() {
	if !m.chance(15) {
		return
	}
	from := m.first + calendars.Date(m.in(0, m.days-1))
	m.p.Duties = []schedule.Duty{{
		ID: "watering", Crew: []schedule.CrewNeed{{Crew: schedule.CrewID(m.in(0, len(m.p.Crews)-1)), Least: 1, Most: 1}},
		At: calendars.Range{From: 8 * 60, To: 9 * 60}, From: from, To: from + calendars.Date(m.in(0, 2)),
	}}
}

// room is how many people fit all zones of a task.
func (m tiny) room(zones []schedule.ZoneID) int {
	room := 99
	for _, z := range zones {
		if people := m.p.Zones[z].People; people > 0 {
			room = min(room, people)
		}
	}
	return room
}

// crew needs one crew, or in some plans two, that fit the room.
func (m tiny) crew(room int) []schedule.CrewNeed {
	var needs []schedule.CrewNeed
	first := m.in(0, len(m.p.Crews)-1)
	for k := range pick(m.maker, []int{1, 1, 1, 1, 1, 1, 2, 2, 0}) {
		c := schedule.CrewID((first + k) % len(m.p.Crews))
		most := min(m.p.Crews[c].People, room)
		if k > 0 && c == needs[0].Crew || most < 1 {
			break
		}
		need := schedule.CrewNeed{Crew: c, Least: pick(m.maker, []int{most, 1, most})}
		need.Most = need.Least
		if most > need.Least && m.chance(60) {
			need.Most = most
		}
		room -= need.Most
		needs = append(needs, need)
	}
	return needs
}

// machineNeeds needs machines of one kind at most, within the room.
func (m tiny) machineNeeds(percent, room int) []schedule.MachineNeed {
	if len(m.p.Machines) == 0 || !m.chance(percent) {
		return nil
	}
	id := m.in(0, len(m.p.Machines)-1)
	if m.p.Machines[id].Places > room {
		return nil
	}
	return []schedule.MachineNeed{{Machine: schedule.MachineID(id), Count: 1}}
}

func (m tiny) deliveries() {
	for i, id := range []string{"stone", "shrubs"}[:pick(m.maker, []int{0, 1, 1, 2, 2})] {
		d := schedule.Delivery{ID: id, What: "a load of " + id, Waits: 30, Unload: schedule.Unload{Takes: m.half(30, 90)}}
		d.Arrives = m.when(m.in(0, m.days-2), m.half(7*60, 13*60))
		if m.chance(40) {
			d.Unload.Crew = []schedule.CrewNeed{{Crew: schedule.CrewID(m.in(0, len(m.p.Crews)-1)), Least: 1, Most: 1}}
		}
		d.Unload.Machines = m.machineNeeds(40, 99)
		if m.chance(40) {
			d.Waits = m.half(0, 240)
		}
		if m.chance(50) {
			d.Keep = m.half(120, 24*60)
		}
		if m.chance(40) {
			d.Movable = &schedule.Movable{Earliest: d.Arrives.Plus(-m.half(0, 180)), Latest: d.Arrives.Plus(m.half(0, 300))}
		}
		m.carries(&d, schedule.DeliveryID(i))
		m.p.Deliveries = append(m.p.Deliveries, d)
	}
}

func (m tiny) tasks() {
	n := pick(m.maker, []int{4, 2, 3, 3, 4, 4, 5, 5, 6, 6})
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
