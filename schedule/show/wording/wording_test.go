package wording_test

import (
	"strings"
	"testing"
	"time"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/show/wording"
)

const garden = `
garden: Words
site:
  timezone: Europe/London
  opens: 2027-04-30 07:00
  handover: 2027-05-08 15:00
  aim: 2027-05-08 11:00
  hours: {mon-fri: 07:00-12:00 12:30-18:00, sat: 08:00-16:00}
  loud_hours: {mon-fri: 08:00-17:00}
  gate: {at_once: 1, hours: {mon-fri: 07:00-10:00}}
zones:
  rear: {name: Rear terrace, people: 6, way_in: [lawn]}
  lawn: {name: Lawn, people: 6}
  yard: {name: Joiners' yard, off_site: true, from: 2027-04-19 08:00, hours: {mon-fri: 08:00-17:00}}
crews:
  joiners: {name: Joiners, people: 4}
  planting: {name: Planting crew, people: 4}
machines:
  crane: {name: Crane, count: 1}
givens:
  power: {what: mains power, from: 2027-05-03 12:00}
deliveries:
  larch: {what: larch frame, arrives: 2027-05-03 07:00, unload: 30m}
  turf: {what: 60 m2 turf, arrives: 2027-05-07 07:00, unload: {takes: 30m, crew: {planting: 2}, machines: {crane: 1}}, keep: 24h, waits: 20m}
  skip: {what: waste skip, arrives: 2027-05-07 09:00, unload: 20m, out: true, after: [lay]}
rules:
  - structure before cladding
tasks:
  cut: {name: Cut the frame, zone: yard, stage: structure, crew: {joiners: 2}, takes: 4h}
  frame: {name: Raise the frame, zone: rear, stage: structure, crew: {joiners: 2..3}, machines: {crane: 1}, takes: 9h, after: [cut], uses: [larch], cure: 12h, hold_point: engineer signs}
  board: {name: Board the frame, zone: [rear, lawn], stage: cladding, crew: {joiners: 2}, takes: 6h, after: [{task: frame, within: 4d}, power]}
  lay: {name: Lay the turf, zone: lawn, stage: turf, crew: {planting: 4}, takes: 2h, uses: [turf], by: 2027-05-07 12:00}
`

func plan(t *testing.T) *schedule.Plan {
	t.Helper()
	p, problems := planfile.Read(strings.NewReader(garden))
	if p == nil {
		t.Fatalf("the garden doesn't read: %v", problems)
	}
	return p
}

// at is a moment of May 2027 in London.
func at(p *schedule.Plan, day, hour, minute int) calendars.Instant {
	return calendars.InstantOf(time.Date(2027, time.May, day, hour, minute, 0, 0, p.Site.Location))
}

func TestMoments(t *testing.T) {
	p := plan(t)
	w := wording.New(p)
	noon := at(p, 4, 12, 0)
	tests := []struct{ what, got, want string }{
		{"moment", w.Moment(at(p, 4, 10, 30)), "Tue 4 May 10:30"},
		{"last year", w.Moment(calendars.InstantOf(time.Date(2026, time.December, 31, 9, 5, 0, 0, p.Site.Location))),
			"Thu 31 Dec 2026 09:05"},
		{"never", w.Moment(calendars.Never), "never"},
		{"not said", w.Moment(0), "never"},
		{"past", w.Moment(calendars.Past), "too early"},
		{"day", w.Day(calendars.DateOf(2027, time.May, 8)), "Sat 8 May"},
		{"time", w.Time(at(p, 4, 7, 5)), "07:05"},
		{"then, same day", w.Then(at(p, 4, 9, 0), noon), "09:00"},
		{"then, other day", w.Then(at(p, 5, 9, 0), noon), "Wed 5 May 09:00"},
		{"then, beside none", w.Then(at(p, 5, 9, 0), calendars.Never), "Wed 5 May 09:00"},
		{"span", w.Span(calendars.Span{Start: noon, End: noon + 90}), "Tue 4 May 12:00-13:30"},
		{"span over midnight", w.Span(calendars.Span{Start: noon, End: at(p, 5, 7, 0)}),
			"Tue 4 May 12:00 to Wed 5 May 07:00"},
		{"span of nothing", w.Span(calendars.Span{Start: noon, End: noon}), "Tue 4 May 12:00"},
	}
	for _, tt := range tests {
		if tt.got != tt.want {
			t.Errorf("%s: got %q, want %q", tt.what, tt.got, tt.want)
		}
	}
}

func TestLengths(t *testing.T) {
	w := wording.New(plan(t))
	tests := []struct {
		m           calendars.Minutes
		work, clock string
	}{
		{0, "0 m", "0 m"},
		{45, "45 m", "45 m"},
		{60, "1 h", "1 h"},
		{200, "3 h 20", "3 h 20"},
		{185, "3 h 05", "3 h 05"},
		{24 * 60, "24 h", "24 h"},
		{48*60 - 1, "47 h 59", "47 h 59"},
		{48 * 60, "48 h", "2 d"},
		{75*60 + 30, "75 h 30", "3 d 3 h 30"},
		{-90, "-1 h 30", "-1 h 30"},
	}
	for _, tt := range tests {
		if got := w.Work(tt.m); got != tt.work {
			t.Errorf("Work(%d) = %q, want %q", tt.m, got, tt.work)
		}
		if got := w.Clock(tt.m); got != tt.clock {
			t.Errorf("Clock(%d) = %q, want %q", tt.m, got, tt.clock)
		}
	}
}

func TestTeams(t *testing.T) {
	p := plan(t)
	w := wording.New(p)
	tests := []struct{ what, got, want string }{
		{"heads given", w.Team(1, []int{3}), "Joiners 3, Crane 1"},
		{"heads not given", w.Team(1, nil), "Joiners 2, Crane 1"},
		{"nobody", w.Team(1, []int{0}), "Crane 1"},
		{"unloading", w.UnloadTeam(1), "Planting crew 2, Crane 1"},
		{"by its driver", w.UnloadTeam(0), ""},
		{"where", w.Where(2), "Rear terrace and Lawn"},
		{"zones", w.Zones([]schedule.ZoneID{0, 1, 2}), "Rear terrace, Lawn and Joiners' yard"},
	}
	for _, tt := range tests {
		if tt.got != tt.want {
			t.Errorf("%s: got %q, want %q", tt.what, tt.got, tt.want)
		}
	}
	if c := w.Caution("lifting"); !strings.HasSuffix(c, "local codes and licensed practice.") {
		t.Errorf("caution %q", c)
	}
	if c := w.Caution("dragons"); c != "" {
		t.Errorf("caution for dragons: %q", c)
	}
}

func TestFloats(t *testing.T) {
	p := plan(t)
	w := wording.New(p)
	some := at(p, 4, 7, 0)
	tests := []struct {
		total, free      calendars.Minutes
		scope            schedule.Scope
		figure, sentence string
	}{
		{200, 200, schedule.Logic, "3 h 20", "It may slip 3 h 20 with hands unlimited, and nothing else moves."},
		{200, 260, schedule.Logic, "3 h 20", "It may slip 3 h 20 with hands unlimited, and nothing else moves."},
		{200, 60, schedule.Logic, "3 h 20",
			"It may slip 3 h 20 with hands unlimited; beyond 1 h other work or the finish moves."},
		{200, 0, schedule.Logic, "3 h 20",
			"It may slip 3 h 20 with hands unlimited; other work or the finish moves with it."},
		{0, 0, schedule.Crews, "none", "It may not slip at all."},
		{-90, 0, schedule.Crews, "1 h 30 short", "It starts 1 h 30 too late for every date to be met."},
		{0, 0, schedule.Logic, "none", "It may not slip at all."},
		{-90, 0, schedule.Logic, "1 h 30 short", "It starts 1 h 30 too late for every date to be met."},
		{schedule.FreeRange, 0, schedule.Logic, "any", "It may slip as far as you like."},
		{schedule.NoFloat, 0, schedule.Logic, "gone", "It can't start early enough for every date to be met."},
	}
	for _, tt := range tests {
		g := &schedule.Programme{
			Scope: tt.scope,
			Tasks: []schedule.TaskDates{{Dates: schedule.Dates{Start: some, TotalFloat: tt.total, FreeFloat: tt.free}}},
		}
		if got := w.Figure(tt.total); got != tt.figure {
			t.Errorf("figure of %d: %q, want %q", tt.total, got, tt.figure)
		}
		if got := w.Float(g, 0); got != tt.sentence {
			t.Errorf("float of %d, %d: %q, want %q", tt.total, tt.free, got, tt.sentence)
		}
		g.Unloads = []schedule.UnloadDates{{Dates: schedule.Dates{Start: some, TotalFloat: tt.total, FreeFloat: tt.free}}}
		if got, want := w.FloatUnload(g, 0), "Its unloading"+strings.TrimPrefix(tt.sentence, "It"); got != want {
			t.Errorf("float of an unloading: %q, want %q", got, want)
		}
	}
	loading := &schedule.Programme{Unloads: []schedule.UnloadDates{{}, {}, {Dates: schedule.Dates{Start: some}}}}
	if got := w.FloatUnload(loading, 2); got != "Its loading may not slip at all." {
		t.Errorf("float of a loading: %q", got)
	}
	g := &schedule.Programme{
		Tasks: []schedule.TaskDates{{Dates: schedule.Dates{Start: calendars.Never}},
			{Dates: schedule.Dates{Start: some}, Dropped: true}},
		Unloads: []schedule.UnloadDates{{Dates: schedule.Dates{Start: calendars.Never}}},
	}
	if got := w.Float(g, 1); got != "Left out, it has no float." {
		t.Errorf("left out: %q", got)
	}
	for _, got := range []string{w.Float(g, 0), w.FloatUnload(g, 0)} {
		if got != "No dates, so no float." {
			t.Errorf("without dates: %q", got)
		}
	}
}

func TestWeatherSaysHowLongWorkWaits(t *testing.T) {
	p := plan(t)
	p.Site.Wet = &schedule.WetDays{Dries: 120}
	cut, frame, board := p.FindTask("cut"), p.FindTask("frame"), p.FindTask("board")
	longer := calendars.Minutes(180)
	p.Tasks[cut].Weather, p.Tasks[frame].Weather = schedule.Dry, schedule.Dry
	p.Tasks[frame].Dries, p.Tasks[board].Dries = &longer, &longer
	for _, c := range []struct {
		tasks []schedule.TaskID
		want  string
	}{
		{[]schedule.TaskID{board}, ""},
		{[]schedule.TaskID{cut, board}, "Must be dry for Cut the frame: " +
			"stop when it rains, and for the first 2 h of the day after a wet one."},
		{[]schedule.TaskID{frame}, "Must be dry for Raise the frame: " +
			"stop when it rains, and for the first 3 h of the day after a wet one."},
		{[]schedule.TaskID{frame, cut}, "Must be dry for Cut the frame and Raise the frame: " +
			"stop when it rains, and after a wet day for up to the first 3 h, " +
			"each task as long as its plan says."},
	} {
		if got := wording.New(p).Weather(c.tasks); got != c.want {
			t.Errorf("%v: %q, want %q", c.tasks, got, c.want)
		}
	}
}
