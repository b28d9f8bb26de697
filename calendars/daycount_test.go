package calendars_test

import (
	"strings"
	"testing"
	"time"

	"build.example/turflast/calendars"

	"github.com/google/go-cmp/cmp"
)

// Public holidays near the dates below. Sources: Public Holidays Act 1993 (Vic)
// s 6; Public Holidays Act 2010 (NSW) s 4 and the order of February 2026 (27
// April 2026, 26 April 2027); Holidays Act 1983 (Qld) schedule; Holidays Act 2003
// (NZ) ss 45, 45A; for England the bank holidays published on gov.uk.
var holidaysNear = map[string]string{
	"Vic": "2026-01-26 2026-03-09 2026-04-03 2026-04-04 2026-04-05 2026-04-06 2026-04-25 " +
		"2026-12-25 2026-12-26 2026-12-28 2027-04-25 2027-12-25 2027-12-26 2027-12-27 2027-12-28",
	"NSW": "2026-04-03 2026-04-04 2026-04-05 2026-04-06 2026-04-25 2026-04-27 2026-12-25 " +
		"2026-12-26 2026-12-28 2027-04-25 2027-04-26 2027-12-25 2027-12-26 2027-12-27 2027-12-28",
	"Qld": "2026-04-03 2026-04-04 2026-04-05 2026-04-06 2026-04-25 2026-12-25 " +
		"2026-12-26 2026-12-28 2027-04-26 2027-12-25 2027-12-26 2027-12-27 2027-12-28",
	"NZ":      "2026-04-03 2026-04-06 2026-04-25 2026-04-27 2027-04-25 2027-04-26",
	"England": "2026-04-03 2026-04-06 2026-12-25 2026-12-28 2027-12-27 2027-12-28",
}

var zoneOf = map[string]string{
	"Vic": "Australia/Melbourne", "NSW": "Australia/Sydney",
	"Qld": "Australia/Brisbane", "NZ": "Pacific/Auckland", "England": "Europe/London",
}

// The days on which a task of some 8-hour days is worked in a week of Monday to
// Friday; computed by hand from the sources above.
func TestDaysWorkedOverHolidays(t *testing.T) {
	for _, c := range []struct {
		regions, start string
		days           Minutes
		worked         string
	}{
		{"Vic NSW Qld England NZ", "2026-04-02", 3, "Thu 2 Apr, Tue 7 Apr, Wed 8 Apr"},
		{"Vic Qld", "2026-04-24", 2, "Fri 24 Apr, Mon 27 Apr"},
		{"NSW NZ", "2026-04-24", 2, "Fri 24 Apr, Tue 28 Apr"},
		{"Vic", "2027-04-23", 2, "Fri 23 Apr, Mon 26 Apr"},
		{"NSW Qld NZ", "2027-04-23", 2, "Fri 23 Apr, Tue 27 Apr"},
		{"England Vic", "2026-12-24", 3, "Thu 24 Dec, Tue 29 Dec, Wed 30 Dec"},
		{"England Vic NSW", "2027-12-24", 2, "Fri 24 Dec, Wed 29 Dec"},
	} {
		for region := range strings.FieldsSeq(c.regions) {
			week := weekly(t, map[string]string{"mon-fri": "08:00-16:00"})
			if got := daysWorked(t, region, week, c.start, c.days*8*60); got != c.worked {
				t.Errorf("%s, %d days from %s: %s, want %s", region, c.days, c.start, got, c.worked)
			}
		}
	}
}

// A nine-day build worked every day from Wed 11 March 2026 ends on Thu 19 March:
// the Labour Day of Victoria, Mon 9 March, falls before it.
func TestNineDayBuild(t *testing.T) {
	week := weekly(t, map[string]string{"mon-sun": "07:00-18:00"})
	got := daysWorked(t, "Vic", week, "2026-03-11", 9*11*60)
	if want := "Wed 11 Mar, Thu 12 Mar, Fri 13 Mar, Sat 14 Mar, Sun 15 Mar, " +
		"Mon 16 Mar, Tue 17 Mar, Wed 18 Mar, Thu 19 Mar"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

func daysWorked(t *testing.T, region string, week calendars.WeekHours, start string, work Minutes) string {
	t.Helper()
	loc := zone(t, zoneOf[region])
	closed := map[string]bool{}
	for d := range strings.FieldsSeq(holidaysNear[region]) {
		closed[d] = true
	}
	holidays := func(d calendars.Date) Minutes {
		if closed[d.String()] {
			return 0
		}
		return calendars.Day
	}
	from := moment(t, loc, start+" 00:00")
	line := Span{Start: from.Plus(-calendars.Week), End: from.Plus(4 * calendars.Week)}
	c := calendars.New(calendars.Hours{Weekly: week}.Openings(loc, line, holidays))
	begin, end := c.Place(from, work)
	var days []string
	for s := range c.Openings(begin, end) {
		days = append(days, s.Start.In(loc).Format("Mon 2 Jan"))
	}
	return strings.Join(days, ", ")
}

// Ten hours from Friday 13:00, with days from 7 to 18 less half an hour at noon
// and Saturday from 7 to 13, are five on Friday and five on Saturday; computed
// by hand.
func TestTenHoursIntoAHalfDay(t *testing.T) {
	loc := zone(t, "Australia/Melbourne")
	h := calendars.Hours{Weekly: weekly(t, map[string]string{"mon-fri": "07:00-12:00 12:30-18:00", "sat": "07:00-13:00"})}
	friday := moment(t, loc, "2026-05-01 13:00")
	c := calendars.New(h.Openings(loc, Span{Start: friday.Plus(-calendars.Week), End: friday.Plus(calendars.Week)}, nil))
	start, finish := c.Place(friday, 10*calendars.Hour)
	want := []string{"Fri 1 May 13:00 to Fri 1 May 18:00", "Sat 2 May 07:00 to Sat 2 May 12:00"}
	var got []Span
	for s := range c.Openings(start, finish) {
		got = append(got, s)
	}
	if diff := cmp.Diff(want, listed(got, loc)); diff != "" {
		t.Error(diff)
	}
	if c.Between(start, finish) != 10*calendars.Hour || start.In(loc).Weekday() != time.Friday {
		t.Error("the hours between do not add up to the work")
	}
}
