package worktime_test

import (
	"testing"
	"time"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network/worktime"
)

// BenchmarkSet times all calendars of a plan the size of the built-in garden:
// 6 crews, 4 machines, a yard and 72 tasks with 24 different needs.
func BenchmarkSet(b *testing.B) {
	p := gardenSized(b)
	b.ReportAllocs()
	for b.Loop() {
		s := worktime.New(p)
		for i := range p.Tasks {
			s.Task(&p.Tasks[i], s.Heads(&p.Tasks[i]))
		}
		for i := range p.Deliveries {
			s.Unload(&p.Deliveries[i])
		}
	}
}

// BenchmarkTask times the look-up of a calendar that is built already.
func BenchmarkTask(b *testing.B) {
	p := gardenSized(b)
	s := worktime.New(p)
	heads := s.Heads(&p.Tasks[0])
	b.ReportAllocs()
	for b.Loop() {
		s.Task(&p.Tasks[0], heads)
	}
}

func gardenSized(tb tb) *schedule.Plan {
	london, err := time.LoadLocation("Europe/London")
	if err != nil {
		tb.Fatal(err)
	}
	at := func(day int, minute calendars.Minutes) calendars.Instant {
		t, _ := calendars.At(london, calendars.DateOf(2027, time.April, day), minute)
		return t
	}
	var week calendars.WeekHours
	for d := time.Monday; d <= time.Friday; d++ {
		week[d] = []calendars.Range{{From: 7 * 60, To: 12 * 60}, {From: 12*60 + 30, To: 18 * 60}}
	}
	week[time.Saturday] = []calendars.Range{{From: 8 * 60, To: 16 * 60}}
	own := calendars.Hours{Weekly: week}
	p := &schedule.Plan{
		Site: schedule.Site{
			Location: london, Opens: at(30, 7*60), Handover: at(38, 15*60), Hours: own, Loud: &week,
			Gate: &schedule.Gate{AtOnce: 1, Hours: &own},
		},
	}
	p.Zones = []schedule.Zone{{People: 6}, {OffSite: true, From: at(12, 8*60), Hours: own}}
	for i := range 6 {
		c := schedule.Crew{
			People: 4,
			Away:   []schedule.Away{{Span: calendars.Span{Start: at(31+i, 0), End: at(32+i, 0)}, People: 2}},
		}
		if i%2 == 0 {
			c.Hours = &own
		}
		p.Crews = append(p.Crews, c)
	}
	for i := range 4 {
		p.Machines = append(p.Machines,
			schedule.Machine{Count: 1, Ours: []calendars.Span{{Start: at(30+i, 7*60), End: at(31+i, 12*60)}}})
	}
	for i := range 72 {
		t := schedule.Task{
			Zones: []schedule.ZoneID{schedule.ZoneID(i % 12 / 11)}, Loud: i%5 == 0,
			Crew: []schedule.CrewNeed{{Crew: schedule.CrewID(i % 6), Least: 1 + i%4, Most: 1 + i%4}},
		}
		if i%9 == 0 {
			t.Machines = []schedule.MachineNeed{{Machine: schedule.MachineID(i % 4), Count: 1}}
		}
		p.Tasks = append(p.Tasks, t)
	}
	for i := range 12 {
		p.Deliveries = append(p.Deliveries,
			schedule.Delivery{Unload: schedule.Unload{Takes: 30,
				Crew: []schedule.CrewNeed{{Crew: schedule.CrewID(i % 6), Least: 2, Most: 2}}}})
	}
	return p
}
