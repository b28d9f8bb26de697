package plans

import (
	"fmt"
	"slices"

	"build.example/turflast/schedule"
)

func (m tiny) task(i int, stage schedule.StageID) schedule.Task {
	name := m.p.Stages[stage]
	t := schedule.Task{
		ID:   fmt.Sprintf("%s-%d", name, i+1),
		Name: fmt.Sprintf("%s %d", name, i+1), Stage: stage, Zones: m.taskZones(),
	}
	room := m.room(t.Zones)
	t.Machines = m.machineNeeds(30, room-1)
	for _, need := range t.Machines {
		room -= need.Count * m.p.Machines[need.Machine].Places
	}
	t.Crew = m.crew(room)
	t.Effort = m.effort(t.Crew)
	t.Unbroken = !t.Effort.Shared() && t.Effort.Takes <= 120 && m.chance(30)
	if m.chance(22) {
		t.Cure = m.half(60, 16*60)
	}
	t.Stays, t.Loud = m.chance(15), m.p.Site.Loud != nil && m.chance(30)
	if !m.offSite(&t) {
		t.OnBoards = m.chance(5)
		m.closes(&t, name)
	}
	return t
}

// effort takes whole half hours, also when up to three heads share it.
func (m tiny) effort(crew []schedule.CrewNeed) schedule.Effort {
	parts := int64(180 * m.in(1, 3))
	ranged := slices.ContainsFunc(crew, func(n schedule.CrewNeed) bool { return n.Most > n.Least })
	switch kind := m.in(0, 9); {
	case len(crew) > 0 && (ranged && kind < 7 || kind == 7):
		return schedule.Effort{Num: parts, Den: 1}
	case len(crew) > 0 && kind == 8:
		return schedule.Effort{
			Num: parts, Den: 1,
			Amount: fmt.Sprintf("%d m2", parts/10), Rate: "6 m2/person-hour", Unit: "m2",
		}
	case kind == 9:
		return schedule.Effort{Takes: m.half(0, 30)}
	}
	return schedule.Effort{Takes: m.half(60, 300)}
}

func (m tiny) closes(t *schedule.Task, stage string) {
	switch {
	case m.chance(10):
		t.Closes = schedule.Closing{Timed: true, For: m.half(0, 8*60)}
	case stage == "turf":
		t.Closes.Orders = !m.chance(10)
	default:
		t.Closes.Orders = m.chance(12)
	}
}

// carries gives a delivery its users and what it comes after: a collection
// follows a task, another all off-site work before its users.
func (m tiny) carries(d *schedule.Delivery, id schedule.DeliveryID) {
	n := len(m.p.Tasks)
	if m.chance(12) {
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
		if m.offSite(&m.p.Tasks[t]) {
			d.After = append(d.After, schedule.Link{From: schedule.TaskID(t)})
		}
	}
}

// rules are up to two between stages in the order of a build.
func (m tiny) rules() {
	for range pick(m.maker, []int{0, 1, 1, 2}) {
		cut := m.in(1, len(order)-1)
		r := schedule.Rule{First: m.stageList(order[:cut]), Then: m.stageList(order[cut:])}
		if len(r.First) == 0 || len(r.Then) == 0 {
			continue
		}
		r.Everywhere = m.chance(30)
		if m.chance(50) {
			r.Kind = schedule.Apart
		} else if m.chance(40) {
			r.HasAfter, r.After = true, m.half(0, 6*60)
		}
		r.Text = m.ruleText(&r)
		if !slices.ContainsFunc(m.p.Rules, func(o schedule.Rule) bool { return overlaps(&o, &r) }) {
			m.p.Rules = append(m.p.Rules, r)
		}
	}
}

// links make tasks follow earlier ones, and are so few that tasks compete for
// hands.
func (m tiny) links() {
	for i := 1; i < len(m.p.Tasks); i++ {
		if m.chance(45) {
			m.p.Tasks[i].After = append(m.p.Tasks[i].After, m.link(schedule.TaskID(m.in(0, i-1))))
		}
	}
}

func (m tiny) link(from schedule.TaskID) schedule.Link {
	l := schedule.Link{
		From: from, Kind: pick(m.maker, []schedule.LinkKind{
			schedule.FinishStart, schedule.FinishStart, schedule.FinishStart,
			schedule.StartStart, schedule.FinishFinish, schedule.StartFinish}),
	}
	switch kind := m.in(0, 9); {
	case kind == 5:
		l.Wait = schedule.Wait{Kind: schedule.Lag, Time: m.half(0, 120)}
	case kind == 6:
		l.Wait = schedule.Wait{Kind: schedule.Lag, Time: -m.half(30, 120)}
	case kind > 6:
		l.Wait = schedule.Wait{Kind: schedule.Cure, Time: m.half(0, 6*60)}
	}
	if m.chance(22) {
		l.HasWithin, l.Within = true, max(m.half(0, 24*60), l.Wait.Time)
	}
	return l
}

// extras are the properties of tasks besides work and links.
func (m tiny) extras() {
	if m.chance(25) {
		m.p.Givens = []schedule.Given{{ID: "power", What: "mains live", From: m.when(0, m.half(8*60, 16*60))}}
	}
	for i := range m.p.Tasks {
		t := &m.p.Tasks[i]
		m.moments(t)
		if others := m.siteZonesBut(t); len(others) > 0 && m.chance(10) {
			t.Clears = []schedule.ZoneID{pick(m.maker, others)}
		}
		if i > 0 && m.chance(10) {
			t.Apart = []schedule.TaskID{schedule.TaskID(m.in(0, i-1))}
		}
	}
}

func (m tiny) moments(t *schedule.Task) {
	if len(m.p.Givens) > 0 && m.chance(50) {
		t.Givens = []schedule.GivenID{0}
	}
	if m.chance(12) {
		t.Hold = &schedule.HoldPoint{What: "engineer signs", Takes: m.half(0, 60)}
		for d := range (m.days + 14) * m.in(0, 1) {
			t.Hold.Appointments = append(t.Hold.Appointments, m.when(d, 10*60), m.when(d, 14*60))
		}
	}
	if m.chance(8) {
		t.NotBefore = m.when(m.in(0, m.days-2), m.half(8*60, 15*60))
	}
	if m.chance(12) {
		t.By = max(m.when(m.in(0, m.days-1), m.half(10*60, 16*60)), t.NotBefore.Plus(30))
	}
	if m.chance(12) {
		t.Optional, t.DropOrder = true, m.in(1, 2)
	}
}
