package plans

import (
	"fmt"
	"slices"
	"time"

	"build.example/turflast/calendars"
	"build.example/turflast/calendars/zones"
	"build.example/turflast/schedule"
)

// Big makes an ordinary plan of n tasks for benchmarks: 12 zones and a yard, 20
// crews, 6 machines, a delivery to every 15 tasks, stages in the order of a
// usual build with rules between them, two or three links a task. Everything
// finds a place; up to a thousand tasks nearly all of it before the hand-over.
func Big(n int, seed uint64) *schedule.Plan {
	m := &maker{src: Seeded(seed),
		p: &schedule.Plan{Garden: "Big Court", Currency: "GBP", Stages: schedule.BuiltInStages()}}
	m.bigSite(n)
	m.bigZones()
	m.bigHands()
	m.bigTasks(n)
	m.bigDeliveries(n)
	for i := range m.p.Tasks {
		m.bigTerms(schedule.TaskID(i))
	}
	m.excuse()
	return m.p
}

// usualDay are the hours of a day on site.
func usualDay() []calendars.Range {
	return []calendars.Range{{From: 7 * 60, To: 12 * 60}, {From: 12*60 + 30, To: 18 * 60}}
}

func workWeek(day, saturday []calendars.Range) calendars.WeekHours {
	return calendars.WeekHours{time.Monday: day, time.Tuesday: day, time.Wednesday: day,
		time.Thursday: day, time.Friday: day, time.Saturday: saturday}
}

func (m *maker) bigSite(n int) {
	loc, err := zones.Load("Europe/London")
	if err != nil {
		panic(fmt.Sprintf("plans: %v", err))
	}
	m.first, m.days = calendars.DateOf(2027, 4, 5), min(max(10, n/20), 120)
	s := &m.p.Site
	s.Location = loc
	s.Opens, s.Handover = m.when(0, 7*60), m.when(m.days, 15*60)
	s.Aim = s.Handover.Plus(-calendars.Day)
	s.Holidays = []schedule.Holiday{{On: m.first + 6, Name: "show preview"}}
	saturday := []calendars.Range{{From: 8 * 60, To: 16 * 60}}
	s.Hours = calendars.Hours{Weekly: workWeek(usualDay(), saturday)}
	loud := workWeek([]calendars.Range{{From: 8 * 60, To: 17 * 60}}, []calendars.Range{{From: 9 * 60, To: 13 * 60}})
	s.Loud = &loud
	s.Gate = &schedule.Gate{AtOnce: 2, Hours: &calendars.Hours{
		Weekly: workWeek(
			[]calendars.Range{{From: 6*60 + 30, To: 11 * 60}, {From: 13 * 60, To: 16 * 60}},
			[]calendars.Range{{From: 7 * 60, To: 11 * 60}}),
	}}
}

func (m *maker) bigZones() {
	for z := range 12 {
		zone := schedule.Zone{ID: fmt.Sprintf("plot-%d", z+1), Name: fmt.Sprintf("Plot %d", z+1), People: m.in(10, 16)}
		if z > 0 {
			zone.WayIn = []schedule.ZoneID{schedule.ZoneID((z - 1) / 2)}
		}
		m.p.Zones = append(m.p.Zones, zone)
	}
	m.p.Zones = append(m.p.Zones, schedule.Zone{
		ID: "yard", Name: "Yard", OffSite: true, From: m.p.Site.Opens.Plus(-2 * calendars.Week),
		Hours: calendars.Hours{Weekly: workWeek([]calendars.Range{{From: 8 * 60, To: 17 * 60}}, nil)},
	})
}

func (m *maker) bigHands() {
	for i := range 20 {
		c := schedule.Crew{ID: fmt.Sprintf("crew-%d", i+1), Name: fmt.Sprintf("Crew %d", i+1), People: m.in(3, 6), Rate: 4000}
		if i%4 == 1 {
			day := []calendars.Range{{From: 7 * 60, To: 12 * 60}, {From: 12*60 + 30, To: 17 * 60}}
			c.Hours = &calendars.Hours{Weekly: workWeek(day, usualDay()[:1])}
		}
		if i%3 == 2 {
			c.Away = []schedule.Away{{Span: m.span(240, 540), People: 1}}
		}
		m.p.Crews = append(m.p.Crews, c)
	}
	for i := range 6 {
		k := schedule.Machine{
			ID:   fmt.Sprintf("machine-%d", i+1),
			Name: fmt.Sprintf("Machine %d", i+1), Count: 1 + i%2, Places: i % 3, Rate: 5000,
		}
		for d := 0; i%2 == 0 && d < m.days+90; d += 1 + i%3 {
			k.Ours = append(k.Ours, calendars.Span{Start: m.when(d, 7*60), End: m.when(d, 18*60)})
		}
		m.p.Machines = append(m.p.Machines, k)
	}
	m.p.Duties = []schedule.Duty{{ID: "watering", Crew: []schedule.CrewNeed{{Crew: 0, Least: 1, Most: 1}},
		At: calendars.Range{From: 7 * 60, To: 8 * 60}, From: m.first + 2, To: m.first + calendars.Date(m.days)}}
}

// bigTasks spreads the tasks over the zones, and in each zone from protection
// to clean.
func (m *maker) bigTasks(n int) {
	p := m.p
	stages := len(schedule.BuiltInStages()) - 1 // without strike
	ranks := make([]int, n)
	for i := range ranks {
		ranks[i] = i * stages / n
	}
	for i, rank := range ranks {
		stage := schedule.StageID(rank)
		t := schedule.Task{
			ID:   fmt.Sprintf("%s-%d", p.Stages[stage], i+1),
			Name: fmt.Sprintf("%s %d", p.Stages[stage], i+1), Stage: stage,
		}
		t.Zones = []schedule.ZoneID{schedule.ZoneID(i % 12)}
		if m.chance(6) && rank < 4 {
			t.Zones[0] = 12
		} else if m.chance(8) {
			t.Zones = append(t.Zones, (t.Zones[0]+1)%12)
		}
		t.Crew = []schedule.CrewNeed{{Crew: schedule.CrewID((rank*3/2 + m.in(0, 3)) % 20), Least: m.in(1, 2)}}
		t.Crew[0].Most = t.Crew[0].Least + m.in(0, 1)
		t.Machines = m.machineNeeds(15, 6)
		t.Effort = schedule.Effort{Takes: m.minutes(60, 300)}
		if m.chance(40) {
			t.Effort = schedule.Effort{Num: 60 * int64(m.in(2, 12)), Den: 1}
		}
		if p.Stages[stage] == "turf" {
			t.Closes.Orders = true
		}
		p.Tasks = append(p.Tasks, t)
	}
	for i, pair := range [][2]string{
		{"protection", "groundworks"}, {"groundworks", "structure"}, {"structure", "cladding"},
		{"first-fix", "finishes"}, {"paving", "planting"}, {"cladding", "second-fix"},
		{"soil", "planting"}, {"trees", "turf"}, {"planting", "mulch"}, {"mulch", "turf"},
	} {
		r := schedule.Rule{Text: pair[0] + " before " + pair[1], First: m.stagesNamed(pair[0]), Then: m.stagesNamed(pair[1])}
		if i == 4 {
			r.Text, r.HasAfter, r.After = r.Text+", after 12h", true, 12*60
		}
		p.Rules = append(p.Rules, r)
	}
	p.Rules = append(p.Rules, schedule.Rule{
		Text: "paving apart from planting",
		Kind: schedule.Apart, First: m.stagesNamed("paving"), Then: m.stagesNamed("planting"),
	})
}

func (m *maker) stagesNamed(names ...string) []schedule.StageID {
	var out []schedule.StageID
	for _, name := range names {
		out = append(out, schedule.StageID(slices.Index(m.p.Stages, name)))
	}
	return out
}

func (m *maker) bigDeliveries(n int) {
	for i := range n / 15 {
		day := i * m.days * 6 / 10 / max(n/15, 1)
		for (m.first+calendars.Date(day)).Weekday() == time.Sunday || day == 6 {
			day++
		}
		d := schedule.Delivery{
			ID: fmt.Sprintf("load-%d", i+1), What: "a load",
			Arrives: m.when(day, m.minutes(7*60, 9*60)), Waits: 60,
			Unload: schedule.Unload{Takes: m.minutes(15, 45)},
		}
		if i%3 == 0 {
			d.Unload.Crew = []schedule.CrewNeed{{Crew: schedule.CrewID(i % 20), Least: 1, Most: 1}}
		}
		if i%5 == 0 {
			d.Keep = 10 * calendars.Day
		}
		user := min(i*15+m.in(5, 14), n-1)
		m.p.Tasks[user].Uses = append(m.p.Tasks[user].Uses, schedule.DeliveryID(i))
		m.p.Deliveries = append(m.p.Deliveries, d)
	}
}

// bigTerms gives a task its links, mostly to earlier work in its zone, and now
// and then a cure, a hold point or loud work.
func (m *maker) bigTerms(id schedule.TaskID) {
	t := &m.p.Tasks[id]
	for range m.in(1, 3) {
		back := 12 * m.in(1, 4)
		if m.chance(20) {
			back = m.in(1, 30)
		}
		from := id - schedule.TaskID(back)
		if from < 0 || slices.ContainsFunc(t.After, func(l schedule.Link) bool { return l.From == from }) {
			continue
		}
		l := schedule.Link{From: from}
		if m.chance(15) {
			l.Kind = schedule.LinkKind(m.in(1, 2))
		} else if m.chance(15) {
			l.Wait = schedule.Wait{Kind: schedule.Lag, Time: m.minutes(30, 120)}
		}
		t.After = append(t.After, l)
	}
	if m.chance(8) {
		t.Cure = m.minutes(120, 16*60)
	}
	t.Loud, t.Stays, t.OnBoards = m.chance(8), m.chance(4), m.chance(4)
	t.Unbroken = t.Effort.Num == 0 && t.Effort.Takes <= 180 && m.chance(15)
	if m.chance(4) {
		t.Hold = &schedule.HoldPoint{What: "engineer signs", Takes: 30}
	}
}
