package safety_test

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/safety"
)

// day is the first of some days in a row.
var day = calendars.DateOf(2027, 5, 3)

// shift is a stretch of hours on the n-th day.
func shift(n calendars.Date, from, to calendars.Minutes) calendars.Span {
	midnight, _ := calendars.At(time.UTC, day+n, 0)
	return calendars.Span{Start: midnight.Plus(from * calendars.Hour), End: midnight.Plus(to * calendars.Hour)}
}

func TestFind(t *testing.T) {
	days := func(n int, from, to calendars.Minutes) (open []calendars.Span) {
		for i := range n {
			open = append(open, shift(calendars.Date(i), from, to))
		}
		return open
	}
	for _, c := range []struct {
		name string
		open []calendars.Span
		want []safety.Finding
	}{
		{"six days of eight hours", days(6, 8, 16), nil},
		{"a shift of 12 h", []calendars.Span{shift(0, 6, 18)}, nil},
		{"a shift of 13 h with a break", []calendars.Span{shift(0, 6, 12), shift(0, 13, 19)},
			[]safety.Finding{{Kind: safety.LongShift, Size: 13 * calendars.Hour, From: day, To: day}}},
		{"four hours off end a shift", []calendars.Span{shift(0, 4, 12), shift(0, 16, 20)},
			[]safety.Finding{{Kind: safety.ShortRest, Size: 4 * calendars.Hour, From: day, To: day}}},
		{"eleven hours of rest", []calendars.Span{shift(0, 12, 20), shift(1, 7, 15)}, nil},
		{"a short night", []calendars.Span{shift(0, 14, 22), shift(1, 6, 14)},
			[]safety.Finding{{Kind: safety.ShortRest, Size: 8 * calendars.Hour, From: day + 1, To: day + 1}}},
		{"eight days", days(8, 10, 14), []safety.Finding{
			{Kind: safety.NoDayOff, From: day, To: day + 6}, {Kind: safety.NoDayOff, From: day + 1, To: day + 7}}},
		{"five long days", days(5, 8, 18), []safety.Finding{
			{Kind: safety.LongWeek, Size: 50 * calendars.Hour, From: day, To: day + 4}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			if diff := cmp.Diff(c.want, safety.Find(c.open, time.UTC, safety.GuidanceFor("GB-ENG", time.UTC))); diff != "" {
				t.Error(diff)
			}
		})
	}
}

func TestFor(t *testing.T) {
	london, berlin := mustLoad(t, "Europe/London"), mustLoad(t, "Europe/Berlin")
	for _, c := range []struct {
		region string
		clock  *time.Location
		source string
	}{
		{"GB-SCT", time.UTC, "Working Time Regulations 1998"},
		{"", london, "Working Time Regulations 1998"},
		{"DE-BE", time.UTC, "Directive 2003/88/EC"},
		{"", berlin, "Directive 2003/88/EC"},
		{"AU-VIC", london, safety.ShiftSource},
		{"", time.UTC, safety.ShiftSource},
	} {
		if got := safety.GuidanceFor(c.region, c.clock).Source; got != c.source {
			t.Errorf("For(%q, %s) is by %q, want %q", c.region, c.clock, got, c.source)
		}
	}
}

func mustLoad(t *testing.T, name string) *time.Location {
	loc, err := time.LoadLocation(name)
	if err != nil {
		t.Fatal(err)
	}
	return loc
}
