package plans

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// unused draws what is read and moves no date: it comes last, so that the rest of
// a plan doesn't depend on it.
func (m *maker) unused() {
	if m.chance(20) {
		m.p.Site.Windy = &schedule.WindyDays{AfterCalm: 0.15, AfterWindy: 0.4}
	}
	for i := range m.p.Crews {
		m.unusedOfCrew(&m.p.Crews[i])
	}
	for i := range m.p.Machines {
		m.unusedOfMachine(&m.p.Machines[i])
	}
	for i := range m.p.Deliveries {
		d := &m.p.Deliveries[i]
		d.Notice = m.notice()
		if m.chance(20) {
			d.WaitingRate = 60_00
		}
	}
	for i := range m.p.Tasks {
		m.unusedOfTask(&m.p.Tasks[i])
	}
	if m.chance(20) {
		m.p.Answers = []schedule.Answer{
			{Asked: "clear ground", About: []string{m.p.Tasks[0].ID}, Why: "nothing swings"},
			{Asked: "aim", Why: "there is none"},
		}
	}
}

func (m *maker) unusedOfCrew(c *schedule.Crew) {
	c.Notice = m.notice()
	if c.Rate > 0 && m.chance(30) {
		c.Overtime = c.Rate * 3 / 2
	}
	if m.chance(15) {
		turnsOut := 0.8
		c.TurnsOut = &turnsOut
	}
}

func (m *maker) unusedOfMachine(k *schedule.Machine) {
	k.Notice = m.notice()
	if m.chance(30) {
		per := pick(m, []calendars.Minutes{calendars.Day, calendars.Week})
		k.Rate = 0
		k.Hire = &schedule.Hire{Per: per, Rate: 900_00, Least: per * calendars.Minutes(m.in(1, 2)), Bringing: 250_50}
	}
}

func (m *maker) unusedOfTask(t *schedule.Task) {
	if m.chance(20) {
		t.Short = "short " + t.ID
	}
	if t.Hold != nil && m.chance(30) {
		t.Hold.Notice = m.notice()
		t.Hold.Fails = &schedule.Fails{Chance: 0.1, Right: m.minutes(15, 120)}
	}
}

// notice is at times not said.
func (m *maker) notice() *calendars.Minutes {
	if !m.chance(20) {
		return nil
	}
	notice := m.minutes(0, 48*60)
	return &notice
}
