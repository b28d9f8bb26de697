package worktime_test

import (
	"time"
	_ "time/tzdata" // the same zones whatever machine runs the tests

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// The garden of these tests opens on Fri 30 April 2027 at 07:00 and is handed
// over on Sat 8 May at 15:00; Mon 3 May is a holiday, Thu 6 May one from noon.
const (
	yard  = schedule.ZoneID(2)
	shed  = schedule.ZoneID(3)
	crew  = schedule.CrewID(0)
	other = schedule.CrewID(1)
)

func garden(tb tb) *schedule.Plan {
	tb.Helper()
	return &schedule.Plan{
		Site: schedule.Site{
			Location: london(tb), Opens: at(tb, "2027-04-30 07:00"), Handover: at(tb, "2027-05-08 15:00"),
			Holidays: []schedule.Holiday{{On: date(tb, "2027-05-03")}, {On: date(tb, "2027-05-06"), From: 12 * 60}},
			Hours:    hours(tb, "mon-fri", "07:00-12:00 12:30-18:00"),
		},
		Zones: []schedule.Zone{
			{People: 6}, {People: 5},
			{OffSite: true, From: at(tb, "2027-04-12 08:00"), Hours: hours(tb, "mon-fri", "08:00-17:00")},
			{OffSite: true, From: at(tb, "2027-04-05 08:00"), Hours: hours(tb, "mon-sun", "00:00-24:00")},
		},
		Crews:    []schedule.Crew{{People: 4}, {People: 3}},
		Machines: []schedule.Machine{{Count: 2, Places: 2}, {Count: 1}},
	}
}

// tb is what the helpers need of a test or of a drawn case.
type tb interface {
	Helper()
	Fatal(...any)
}

func london(tb tb) *time.Location {
	tb.Helper()
	loc, err := time.LoadLocation("Europe/London")
	if err != nil {
		tb.Fatal(err)
	}
	return loc
}

func at(tb tb, text string) calendars.Instant {
	tb.Helper()
	d, m, err := calendars.ParseMoment(text)
	if err != nil {
		tb.Fatal(err)
	}
	t, _ := calendars.At(london(tb), d, m)
	return t
}

func date(tb tb, text string) calendars.Date {
	tb.Helper()
	d, err := calendars.ParseDate(text)
	if err != nil {
		tb.Fatal(err)
	}
	return d
}

func ranges(tb tb, text string) []calendars.Range {
	tb.Helper()
	r, err := calendars.ParseRanges(text)
	if err != nil {
		tb.Fatal(err)
	}
	return r
}

func hours(tb tb, days, text string) calendars.Hours {
	tb.Helper()
	var h calendars.Hours
	list, err := calendars.ParseDays(days)
	if err != nil {
		tb.Fatal(err)
	}
	for _, d := range list {
		h.Weekly[d] = ranges(tb, text)
	}
	return h
}

func own(tb tb, day, text string) []calendars.DayHours {
	tb.Helper()
	return []calendars.DayHours{{On: date(tb, day), Ranges: ranges(tb, text)}}
}

func span(tb tb, from, to string) calendars.Span {
	tb.Helper()
	return calendars.Span{Start: at(tb, from), End: at(tb, to)}
}

func closed(tb tb, from, to string) []calendars.Closure {
	tb.Helper()
	return []calendars.Closure{{Span: span(tb, from, to)}}
}

// open lists the openings of a calendar from a date to another, as the clocks
// on site show them.
func open(tb tb, c *calendars.Calendar, from, to string) []string {
	tb.Helper()
	var out []string
	loc := london(tb)
	for s := range c.Openings(at(tb, from+" 00:00"), at(tb, to+" 00:00")) {
		out = append(out, s.Start.In(loc).Format("Mon 2 15:04")+"-"+s.End.In(loc).Format("15:04"))
	}
	return out
}

// wholeDay names the two ranges of a usual day.
func wholeDay(day string) []string { return []string{day + " 07:00-12:00", day + " 12:30-18:00"} }

func list(parts ...[]string) (all []string) {
	for _, p := range parts {
		all = append(all, p...)
	}
	return all
}
