package worktime_test

import (
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network/worktime"

	"github.com/google/go-cmp/cmp"
)

// The garden is handed over on Sat 8 May 2027 at 15:00.
func TestHoursBeyondTheHandover(t *testing.T) {
	site := func(s *worktime.Set) *calendars.Calendar { return s.Site }
	gate := func(s *worktime.Set) *calendars.Calendar { return s.Gate }
	lift := func(s *worktime.Set) *calendars.Calendar { return s.There(1, 1) }
	dated := func(p *schedule.Plan) {
		p.Site.Hours = calendars.Hours{On: []calendars.DayHours{
			{On: date(t, "2027-05-05"), Ranges: ranges(t, "08:00-10:00")},
			{On: date(t, "2027-05-06"), Ranges: ranges(t, "08:00-10:00 11:00-12:00")},
			{On: date(t, "2027-05-07"), Ranges: ranges(t, "07:00-10:00")},
		}}
	}
	for _, c := range []opening{
		{"a site without a week has its longest date, the first of equals, on every day", dated,
			site, "2027-05-07", "2027-05-10",
			[]string{"Fri 7 07:00-10:00", "Sun 9 08:00-10:00", "Sun 9 11:00-12:00"}},
		{"from the hand-over on, not before", func(p *schedule.Plan) {
			dated(p)
			p.Site.Handover = at(t, "2027-05-08 09:30")
		}, site, "2027-05-08", "2027-05-09", []string{"Sat 8 09:30-10:00", "Sat 8 11:00-12:00"}},
		{"a date keeps its own hours, a holiday and a closure hold", func(p *schedule.Plan) {
			dated(p)
			p.Site.Hours.On = append(p.Site.Hours.On, own(t, "2027-05-09", "13:00-14:00")...)
			p.Site.Hours.Closed = closed(t, "2027-05-10 09:00", "2027-05-10 11:30")
			p.Site.Holidays = append(p.Site.Holidays, schedule.Holiday{On: date(t, "2027-05-11")})
		}, site, "2027-05-08", "2027-05-12", []string{"Sun 9 13:00-14:00", "Mon 10 08:00-09:00", "Mon 10 11:30-12:00"}},
		{"a date that is closed stays so", func(p *schedule.Plan) {
			dated(p)
			p.Site.Hours.On = append(p.Site.Hours.On, calendars.DayHours{On: date(t, "2027-05-09")})
		}, site, "2027-05-09", "2027-05-10", nil},
		{"a week runs on and nothing is added", func(p *schedule.Plan) {
			p.Site.Hours.On = own(t, "2027-05-01", "06:00-22:00")
		}, site, "2027-05-08", "2027-05-11", wholeDay("Mon 10")},
		{"a gate with dates alone", func(p *schedule.Plan) {
			p.Site.Gate = &schedule.Gate{AtOnce: 1, Hours: &calendars.Hours{On: own(t, "2027-05-05", "06:30-10:00")}}
		}, gate, "2027-05-06", "2027-05-10", []string{"Sun 9 06:30-10:00"}},
		{"a machine in slots is there all the time", func(p *schedule.Plan) {
			p.Machines[1].Ours = []calendars.Span{span(t, "2027-05-05 08:00", "2027-05-05 12:00")}
			p.Machines[1].Away = []calendars.Span{span(t, "2027-05-09 00:00", "2027-05-09 12:00")}
		}, lift, "2027-05-05", "2027-05-10",
			[]string{"Wed 5 08:00-12:00", "Sat 8 15:00-00:00", "Sun 9 12:00-00:00"}},
	} {
		t.Run(c.name, c.test)
	}
}

func TestHeadsBeyondTheHandover(t *testing.T) {
	on := func(text string, people int) schedule.PeopleOn {
		return schedule.PeopleOn{On: date(t, text), People: people}
	}
	need := func(n int) []schedule.CrewNeed { return []schedule.CrewNeed{{Crew: crew, Least: n, Most: n + 3}} }
	for _, c := range []struct {
		name   string
		change func(p *schedule.Plan)
		when   string
		heads  int
	}{
		{"those of every week run on", func(p *schedule.Plan) {
			p.Crews[crew].PeopleOn = []schedule.PeopleOn{on("2027-05-05", 2)}
		}, "2027-05-10 09:00", 4},
		{"the fewest that a date has above none", func(p *schedule.Plan) {
			p.Crews[crew] = schedule.Crew{PeopleOn: []schedule.PeopleOn{
				on("2027-05-04", 5), on("2027-05-05", 0), on("2027-05-06", 3), on("2027-05-07", 4)}}
		}, "2027-05-10 09:00", 3},
		{"not before the hand-over", func(p *schedule.Plan) {
			p.Crews[crew] = schedule.Crew{PeopleOn: []schedule.PeopleOn{on("2027-05-04", 5)}}
		}, "2027-05-07 09:00", 0},
		{"as many as a task needs at least", func(p *schedule.Plan) {
			p.Crews[crew] = schedule.Crew{PeopleOn: []schedule.PeopleOn{on("2027-05-04", 5), on("2027-05-05", 2)}}
			p.Tasks = []schedule.Task{{Crew: need(4)}, {Crew: need(3)}}
		}, "2027-05-10 09:00", 4},
		{"as many as a lorry needs, above those of every week", func(p *schedule.Plan) {
			p.Deliveries = []schedule.Delivery{{Unload: schedule.Unload{Crew: need(6)}}}
		}, "2027-05-10 09:00", 6},
		{"a date after it holds", func(p *schedule.Plan) {
			p.Crews[crew].PeopleOn = []schedule.PeopleOn{on("2027-05-10", 0), on("2027-05-11", 1)}
			p.Tasks = []schedule.Task{{Crew: need(4)}}
		}, "2027-05-11 09:00", 1},
		{"so does an absence", func(p *schedule.Plan) {
			p.Crews[crew].Away = []schedule.Away{{Span: span(t, "2027-05-10 08:00", "2027-05-10 10:00"), People: 1}}
		}, "2027-05-10 09:00", 3},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := garden(t)
			c.change(p)
			if got := worktime.New(p).Crews[crew].At(at(t, c.when)); got != c.heads {
				t.Errorf("%d heads, want %d", got, c.heads)
			}
		})
	}
}

func TestSignOffs(t *testing.T) {
	shown := func(p *schedule.Plan, dated ...calendars.Instant) []string {
		var out []string
		for _, at := range worktime.New(p).SignOffs(dated)[:len(dated)+4] {
			out = append(out, at.In(p.Site.Location).Format("Mon 2 15:04"))
		}
		return out
	}
	for _, c := range []struct {
		name     string
		handover string
		dated    []string
		want     []string
	}{
		{"each site day after it", "2027-05-08 15:00", []string{"2027-05-04 10:00"},
			[]string{"Tue 4 10:00", "Mon 10 07:00", "Tue 11 07:00", "Wed 12 07:00", "Thu 13 07:00"}},
		{"not on the day of the hand-over, which began before", "2027-05-05 10:00", []string{"2027-05-04 10:00"},
			[]string{"Tue 4 10:00", "Thu 6 07:00", "Fri 7 07:00", "Mon 10 07:00", "Tue 11 07:00"}},
		{"but on a day that begins with it", "2027-05-05 07:00", []string{"2027-05-04 10:00"},
			[]string{"Tue 4 10:00", "Wed 5 07:00", "Thu 6 07:00", "Fri 7 07:00", "Mon 10 07:00"}},
		{"only once the dated ones are used up", "2027-05-08 15:00", []string{"2027-05-04 10:00", "2027-05-11 07:00"},
			[]string{"Tue 4 10:00", "Tue 11 07:00", "Wed 12 07:00", "Thu 13 07:00", "Fri 14 07:00", "Mon 17 07:00"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := garden(t)
			p.Site.Handover = at(t, c.handover)
			var dated []calendars.Instant
			for _, text := range c.dated {
				dated = append(dated, at(t, text))
			}
			if diff := cmp.Diff(c.want, shown(p, dated...)); diff != "" {
				t.Error(diff)
			}
		})
	}
}
