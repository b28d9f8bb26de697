package plans

import (
	"fmt"
	"slices"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// rules are up to three between stages in the order of a build.
func (m *maker) rules() {
	for range m.in(0, 3) {
		cut := m.in(1, len(order)-1)
		r := schedule.Rule{First: m.stageList(order[:cut]), Then: m.stageList(order[cut:])}
		if len(r.First) == 0 || len(r.Then) == 0 {
			continue
		}
		r.Everywhere = m.chance(30)
		if m.chance(30) {
			r.Kind = schedule.Apart
		} else if m.chance(30) {
			r.HasAfter, r.After = true, m.minutes(0, 16*60)
		}
		r.Text = m.ruleText(&r)
		if !slices.ContainsFunc(m.p.Rules, func(o schedule.Rule) bool { return overlaps(&o, &r) }) {
			m.p.Rules = append(m.p.Rules, r)
		}
	}
}

// overlaps says whether two rules have stages in common.
func overlaps(a, b *schedule.Rule) bool {
	share := func(x, y []schedule.StageID) bool {
		return slices.ContainsFunc(x, func(s schedule.StageID) bool { return slices.Contains(y, s) })
	}
	return share(a.First, b.First) && share(a.Then, b.Then)
}

// stageList picks one or two stages among the names, those in use first.
func (m *maker) stageList(names []string) []schedule.StageID {
	var used []schedule.StageID
	for i := range m.p.Tasks {
		s := m.p.Tasks[i].Stage
		if slices.Contains(names, m.p.Stages[s]) && !slices.Contains(used, s) {
			used = append(used, s)
		}
	}
	if len(used) == 0 {
		return nil
	}
	one := m.in(0, len(used)-1)
	if len(used) > 1 && m.chance(30) {
		return []schedule.StageID{used[one], used[(one+1)%len(used)]}
	}
	return []schedule.StageID{used[one]}
}

func (m *maker) ruleText(r *schedule.Rule) string {
	list := func(ids []schedule.StageID) string {
		var names []string
		for _, s := range ids {
			names = append(names, m.p.Stages[s])
		}
		if len(names) == 1 {
			return names[0]
		}
		return "[" + strings.Join(names, ", ") + "]"
	}
	text := list(r.First) + " before " + list(r.Then)
	if r.Kind == schedule.Apart {
		text = list(r.First) + " apart from " + list(r.Then)
	}
	if r.Everywhere {
		text += ", everywhere"
	}
	if r.HasAfter {
		text += ", after " + length(r.After)
	}
	return text
}

// length writes a length in minutes or hours.
func length(n calendars.Minutes) string {
	if n%60 == 0 && n != 0 {
		return fmt.Sprintf("%dh", n/60)
	}
	return fmt.Sprintf("%dm", n)
}

// links make tasks follow earlier ones.
func (m *maker) links() {
	for i := 1; i < len(m.p.Tasks); i++ {
		for range pick(m, []int{1, 0, 1, 2, 0}) {
			from := schedule.TaskID(m.in(0, i-1))
			if !slices.ContainsFunc(m.p.Tasks[i].After, func(l schedule.Link) bool { return l.From == from }) {
				m.p.Tasks[i].After = append(m.p.Tasks[i].After, m.link(from))
			}
		}
	}
}

func (m *maker) link(from schedule.TaskID) schedule.Link {
	l := schedule.Link{From: from}
	switch m.in(0, 9) {
	case 7:
		l.Kind = schedule.StartStart
	case 8:
		l.Kind = schedule.FinishFinish
	case 9:
		l.Kind = schedule.StartFinish
	}
	switch kind := m.in(0, 9); {
	case kind == 6:
		l.Wait = schedule.Wait{Kind: schedule.Lag, Time: m.minutes(0, 240)}
	case kind == 7:
		l.Wait = schedule.Wait{Kind: schedule.Lag, Time: -m.minutes(15, 180)}
	case kind > 8:
		l.Wait = schedule.Wait{Kind: schedule.Cure, Time: m.minutes(0, 18*60)}
	}
	if m.chance(14) {
		// Mostly long enough for every wait of the follower.
		l.HasWithin, l.Within = true, m.minutes(24*60, 96*60)
		if m.chance(25) {
			l.Within = m.minutes(0, 12*60)
			if l.Wait.Kind == schedule.Cure {
				l.Within = max(l.Within, l.Wait.Time)
			}
		}
	}
	return l
}

// extras are the properties of tasks besides work and links.
func (m *maker) extras() {
	if m.chance(35) {
		m.p.Givens = []schedule.Given{{ID: "power", What: "mains live at the plot",
			From: m.when(m.in(0, (m.days-1)/2), m.minutes(7*60, 16*60))}}
	}
	for i := range m.p.Tasks {
		m.moments(&m.p.Tasks[i])
		m.manners(i)
	}
}

// moments are what fixes a task in time besides its links.
func (m *maker) moments(t *schedule.Task) {
	if len(m.p.Givens) > 0 && m.chance(25) {
		t.Givens = []schedule.GivenID{0}
	}
	if m.chance(15) {
		t.Hold = m.holdPoint()
	}
	if m.chance(10) {
		t.NotBefore = m.when(m.in(0, (m.days-1)/2), m.minutes(7*60, 15*60))
	}
	if m.chance(10) {
		t.By = max(m.when(m.in(m.days/2, m.days-1), m.minutes(10*60, 18*60)), t.NotBefore.Plus(60))
	}
	if m.chance(10) {
		t.Optional, t.DropOrder = true, m.in(1, 3)
	}
}

// manners are who is kept out by task i, and what its sheet says.
func (m *maker) manners(i int) {
	t := &m.p.Tasks[i]
	if others := m.siteZonesBut(t); len(others) > 0 && m.chance(10) {
		t.Clears = []schedule.ZoneID{pick(m, others)}
	}
	if i > 0 && m.chance(8) {
		t.Apart = []schedule.TaskID{schedule.TaskID(m.in(0, i-1))}
	}
	if m.chance(10) {
		t.Weather = schedule.Weather(m.in(1, 7))
	}
	if m.chance(10) {
		t.Hazards = []string{pick(m, schedule.Hazards())}
	}
	if m.chance(10) {
		t.DoneWhen, t.Note = "plumb to 3 mm, bracing fixed", `bring the long level; "red" one`
	}
}

// siteZonesBut lists the zones on site that a task on site is not in.
func (m *maker) siteZonesBut(t *schedule.Task) []schedule.ZoneID {
	var out []schedule.ZoneID
	for z := range m.p.Zones {
		if !m.p.Zones[z].OffSite && !m.offSite(t) && !slices.Contains(t.Zones, schedule.ZoneID(z)) {
			out = append(out, schedule.ZoneID(z))
		}
	}
	return out
}

func (m *maker) holdPoint() *schedule.HoldPoint {
	h := &schedule.HoldPoint{What: "engineer signs", Takes: m.minutes(0, 60)}
	if m.chance(40) {
		for d := range m.days + 7 {
			h.Appointments = append(h.Appointments, m.when(d, 10*60))
		}
	}
	return h
}

// excuse takes tasks out of the way in where it would run against the order of
// the tasks, and some tasks out of rules.
func (m *maker) excuse() {
	p := m.p
	behind := p.Behind()
	for c := range p.Tasks {
		if !p.Tasks[c].Closes.Orders {
			continue
		}
		zones := p.ZonesBehind(&p.Tasks[c], behind)
		through := func(z schedule.ZoneID) bool { return slices.Contains(zones, z) }
		for w := c + 1; w < len(p.Tasks); w++ {
			other := &p.Tasks[w]
			if slices.ContainsFunc(other.Zones, through) && !p.LeavesLast(other.Stage) {
				m.except(other, schedule.WayIn)
			}
		}
	}
	for i := range p.Rules {
		if t := &p.Tasks[m.in(0, len(p.Tasks)-1)]; m.chance(15) {
			m.except(t, schedule.RuleID(i))
		}
	}
}

func (m *maker) except(t *schedule.Task, r schedule.RuleID) {
	if !slices.ContainsFunc(t.Excepts, func(e schedule.Except) bool { return e.Rule == r }) {
		t.Excepts = append(t.Excepts, schedule.Except{Rule: r, Why: "agreed with the lead"})
	}
}

// measures are, in one plan of ten, one of each kind.
func (m *maker) measures() {
	if !m.chance(10) {
		return
	}
	p := m.p
	none := func() schedule.Measure { return schedule.Measure{Drop: schedule.None, Cost: 40000} }
	longer, people := none(), none()
	longer.Longer = &schedule.LongerHours{On: m.first, To: 20 * 60}
	people.People = &schedule.MorePeople{
		Crew: []schedule.CrewNeed{{Crew: 0, Least: 2, Most: 2}},
		On:   []calendars.Date{m.first, m.first + 1},
	}
	if p.Site.Hours.Weekly[0] == nil || p.Site.Hours.Weekly[0][0].From >= 7*60 {
		p.Measures = append(p.Measures, longer)
	}
	p.Measures = append(p.Measures, people)
	if len(p.Machines) > 0 {
		slot := none()
		slot.Machine = &schedule.MachineSlot{Machine: 0, Span: m.span(60, 300)}
		p.Measures = append(p.Measures, slot)
	}
	if len(p.Deliveries) > 0 {
		earlier := none()
		earlier.Earlier = &schedule.EarlierDelivery{Delivery: 0, By: calendars.Day}
		p.Measures = append(p.Measures, earlier)
	}
	for i := range p.Tasks {
		t := &p.Tasks[i]
		if at := slices.IndexFunc(t.After, func(l schedule.Link) bool { return l.Kind == schedule.FinishStart }); at >= 0 {
			overlap := none()
			overlap.Overlap = &schedule.Overlap{First: t.After[at].From, Second: schedule.TaskID(i), By: 120}
			overlap.Why = "the north part first"
			p.Measures = append(p.Measures, overlap)
			break
		}
	}
	for i := range p.Tasks {
		if p.Tasks[i].Optional {
			drop := none()
			drop.Drop, drop.Cost = schedule.TaskID(i), 0
			p.Measures = append(p.Measures, drop)
			break
		}
	}
}
