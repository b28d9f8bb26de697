package progress_test

import (
	"strings"
	"testing"
	"time"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/network/worktime"
	"build.example/turflast/schedule/site/progress"
)

// TestTurnout: people who turned up replace those planned for the date, and cut from
// what was to be away only that date.
func TestTurnout(t *testing.T) {
	p := read(t, strings.Replace(court, "away: [{on: 2027-05-04, people: 1}]",
		"people_on: {2027-05-03: 3, 2027-05-05: 2}, away: [{from: 2027-05-03 14:00, to: 2027-05-05 10:00, people: 1}]", 1))
	s := progress.At(p, plans.Log(t, p, "3 08:00 people diggers 4", "4 08:00 people diggers 2"),
		nil, moment(p, 4, "09:00"))
	on := func(day, people int) schedule.PeopleOn {
		return schedule.PeopleOn{On: calendars.DateOf(2027, time.May, day), People: people}
	}
	same(t, []schedule.PeopleOn{on(3, 4), on(4, 2), on(5, 2)}, s.Plan.Crews[0].PeopleOn)
	away := p.Crews[0].Away[0]
	away.Span = calendars.Span{Start: moment(p, 5, "00:00"), End: moment(p, 5, "10:00")}
	same(t, []schedule.Away{away}, s.Plan.Crews[0].Away)
	same(t, []schedule.PeopleOn{on(3, 3), on(5, 2)}, p.Crews[0].PeopleOn) // the plan stays as it was

	s = progress.At(p, plans.Log(t, p, "4 08:00 people diggers 2"), nil, moment(p, 4, "09:00"))
	before := away
	before.Span = calendars.Span{Start: moment(p, 3, "14:00"), End: moment(p, 4, "00:00")}
	same(t, []schedule.Away{before, away}, s.Plan.Crews[0].Away)
}

// TestUnknown: events of a task, a delivery, a crew and a given that the plan hasn't got
// are told, all others aren't.
func TestUnknown(t *testing.T) {
	p := read(t, court)
	events := plans.Log(t, p, "3 08:00 started shed", "3 08:10 started dig",
		"3 09:00 arrived slabs", "3 09:10 arrived stone",
		"3 09:20 people masons 2", "3 09:30 people diggers 2", "3 09:40 given power", "3 09:50 given water")
	var got []string
	for _, e := range progress.At(p, events, nil, moment(p, 3, "10:00")).Unknown {
		got = append(got, e.Task+e.Delivery+e.Crew+e.Given)
	}
	same(t, []string{"shed", "slabs", "masons", "power"}, got)
}

// TestGivenLate: what was given later than planned was still missing, and what was given
// sooner wasn't.
func TestGivenLate(t *testing.T) {
	p := read(t, court)
	for given, want := range map[string]int{"4 10:00": 1, "4 08:30": 0} {
		s := progress.At(p, plans.Log(t, p, "4 09:00 started bed", given+" given water"), nil, moment(p, 4, "11:00"))
		missing := 0
		for _, o := range s.OutOfOrder {
			if o.Given != schedule.None {
				missing++
			}
		}
		if missing != want {
			t.Errorf("water given %s: %d starts before it, not %d", given, missing, want)
		}
	}
}

// TestSignedWithoutHoldPoint: a signature counts for nothing where the plan asks for
// none any more.
func TestSignedWithoutHoldPoint(t *testing.T) {
	p := read(t, court)
	s := progress.At(p, plans.Log(t, p, "3 08:00 started dig", "3 14:00 finished dig", "3 15:00 signed dig"),
		nil, moment(p, 3, "16:00"))
	if was := s.Plan.Progress.Tasks[0]; was.Finish == 0 || was.Signed != 0 {
		t.Errorf("%+v", was)
	}
}

// TestWorked: work ends with the finish, pauses outside an opening take nothing off it,
// and one from its first minute leaves nothing before it.
func TestWorked(t *testing.T) {
	p := read(t, court)
	s := progress.At(p, plans.Log(t, p, "3 09:00 started dig", "3 12:00 finished dig"), nil, moment(p, 3, "15:00"))
	span := func(day int, from, to string) calendars.Span {
		return calendars.Span{Start: moment(p, day, from), End: moment(p, day, to)}
	}
	same(t, []calendars.Span{span(3, "09:00", "12:00")}, s.Plan.Progress.Tasks[0].Worked)

	site := worktime.New(p).Site
	got := progress.Worked(site, calendars.Span{Start: moment(p, 3, "08:00"), End: moment(p, 5, "12:00")},
		[]calendars.Span{span(3, "17:00", "19:00"), span(4, "07:00", "07:30"),
			span(4, "10:00", "11:00"), span(4, "16:00", "20:00"), span(5, "08:00", "09:00")})
	same(t, []calendars.Span{span(3, "08:00", "16:00"), span(4, "08:00", "10:00"),
		span(4, "11:00", "16:00"), span(5, "09:00", "12:00")}, got)
}

// TestEnoughTurnedUp: only a date on which fewer turned up than are at a task is worked
// by fewer.
func TestEnoughTurnedUp(t *testing.T) {
	p := read(t, court+"  sweep: {name: Sweep, zone: front, stage: clean, crew: {diggers: 1}, takes: 1h}\n")
	p.Crews = append(p.Crews, schedule.Crew{ID: "masons", Name: "Masons", People: 2})
	for _, c := range []struct {
		turned string
		worked int64 // person-minutes in an hour
	}{{"diggers 4", 120}, {"diggers 2", 120}, {"diggers 1", 60}, {"masons 0", 120}} {
		s := progress.At(p, plans.Log(t, p, "3 08:00 people "+c.turned, "3 08:00 started base"), nil, moment(p, 3, "09:00"))
		if left := s.Plan.Progress.Tasks[1].Left; left.Num != 8*60-c.worked || left.Den != 1 {
			t.Errorf("%s: %d/%d person-minutes are left, not %d", c.turned, left.Num, left.Den, 8*60-c.worked)
		}
	}
}

// movable is the court with a booking that may move.
var movable = strings.Replace(court, "arrives: 2027-05-05 08:00, unload: 30m",
	"arrives: 2027-05-05 08:00, unload: 30m, movable: {earliest: 2027-05-04 08:00, latest: 2027-05-06 12:00}", 1)

// TestMovedBooking: a lorry is expected when the agreed programme booked it, if it may
// come then; and nothing may be moved into the past.
func TestMovedBooking(t *testing.T) {
	p := read(t, movable)
	span := func(m *schedule.Movable) calendars.Span { return calendars.Span{Start: m.Earliest, End: m.Latest} }
	for _, c := range []struct{ day, clock, want string }{
		{"6", "12:00", "6 12:00"}, {"4", "08:00", "4 08:00"}, {"6", "12:01", "5 08:00"}, {"4", "07:59", "5 08:00"},
	} {
		agreed := forecast(t, p, nil)
		agreed.Unloads[1].Arrives = at(p, c.day+" "+c.clock)
		s := progress.At(p, nil, agreed, moment(p, 3, "12:00"))
		if got := s.Plan.Deliveries[1].Arrives; got != at(p, c.want) {
			t.Errorf("agreed for %s %s, expected %d minutes off", c.day, c.clock, got-at(p, c.want))
		}
		same(t, *p.Deliveries[1].Movable, *s.Plan.Deliveries[1].Movable)
	}
	agreed := forecast(t, p, nil)
	agreed.Unloads[0].Arrives = moment(p, 4, "09:00") // a booking that may not move
	same(t, moment(p, 3, "09:00"), progress.At(p, nil, agreed, moment(p, 3, "08:00")).Plan.Deliveries[0].Arrives)
	s := progress.At(p, nil, nil, moment(p, 5, "07:00"))
	same(t, calendars.Span{Start: moment(p, 5, "07:00"), End: moment(p, 6, "12:00")}, span(s.Plan.Deliveries[1].Movable))
	s = progress.At(p, plans.Log(t, p, "5 07:00 rebooked turf 09:00"), nil, moment(p, 5, "07:30"))
	if d := s.Plan.Deliveries[1]; d.Movable != nil || d.Arrives != moment(p, 6, "09:00") {
		t.Errorf("booked again: %+v", d)
	}
}

// at is a moment such as "3 08:30".
func at(p *schedule.Plan, text string) calendars.Instant {
	day, clock, _ := strings.Cut(text, " ")
	return moment(p, int(day[0]-'0'), clock)
}

// TestOfAnotherPlan: a programme of another plan counts for nothing.
func TestOfAnotherPlan(t *testing.T) {
	p := read(t, movable)
	for _, change := range []func(*schedule.Programme){
		func(g *schedule.Programme) { g.Tasks = g.Tasks[:1] },
		func(g *schedule.Programme) { g.Unloads = g.Unloads[:1] },
	} {
		agreed := forecast(t, p, nil)
		agreed.Unloads[1].Arrives = moment(p, 6, "12:00")
		change(agreed)
		events := plans.Log(t, p, "3 08:00 started base")
		same(t, progress.At(p, events, nil, moment(p, 3, "12:00")).Plan.Deliveries,
			progress.At(p, events, agreed, moment(p, 3, "12:00")).Plan.Deliveries)
	}
}

// TestDropMeasure: what was started can't be left out any more.
func TestDropMeasure(t *testing.T) {
	p := read(t, strings.Replace(court, "takes: 1h, apart: [dig, rake, base]",
		"takes: 1h, optional: true", 1)+"measures:\n  - {drop: edge, cost: 1}\n")
	same(t, 1, len(progress.At(p, nil, nil, moment(p, 3, "09:00")).Plan.Measures))
	same(t, 0, len(progress.At(p, plans.Log(t, p, "3 08:00 started edge"), nil, moment(p, 3, "09:00")).Plan.Measures))
}

// TestUnloadedAfter: a lorry that has come is taken to be unloaded once what it waits for
// is there: a given by the log or else by the plan, a task by the log alone, unless the
// load is in use.
func TestUnloadedAfter(t *testing.T) {
	dug, based := "3 08:00 started dig, 3 14:00 finished dig", "3 08:00 started base, 3 12:00 finished base"
	for _, c := range []struct{ after, log, now, start string }{
		{"water", "", "5 09:00", "4 08:00"},
		{"water", "", "4 08:00", ""}, // a minute from now on is to come
		{"water", "3 10:00 given water", "5 09:00", "3 10:00"},
		{"water", "4 12:00 given water", "5 09:00", "4 12:00"},
		{"water", "3 11:00 started bed", "5 09:00", "3 09:00"},
		{"dig", "", "5 09:00", ""},
		{"dig", "3 08:00 started dig", "5 09:00", ""},
		{"dig", dug, "5 09:00", "3 14:00"},
		{"dig", "3 11:00 started bed", "5 09:00", "3 09:00"},
		{"edge", "3 08:00 started edge, 3 09:00 finished edge", "5 09:00", "3 10:30"}, // cured 90 minutes
		{"base", based, "5 09:00", ""},
		{"base", based + ", 3 15:00 signed base", "5 09:00", "3 15:00"},
	} {
		p := read(t, strings.Replace(court, "unload: 30m}", "unload: 30m, after: ["+c.after+"]}", 1))
		p.Tasks[4].Cure = 90
		lines := []string{"3 09:00 arrived stone"}
		if c.log != "" {
			lines = append(lines, strings.Split(c.log, ", ")...)
		}
		was := progress.At(p, plans.Log(t, p, lines...), nil, at(p, c.now)).Plan.Progress.Deliveries[0]
		want := calendars.Instant(0)
		if c.start != "" {
			want = at(p, c.start)
		}
		if was.Start != want || c.start != "" && was.Finish != want+30 {
			t.Errorf("after %s, %q: unloaded %d to %d, not from %d", c.after, c.log, was.Start, was.Finish, want)
		}
	}
}
