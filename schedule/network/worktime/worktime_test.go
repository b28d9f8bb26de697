package worktime_test

import (
	"sync"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network/worktime"

	"github.com/google/go-cmp/cmp"
)

// opening is a change to the garden and when somebody is open then.
type opening struct {
	name     string
	change   func(p *schedule.Plan)
	of       func(s *worktime.Set) *calendars.Calendar
	from, to string
	want     []string
}

func (c opening) test(t *testing.T) {
	p := garden(t)
	if c.change != nil {
		c.change(p)
	}
	if diff := cmp.Diff(c.want, open(t, c.of(worktime.New(p)), c.from, c.to)); diff != "" {
		t.Error(diff)
	}
}

func TestWhenPlacesAreOpen(t *testing.T) {
	site := func(s *worktime.Set) *calendars.Calendar { return s.Site }
	gate := func(s *worktime.Set) *calendars.Calendar { return s.Gate }
	atYard := func(s *worktime.Set) *calendars.Calendar { return s.Places[yard] }
	for _, c := range []opening{
		{"the site keeps holidays, one in part", nil, site, "2027-05-03", "2027-05-07",
			list(wholeDay("Tue 4"), wholeDay("Wed 5"), []string{"Thu 6 07:00-12:00"})},
		{"the site is open before the gate opens", nil, site, "2027-04-26", "2027-04-27", wholeDay("Mon 26")},
		{"and after the hand-over", nil, site, "2027-06-01", "2027-06-02", wholeDay("Tue 1")},
		{"a date of its own opens the site on a holiday",
			func(p *schedule.Plan) { p.Site.Hours.On = own(t, "2027-05-03", "09:00-15:00") },
			site, "2027-05-03", "2027-05-04", []string{"Mon 3 09:00-15:00"}},
		{"the site's closure",
			func(p *schedule.Plan) { p.Site.Hours.Closed = closed(t, "2027-05-05 12:00", "2027-05-05 14:00") },
			site, "2027-05-05", "2027-05-06", []string{"Wed 5 07:00-12:00", "Wed 5 14:00-18:00"}},

		{"a gate without hours keeps the site's whole calendar",
			func(p *schedule.Plan) {
				p.Site.Gate = &schedule.Gate{AtOnce: 1}
				p.Site.Hours.On = own(t, "2027-05-03", "09:00-15:00")
			}, gate, "2027-05-03", "2027-05-05", list([]string{"Mon 3 09:00-15:00"}, wholeDay("Tue 4"))},
		{"a gate with hours keeps holidays, the site's closures and its own",
			func(p *schedule.Plan) {
				h := hours(t, "mon-sat", "06:30-10:00")
				h.Closed = closed(t, "2027-05-04 06:00", "2027-05-04 08:00")
				p.Site.Gate = &schedule.Gate{AtOnce: 1, Hours: &h}
				p.Site.Hours.Closed = closed(t, "2027-05-05 09:00", "2027-05-05 14:00")
			}, gate, "2027-05-03", "2027-05-09",
			[]string{"Tue 4 08:00-10:00", "Wed 5 06:30-09:00", "Thu 6 06:30-10:00", "Fri 7 06:30-10:00", "Sat 8 06:30-10:00"}},
		{"a date of the gate's own opens it on a holiday, the site's does not",
			func(p *schedule.Plan) {
				h := hours(t, "mon-sat", "06:30-10:00")
				h.On = own(t, "2027-05-06", "06:30-13:00")
				p.Site.Gate = &schedule.Gate{AtOnce: 1, Hours: &h}
				p.Site.Hours.On = own(t, "2027-05-03", "09:00-15:00")
			}, gate, "2027-05-03", "2027-05-07",
			[]string{"Tue 4 06:30-10:00", "Wed 5 06:30-10:00", "Thu 6 06:30-13:00"}},

		{"off-site zones keep no holidays", nil, atYard, "2027-05-03", "2027-05-04", []string{"Mon 3 08:00-17:00"}},
		{"off-site zones have dates and closures of their own, not the site's",
			func(p *schedule.Plan) {
				p.Zones[yard].Hours.On = own(t, "2027-05-08", "08:00-12:00")
				p.Zones[yard].Hours.Closed = closed(t, "2027-05-07 08:00", "2027-05-07 10:00")
				p.Site.Hours.Closed = closed(t, "2027-05-06 00:00", "2027-05-09 00:00")
			}, atYard, "2027-05-06", "2027-05-09", []string{"Thu 6 08:00-17:00", "Fri 7 10:00-17:00", "Sat 8 08:00-12:00"}},
	} {
		t.Run(c.name, c.test)
	}
}

func TestWhenCrewsAreAtWork(t *testing.T) {
	atWork := func(s *worktime.Set) *calendars.Calendar { return s.Crews[crew].AtLeast(1) }
	for _, c := range []opening{
		{"a crew without hours keeps the site's whole calendar",
			func(p *schedule.Plan) {
				p.Site.Hours.On = own(t, "2027-05-03", "09:00-15:00")
				p.Site.Hours.Closed = closed(t, "2027-05-05 12:00", "2027-05-05 14:00")
			}, atWork, "2027-05-03", "2027-05-07",
			list([]string{"Mon 3 09:00-15:00"}, wholeDay("Tue 4"),
				[]string{"Wed 5 07:00-12:00", "Wed 5 14:00-18:00", "Thu 6 07:00-12:00"})},
		{"with dates and closures of its own on top",
			func(p *schedule.Plan) {
				p.Site.Hours.On = own(t, "2027-05-04", "09:00-15:00")
				p.Crews[crew].HoursOn = []calendars.DayHours{
					{On: date(t, "2027-05-03"), Ranges: ranges(t, "08:00-10:00")},
					{On: date(t, "2027-05-04"), Ranges: ranges(t, "10:00-16:00")}}
				p.Crews[crew].Closed = closed(t, "2027-05-05 07:00", "2027-05-05 12:30")
			}, atWork, "2027-05-03", "2027-05-06", []string{"Mon 3 08:00-10:00", "Tue 4 10:00-16:00", "Wed 5 12:30-18:00"}},
		{"a crew with hours keeps holidays and its own closures, not the site's",
			func(p *schedule.Plan) {
				h := hours(t, "mon-sat", "07:00-17:00")
				h.Closed = closed(t, "2027-05-07 15:00", "2027-05-08 00:00")
				p.Crews[crew].Hours = &h
				p.Site.Hours.Closed = closed(t, "2027-05-05 00:00", "2027-05-09 00:00")
			}, atWork, "2027-05-03", "2027-05-09",
			[]string{"Tue 4 07:00-17:00", "Wed 5 07:00-17:00", "Thu 6 07:00-12:00", "Fri 7 07:00-15:00", "Sat 8 07:00-17:00"}},
		{"a date of the crew's own opens it on a holiday",
			func(p *schedule.Plan) {
				h := hours(t, "mon-sat", "07:00-17:00")
				h.On = own(t, "2027-05-03", "09:00-15:00")
				p.Crews[crew].Hours = &h
			}, atWork, "2027-05-03", "2027-05-04", []string{"Mon 3 09:00-15:00"}},
	} {
		t.Run(c.name, c.test)
	}
}

func TestTimeLine(t *testing.T) {
	s := worktime.New(garden(t))
	// 26 weeks before the shed's from, 52 after the hand-over.
	want := calendars.Span{
		Start: at(t, "2027-04-05 08:00").Plus(-26 * 7 * 1440),
		End:   at(t, "2027-05-08 15:00").Plus(52 * 7 * 1440),
	}
	if s.Line != want {
		t.Errorf("the time line is %v, want %v", s.Line, want)
	}
	if c := s.Places[shed]; c.Total() != want.Minutes() {
		t.Errorf("a place that never closes is open %d of %d minutes", c.Total(), want.Minutes())
	}
}

func TestPlacesAndGateShareTheSite(t *testing.T) {
	p := garden(t)
	s := worktime.New(p)
	if s.Places[0] != s.Site || s.Places[1] != s.Site || s.Gate != s.Site {
		t.Error("zones on site and a gate that is not said are the site")
	}
	p.Site.Gate = &schedule.Gate{AtOnce: 2}
	if s := worktime.New(p); s.Gate != s.Site {
		t.Error("a gate without hours is the site")
	}
}

func TestMachines(t *testing.T) {
	p := garden(t)
	p.Machines[0].Ours = []calendars.Span{
		span(t, "2027-05-04 07:00", "2027-05-04 12:00"), span(t, "2027-05-04 11:00", "2027-05-04 13:00"),
		span(t, "2010-05-04 07:00", "2010-05-05 07:00"), span(t, "2040-05-04 07:00", "2040-05-05 07:00")}
	s := worktime.New(p)
	if s.Machines[1] != nil {
		t.Error("a machine without ours is always there")
	}
	for when, n := range map[string]int{
		"2027-05-04 06:59": 0, "2027-05-04 07:00": 2, "2027-05-04 11:30": 2, "2027-05-04 13:00": 0,
		"2010-05-04 08:00": 0, "2040-05-04 08:00": 0, // beyond the time line
	} {
		if got := s.Machines[0].At(at(t, when)); got != n {
			t.Errorf("at %s there are %d, want %d", when, got, n)
		}
	}
}

func TestTaskCalendar(t *testing.T) {
	p := garden(t)
	loud := hours(t, "mon-fri", "08:00-17:00").Weekly
	p.Site.Loud = &loud
	p.Site.Hours.On = own(t, "2027-05-03", "07:00-18:00")
	p.Crews[crew].Away = []schedule.Away{{Span: span(t, "2027-05-04 07:00", "2027-05-04 10:00"), People: 2}}
	early := hours(t, "mon-fri", "06:00-11:00")
	p.Crews[other].Hours = &early
	p.Machines[0].Ours = []calendars.Span{span(t, "2027-05-04 09:00", "2027-05-04 16:00")}
	need := func(c schedule.CrewID, n int) []schedule.CrewNeed {
		return []schedule.CrewNeed{{Crew: c, Least: n, Most: n}}
	}
	both := []schedule.CrewNeed{{Crew: other, Least: 1, Most: 1}, {Crew: crew, Least: 4, Most: 4}}
	for _, c := range []struct {
		name string
		task schedule.Task
		day  string
		next string
		want []string
	}{
		{"no need: the place", schedule.Task{Zones: []schedule.ZoneID{0, 1}}, "2027-05-04", "2027-05-05", wholeDay("Tue 4")},
		{"enough heads in spite of those away", schedule.Task{Zones: []schedule.ZoneID{0}, Crew: need(crew, 2)},
			"2027-05-04", "2027-05-05", wholeDay("Tue 4")},
		{"too few heads for a while",
			schedule.Task{Zones: []schedule.ZoneID{0}, Crew: need(crew, 3)}, "2027-05-04", "2027-05-05",
			[]string{"Tue 4 10:00-12:00", "Tue 4 12:30-18:00"}},
		{"never so many", schedule.Task{Zones: []schedule.ZoneID{0}, Crew: need(crew, 5)}, "2027-05-04", "2027-05-05", nil},
		{"a crew on site only when the site is open", schedule.Task{Zones: []schedule.ZoneID{0}, Crew: need(other, 1)},
			"2027-05-04", "2027-05-05", []string{"Tue 4 07:00-11:00"}},
		{"two crews", schedule.Task{Zones: []schedule.ZoneID{0}, Crew: both},
			"2027-05-04", "2027-05-05", []string{"Tue 4 10:00-11:00"}},
		{"a machine in its slots", schedule.Task{Zones: []schedule.ZoneID{0},
			Machines: []schedule.MachineNeed{{Machine: 0, Count: 2}}}, "2027-05-04", "2027-05-05",
			[]string{"Tue 4 09:00-12:00", "Tue 4 12:30-16:00"}},
		{"more machines than there are",
			schedule.Task{Zones: []schedule.ZoneID{0}, Machines: []schedule.MachineNeed{{Machine: 0, Count: 3}}},
			"2027-05-04", "2027-05-05", nil},
		{"a machine without slots", schedule.Task{Zones: []schedule.ZoneID{0},
			Machines: []schedule.MachineNeed{{Machine: 1, Count: 1}}}, "2027-05-04", "2027-05-05", wholeDay("Tue 4")},
		{"loud hours", schedule.Task{Zones: []schedule.ZoneID{0}, Loud: true},
			"2027-05-04", "2027-05-05", []string{"Tue 4 08:00-12:00", "Tue 4 12:30-17:00"}},
		{"loud hours are the week's, holiday or not", schedule.Task{Zones: []schedule.ZoneID{0}, Loud: true},
			"2027-05-03", "2027-05-04", []string{"Mon 3 08:00-17:00"}},
		{"no loud hours off site", schedule.Task{Zones: []schedule.ZoneID{yard}, Loud: true},
			"2027-05-04", "2027-05-05", []string{"Tue 4 08:00-17:00"}},
		{"a crew without hours off site keeps the site's, before the gate opens too",
			schedule.Task{Zones: []schedule.ZoneID{shed}, Crew: need(crew, 1)}, "2027-04-13", "2027-04-14", wholeDay("Tue 13")},
		{"a crew with hours off site", schedule.Task{Zones: []schedule.ZoneID{shed}, Crew: need(other, 1)},
			"2027-04-13", "2027-04-14", []string{"Tue 13 06:00-11:00"}},
		{"a machine off site has no hours but its slots", schedule.Task{Zones: []schedule.ZoneID{shed},
			Machines: []schedule.MachineNeed{{Machine: 0, Count: 1}}},
			"2027-05-04", "2027-05-05", []string{"Tue 4 09:00-16:00"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := worktime.New(p)
			if diff := cmp.Diff(c.want, open(t, s.Task(&c.task, s.Heads(&c.task)), c.day, c.next)); diff != "" {
				t.Error(diff)
			}
		})
	}
}

func TestUnload(t *testing.T) {
	p := garden(t)
	early := hours(t, "mon-fri", "06:30-10:00")
	p.Site.Gate = &schedule.Gate{AtOnce: 1, Hours: &early}
	p.Machines[0].Ours = []calendars.Span{span(t, "2027-05-04 06:00", "2027-05-04 09:00")}
	s := worktime.New(p)
	for _, c := range []struct {
		name   string
		unload schedule.Unload
		want   []string
	}{
		{"gate hours, open before the site", schedule.Unload{}, []string{"Tue 4 06:30-10:00"}},
		{"the crew's hours", schedule.Unload{Crew: []schedule.CrewNeed{{Crew: crew, Least: 2, Most: 2}}},
			[]string{"Tue 4 07:00-10:00"}},
		{"the machine's slots", schedule.Unload{Machines: []schedule.MachineNeed{{Machine: 0, Count: 1}}},
			[]string{"Tue 4 06:30-09:00"}},
		{"gate hours for a machine without slots",
			schedule.Unload{Machines: []schedule.MachineNeed{{Machine: 1, Count: 1}}}, []string{"Tue 4 06:30-10:00"}},
	} {
		if diff := cmp.Diff(c.want, open(t, s.Unload(&schedule.Delivery{Unload: c.unload}),
			"2027-05-04", "2027-05-05")); diff != "" {
			t.Errorf("%s: %s", c.name, diff)
		}
	}
}

// Calendars are equal pointers exactly when the needs are met at the same time.
func TestSameNeedSameCalendar(t *testing.T) {
	p := garden(t)
	p.Crews[crew].Away = []schedule.Away{{Span: span(t, "2027-05-04 07:00", "2027-05-04 10:00"), People: 2}}
	p.Crews[other].Away = []schedule.Away{{Span: span(t, "2027-05-04 15:00", "2027-05-04 17:00"), People: 2}}
	p.Machines[0].Ours = []calendars.Span{span(t, "2027-05-04 09:00", "2027-05-04 16:00")}
	s := worktime.New(p)
	task := func(machines bool, crews ...schedule.CrewNeed) *calendars.Calendar {
		t := schedule.Task{Zones: []schedule.ZoneID{0}, Crew: crews}
		if machines {
			t.Machines = []schedule.MachineNeed{{Machine: 0, Count: 1}}
		}
		return s.Task(&t, nil)
	}
	n := func(c schedule.CrewID, n int) schedule.CrewNeed { return schedule.CrewNeed{Crew: c, Least: n, Most: n} }
	if task(true, n(crew, 3), n(other, 2)) != task(true, n(other, 2), n(crew, 3)) {
		t.Error("the order of the crews makes another calendar")
	}
	if task(false, n(crew, 3)) != task(false, n(crew, 4)) {
		t.Error("three and four are there at the same time, in two calendars")
	}
	if task(false, n(crew, 2)) != s.Site || task(false, n(other, 1)) != s.Site || task(false) != s.Site {
		t.Error("a need that cuts nothing off the site is not the site's calendar")
	}
	if task(false, n(crew, 2)) == task(false, n(crew, 3)) || task(true) == task(false) {
		t.Error("different times share a calendar")
	}
}

func TestCalendarsForManyAtOnce(t *testing.T) {
	p := garden(t)
	p.Crews[crew].Away = []schedule.Away{{Span: span(t, "2027-05-04 07:00", "2027-05-04 10:00"), People: 2}}
	s := worktime.New(p)
	task := schedule.Task{Zones: []schedule.ZoneID{0}, Crew: []schedule.CrewNeed{{Crew: crew, Least: 3, Most: 3}}}
	got := make([]*calendars.Calendar, 8)
	var all sync.WaitGroup
	for i := range got {
		all.Go(func() { got[i] = s.Task(&task, nil) })
	}
	all.Wait()
	for _, c := range got {
		if c != got[0] || c == nil {
			t.Fatal("one need has two calendars")
		}
	}
}

// What two plans have in common has the same calendars, and what they haven't has its own.
func TestLikeSharesWhatIsTheSame(t *testing.T) {
	p := garden(t)
	task := &schedule.Task{Zones: []schedule.ZoneID{0}, Crew: []schedule.CrewNeed{{Crew: other, Least: 1, Most: 1}}}
	s := worktime.New(p)
	work := s.Task(task, nil)
	q := *p
	q.Crews = []schedule.Crew{{People: 5}, p.Crews[other]}
	like := s.Like(&q)
	if like.Site != s.Site || like.Crews[other] != s.Crews[other] || like.Task(task, nil) != work {
		t.Error("the site, a crew and a task that keep their hours have calendars of their own")
	}
	if like.Crews[crew] == s.Crews[crew] {
		t.Error("a crew of five has the heads of one of four")
	}
}
