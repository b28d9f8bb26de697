package worktime_test

import (
	"testing"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network/worktime"

	"github.com/google/go-cmp/cmp"
)

func TestHeadsAtWork(t *testing.T) {
	p := garden(t)
	p.Crews[crew].PeopleOn = []schedule.PeopleOn{{On: date(t, "2027-05-05"), People: 6},
		{On: date(t, "2027-05-07"), People: 0}}
	p.Crews[crew].Away = []schedule.Away{
		{Span: span(t, "2027-05-04 10:00", "2027-05-04 14:00"), People: 1},
		{Span: span(t, "2027-05-04 11:00", "2027-05-05 09:00"), People: 2},
		{Span: span(t, "2027-05-05 15:00", "2027-05-05 16:00"), People: 9, All: true},
		{Span: span(t, "2027-05-05 16:00", "2027-05-05 17:00"), People: 9},
	}
	p.Crews[other].PeopleOn = []schedule.PeopleOn{{On: date(t, "2027-05-03"), People: 8}}
	p.Duties = []schedule.Duty{
		{Crew: []schedule.CrewNeed{{Crew: crew, Least: 1, Most: 1}},
			At: ranges(t, "07:00-08:00")[0], From: date(t, "2027-05-04"), To: date(t, "2027-05-05")},
		{Crew: []schedule.CrewNeed{{Crew: crew, Least: 3, Most: 3}, {Crew: other, Least: 1, Most: 1}},
			At: ranges(t, "17:30-24:00")[0], From: date(t, "2027-05-05"), To: date(t, "2027-05-05")},
	}
	s := worktime.New(p)
	for _, c := range []struct {
		of    schedule.CrewID
		when  string
		heads int
		why   string
	}{
		{crew, "2027-05-04 06:59", 0, "closed"},
		{crew, "2027-05-04 07:00", 3, "one at the duty"},
		{crew, "2027-05-04 08:00", 4, "the duty is over"},
		{crew, "2027-05-04 10:00", 3, "one away"},
		{crew, "2027-05-04 11:00", 1, "three away"},
		{crew, "2027-05-04 12:00", 0, "the rest at noon, away or not"},
		{crew, "2027-05-04 14:00", 2, "two away"},
		{crew, "2027-05-05 07:00", 3, "six on the date, two away, one at the duty"},
		{crew, "2027-05-05 08:00", 4, "six on the date, two away"},
		{crew, "2027-05-05 09:00", 6, "six on the date"},
		{crew, "2027-05-05 15:00", 0, "all away"},
		{crew, "2027-05-05 16:00", 0, "more away than there are"},
		{crew, "2027-05-05 17:00", 6, "back again"},
		{crew, "2027-05-05 17:30", 3, "three at the duty"},
		{crew, "2027-05-05 18:00", 0, "closed; the duty runs on"},
		{crew, "2027-05-06 07:00", 4, "no duty after its last date"},
		{crew, "2027-05-07 09:00", 0, "nobody on the date"},
		{other, "2027-05-04 11:00", 3, "another crew's people are not away"},
		{other, "2027-05-05 17:30", 2, "one at the duty"},
		{other, "2027-05-03 09:00", 0, "a headcount for a date opens no holiday"},
	} {
		if got := s.Crews[c.of].At(at(t, c.when)); got != c.heads {
			t.Errorf("crew %d at %s: %d heads, want %d (%s)", c.of, c.when, got, c.heads, c.why)
		}
	}
}

func TestHeadsSayHowManyAreNeeded(t *testing.T) {
	p := garden(t)
	p.Crews[crew].Away = []schedule.Away{{Span: span(t, "2027-05-04 07:00", "2027-05-04 10:00"), People: 2}}
	s := worktime.New(p)
	task := schedule.Task{Zones: []schedule.ZoneID{0}, Crew: []schedule.CrewNeed{{Crew: crew, Least: 2, Most: 4}}}
	if diff := cmp.Diff(wholeDay("Tue 4"), open(t, s.Task(&task, []int{2}), "2027-05-04", "2027-05-05")); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff([]string{"Tue 4 10:00-12:00", "Tue 4 12:30-18:00"},
		open(t, s.Task(&task, []int{4}), "2027-05-04", "2027-05-05")); diff != "" {
		t.Error(diff)
	}
}

func TestLogicHeads(t *testing.T) {
	need := func(c schedule.CrewID, least, most int) schedule.CrewNeed {
		return schedule.CrewNeed{Crew: c, Least: least, Most: most}
	}
	for _, c := range []struct {
		name   string
		task   schedule.Task
		change func(p *schedule.Plan)
		want   []int
	}{
		{"fixed", schedule.Task{Zones: []schedule.ZoneID{0},
			Crew: []schedule.CrewNeed{need(crew, 3, 3), need(other, 1, 1)}}, nil, []int{3, 1}},
		{"the most of a range", schedule.Task{Zones: []schedule.ZoneID{0},
			Crew: []schedule.CrewNeed{need(crew, 2, 4)}}, nil, []int{4}},
		{"no more than exist", schedule.Task{Zones: []schedule.ZoneID{0},
			Crew: []schedule.CrewNeed{need(crew, 2, 6)}}, nil, []int{4}},
		{"no more than ever are at work at once",
			schedule.Task{Zones: []schedule.ZoneID{0}, Crew: []schedule.CrewNeed{need(crew, 2, 4)}},
			func(p *schedule.Plan) {
				p.Crews[crew].Away = []schedule.Away{{Span: span(t, "2020-01-01 00:00", "2030-01-01 00:00"), People: 1}}
			}, []int{3}},
		{"as many as come on one date",
			schedule.Task{Zones: []schedule.ZoneID{0}, Crew: []schedule.CrewNeed{need(crew, 2, 9)}},
			func(p *schedule.Plan) {
				p.Crews[crew].PeopleOn = []schedule.PeopleOn{{On: date(t, "2027-05-05"), People: 5}}
			}, []int{5}},
		{"no more than fit every zone",
			schedule.Task{Zones: []schedule.ZoneID{0, 1}, Crew: []schedule.CrewNeed{need(crew, 1, 4), need(other, 3, 3)}},
			nil, []int{2, 3}},
		{"beside the machine's places", schedule.Task{Zones: []schedule.ZoneID{0},
			Crew: []schedule.CrewNeed{need(crew, 1, 4)}, Machines: []schedule.MachineNeed{{Machine: 0, Count: 2}}},
			nil, []int{2}},
		{"never below the least", schedule.Task{Zones: []schedule.ZoneID{1}, Crew: []schedule.CrewNeed{need(crew, 3, 4)},
			Machines: []schedule.MachineNeed{{Machine: 0, Count: 2}}}, nil, []int{3}},
		{"the first range takes the room",
			schedule.Task{Zones: []schedule.ZoneID{1}, Crew: []schedule.CrewNeed{need(other, 1, 3), need(crew, 1, 4)}},
			nil, []int{3, 2}},
		{"no limit off site", schedule.Task{Zones: []schedule.ZoneID{yard},
			Crew: []schedule.CrewNeed{need(other, 1, 3), need(crew, 1, 4)}}, nil, []int{3, 4}},
		{"no crew", schedule.Task{Zones: []schedule.ZoneID{0}}, nil, []int{}},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := garden(t)
			if c.change != nil {
				c.change(p)
			}
			if diff := cmp.Diff(c.want, worktime.New(p).Heads(&c.task)); diff != "" {
				t.Error(diff)
			}
		})
	}
}
