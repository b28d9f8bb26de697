package calendars_test

import (
	"fmt"
	"testing"
	"time"
	_ "time/tzdata" // the same zones whatever machine runs the tests

	"build.example/turflast/calendars"

	"pgregory.net/rapid"
)

func zone(tb testing.TB, name string) *time.Location {
	tb.Helper()
	loc, err := time.LoadLocation(name)
	if err != nil {
		tb.Fatal(err)
	}
	return loc
}

// moment is the instant of "2027-04-30 07:00" in loc.
func moment(tb testing.TB, loc *time.Location, text string) Instant {
	tb.Helper()
	d, m, err := calendars.ParseMoment(text)
	if err != nil {
		tb.Fatal(err)
	}
	t, _ := calendars.At(loc, d, m)
	return t
}

// shown is what the clocks of loc show.
func shown(t Instant, loc *time.Location) string { return t.In(loc).Format("2006-01-02 15:04") }

// clockChanges are the days on which the clocks change. Source: the tz database
// (zones Australia/Melbourne and Europe/London, release 2025b); for the United
// Kingdom also the published rule, last Sunday of March 01:00 to last Sunday of
// October 02:00 (gov.uk), and for Victoria first Sunday of October to first
// Sunday of April (Summer Time Act 1972).
var clockChanges = []struct {
	zone, date string
	from, to   string // the clocks go from this time to that
}{
	{"Australia/Melbourne", "2026-04-05", "03:00", "02:00"},
	{"Australia/Melbourne", "2026-10-04", "02:00", "03:00"},
	{"Australia/Melbourne", "2027-04-04", "03:00", "02:00"},
	{"Australia/Melbourne", "2027-10-03", "02:00", "03:00"},
	{"Australia/Melbourne", "2028-04-02", "03:00", "02:00"},
	{"Australia/Melbourne", "2028-10-01", "02:00", "03:00"},
	{"Europe/London", "2026-03-29", "01:00", "02:00"},
	{"Europe/London", "2026-10-25", "02:00", "01:00"},
	{"Europe/London", "2027-03-28", "01:00", "02:00"},
	{"Europe/London", "2027-10-31", "02:00", "01:00"},
	{"Europe/London", "2028-03-26", "01:00", "02:00"},
	{"Europe/London", "2028-10-29", "02:00", "01:00"},
}

func TestClockChangeDays(t *testing.T) {
	for _, c := range clockChanges {
		t.Run(c.zone+" "+c.date, func(t *testing.T) {
			loc := zone(t, c.zone)
			d, err := calendars.ParseDate(c.date)
			if err != nil {
				t.Fatal(err)
			}
			from, _ := calendars.ParseClock(c.from)
			to, _ := calendars.ParseClock(c.to)
			start, _ := calendars.At(loc, d, 0)
			end, _ := calendars.At(loc, d, calendars.Day)
			if got, want := end-start, Instant(calendars.Day-(to-from)); got != want {
				t.Errorf("the day has %d minutes, want %d", got, want)
			}
			for m := Minutes(0); m < calendars.Day; m++ {
				want := calendars.Plain
				switch {
				case from <= m && m < to:
					want = calendars.Skipped
				case to <= m && m < from:
					want = calendars.Repeated
				}
				at, got := calendars.At(loc, d, m)
				if got != want {
					t.Fatalf("%s is %v, want %v", calendars.FormatClock(m), got, want)
				}
				show := fmt.Sprintf("%s %s", d, calendars.FormatClock(m))
				if want == calendars.Skipped {
					show = c.date + " " + c.to
				}
				if shown(at, loc) != show {
					t.Fatalf("at %s the clocks show %s, want %s", calendars.FormatClock(m), shown(at, loc), show)
				}
				if want == calendars.Repeated && shown(at+60, loc) != show {
					t.Fatalf("%s is not the first of the two", show)
				}
			}
		})
	}
}

// No other day of these years has a skipped or repeated time, in these zones.
func TestOtherDaysHaveTwentyFourHours(t *testing.T) {
	changes := map[string]bool{}
	for _, c := range clockChanges {
		changes[c.zone+c.date] = true
	}
	for _, name := range []string{"Australia/Melbourne", "Europe/London"} {
		loc := zone(t, name)
		for d := calendars.DateOf(2026, time.January, 1); d < calendars.DateOf(2029, time.January, 1); d++ {
			start, _ := calendars.At(loc, d, 0)
			end, _ := calendars.At(loc, d+1, 0)
			if (end-start != Instant(calendars.Day)) != changes[name+d.String()] {
				t.Errorf("%s %s has %d minutes", name, d, end-start)
			}
		}
	}
}

// A wait of one day from 14:00 ends an hour later by the clocks when they go
// forward in between, and an hour earlier when they go back.
func TestDayOnTheClockOverAChange(t *testing.T) {
	for _, c := range []struct{ zone, from, to string }{
		{"Australia/Melbourne", "2026-10-03 14:00", "2026-10-04 15:00"},
		{"Australia/Melbourne", "2027-04-03 14:00", "2027-04-04 13:00"},
		{"Europe/London", "2027-03-27 14:00", "2027-03-28 15:00"},
		{"Europe/London", "2027-10-30 14:00", "2027-10-31 13:00"},
		{"Australia/Brisbane", "2026-10-03 14:00", "2026-10-04 14:00"}, // no summer time
	} {
		loc := zone(t, c.zone)
		if got := shown(moment(t, loc, c.from).Plus(calendars.Day), loc); got != c.to {
			t.Errorf("%s %s and a day: %s, want %s", c.zone, c.from, got, c.to)
		}
	}
}

// Zones whose clocks change in ways that the two above never do; all from the
// tz database.
func TestOddZones(t *testing.T) {
	for _, c := range []struct {
		zone, at, show string
		clock          calendars.Clock
	}{
		{"Pacific/Apia", "2011-12-30 12:00", "2011-12-31 00:00", calendars.Skipped}, // the whole date is skipped
		{"Pacific/Apia", "2011-12-30 00:00", "2011-12-31 00:00", calendars.Skipped},
		{"Pacific/Apia", "2011-12-29 23:59", "2011-12-29 23:59", calendars.Plain},
		{"Australia/Lord_Howe", "2026-10-04 02:15", "2026-10-04 02:30", calendars.Skipped}, // half an hour
		{"Australia/Lord_Howe", "2026-04-05 01:45", "2026-04-05 01:45", calendars.Repeated},
		{"America/Santiago", "2026-09-06 00:30", "2026-09-06 01:00", calendars.Skipped}, // at midnight
		{"America/Santiago", "2026-04-04 23:30", "2026-04-04 23:30", calendars.Repeated},
		{"Asia/Kathmandu", "2026-05-01 00:00", "2026-05-01 00:00", calendars.Plain},
		{"UTC", "2026-05-01 00:00", "2026-05-01 00:00", calendars.Plain},
	} {
		loc := zone(t, c.zone)
		d, m, err := calendars.ParseMoment(c.at)
		if err != nil {
			t.Fatal(err)
		}
		at, clock := calendars.At(loc, d, m)
		if got := shown(at, loc); got != c.show || clock != c.clock {
			t.Errorf("%s %s: %s, %v; want %s, %v", c.zone, c.at, got, clock, c.show, c.clock)
		}
	}
}

// firstShowing finds, minute by minute, when the clocks first show a time of a
// date or a later one: the time itself, or the jump over it.
func firstShowing(loc *time.Location, d calendars.Date, m Minutes) Instant {
	y, month, day := d.Civil()
	wall := time.Date(y, month, day, 0, int(m), 0, 0, time.UTC)
	for t := calendars.InstantOf(wall) - Instant(calendars.Day); ; t++ {
		local := t.In(loc)
		y, month, day := local.Date()
		if !time.Date(y, month, day, local.Hour(), local.Minute(), 0, 0, time.UTC).Before(wall) {
			return t
		}
	}
}

func TestAtIsTheFirstShowing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.SampledFrom(clockChanges).Draw(t, "change")
		zone := rapid.SampledFrom([]string{c.zone, "Pacific/Apia", "Australia/Lord_Howe"}).Draw(t, "zone")
		loc, err := time.LoadLocation(zone)
		if err != nil {
			t.Fatal(err)
		}
		d, _ := calendars.ParseDate(c.date)
		d += calendars.Date(rapid.IntRange(-1, 1).Draw(t, "day"))
		m := Minutes(rapid.IntRange(0, 1440).Draw(t, "minute"))
		got, _ := calendars.At(loc, d, m)
		want(t, "At", got, firstShowing(loc, d, m))
	})
}

func TestInstants(t *testing.T) {
	utc := time.UTC
	if got := calendars.InstantOf(time.Date(1969, 12, 31, 23, 59, 30, 0, utc)); got != -1 {
		t.Errorf("half a minute before 1970 is %d, want -1", got)
	}
	if got := calendars.InstantOf(time.Date(1970, 1, 1, 0, 1, 59, 0, utc)); got != 1 {
		t.Errorf("119 s after 1970 is %d, want 1", got)
	}
	for _, c := range []struct {
		t    Instant
		m    Minutes
		want Instant
	}{
		{100, 20, 120}, {100, -20, 80}, {calendars.Never, -5, calendars.Never}, {calendars.Past, 5, calendars.Past},
		{calendars.Never - 1, 1, calendars.Never}, {calendars.Never - 5, 1 << 30, calendars.Never},
		{calendars.Past + 1, -1, calendars.Past}, {calendars.Past + 9, -1 << 31, calendars.Past}, {0, 7, 7},
	} {
		if got := c.t.Plus(c.m); got != c.want {
			t.Errorf("%d.Plus(%d) = %d, want %d", c.t, c.m, got, c.want)
		}
	}
	for _, x := range []Instant{0, calendars.Past, calendars.Never} {
		if x.IsReal() {
			t.Errorf("%d counts as a moment", x)
		}
	}
	if !Instant(1).IsReal() || (Span{3, 5}).Minutes() != 2 || !(Span{3, 5}).Holds(3) || (Span{3, 5}).Holds(5) {
		t.Error("spans are half-open")
	}
}

func TestDates(t *testing.T) {
	for d := calendars.DateOf(1999, time.December, 25); d < calendars.DateOf(2032, time.January, 5); d++ {
		y, m, day := d.Civil()
		std := time.Date(y, m, day, 0, 0, 0, 0, time.UTC)
		if calendars.DateOf(y, m, day) != d || d.Weekday() != std.Weekday() || d.String() != std.Format(time.DateOnly) {
			t.Fatalf("%d: %s, %v", d, d, d.Weekday())
		}
	}
	if w := calendars.Date(-1).Weekday(); w != time.Wednesday {
		t.Errorf("1969-12-31 was a %v", w)
	}
	loc := zone(t, "Australia/Melbourne")
	if d := calendars.DateIn(moment(t, loc, "2027-04-30 00:00"), loc); d.String() != "2027-04-30" {
		t.Errorf("midnight belongs to %s", d)
	}
}
