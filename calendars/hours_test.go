package calendars_test

import (
	"testing"
	"time"

	"build.example/turflast/calendars"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// ranges reads "07:00-12:00 12:30-18:00".
func ranges(tb testing.TB, text string) []calendars.Range {
	tb.Helper()
	r, err := calendars.ParseRanges(text)
	if err != nil {
		tb.Fatal(err)
	}
	return r
}

// weekly opens the days of each key, such as "mon-fri".
func weekly(tb testing.TB, hours map[string]string) calendars.WeekHours {
	tb.Helper()
	var week calendars.WeekHours
	for days, text := range hours {
		list, err := calendars.ParseDays(days)
		if err != nil {
			tb.Fatal(err)
		}
		for _, d := range list {
			week[d] = ranges(tb, text)
		}
	}
	return week
}

// listed writes openings as the clocks of loc show them.
func listed(spans []Span, loc *time.Location) []string {
	var out []string
	for _, s := range spans {
		out = append(out, s.Start.In(loc).Format("Mon 2 Jan 15:04")+" to "+s.End.In(loc).Format("Mon 2 Jan 15:04"))
	}
	return out
}

// holidays: Mon 3 May 2027 all day, Thu 6 May from 12:00.
func holidays(d calendars.Date) Minutes {
	switch d.String() {
	case "2027-05-03":
		return 0
	case "2027-05-06":
		return 12 * 60
	}
	return calendars.Day
}

func TestOpenings(t *testing.T) {
	london := zone(t, "Europe/London")
	on := func(date, text string) calendars.DayHours {
		d, err := calendars.ParseDate(date)
		if err != nil {
			t.Fatal(err)
		}
		return calendars.DayHours{On: d, Ranges: ranges(t, text)}
	}
	closed := func(from, to string) calendars.Closure {
		return calendars.Closure{Span: Span{Start: moment(t, london, from), End: moment(t, london, to)}}
	}
	week := weekly(t, map[string]string{"mon-fri": "07:00-12:00 12:30-18:00"})
	for _, c := range []struct {
		name     string
		hours    calendars.Hours
		from, to string
		kept     calendars.HolidayFrom
		want     []string
	}{
		{"nothing said", calendars.Hours{}, "2027-05-03 00:00", "2027-06-03 00:00", nil, nil},
		{"cut to the line", calendars.Hours{Weekly: week}, "2027-05-04 08:00", "2027-05-04 13:00", nil,
			[]string{"Tue 4 May 08:00 to Tue 4 May 12:00", "Tue 4 May 12:30 to Tue 4 May 13:00"}},
		{"an empty line", calendars.Hours{Weekly: week}, "2027-05-04 08:00", "2027-05-04 08:00", nil, nil},
		{"holidays close, one in part", calendars.Hours{Weekly: week}, "2027-05-01 00:00", "2027-05-07 00:00", holidays,
			[]string{"Tue 4 May 07:00 to Tue 4 May 12:00", "Tue 4 May 12:30 to Tue 4 May 18:00",
				"Wed 5 May 07:00 to Wed 5 May 12:00", "Wed 5 May 12:30 to Wed 5 May 18:00", "Thu 6 May 07:00 to Thu 6 May 12:00"}},
		{"a date of its own opens a holiday",
			calendars.Hours{On: []calendars.DayHours{on("2027-05-03", "09:00-15:00"), on("2027-05-06", "11:00-13:00")}},
			"2027-05-01 00:00", "2027-05-07 00:00", holidays,
			[]string{"Mon 3 May 09:00 to Mon 3 May 15:00", "Thu 6 May 11:00 to Thu 6 May 13:00"}},
		{"a date of its own closes a day",
			calendars.Hours{Weekly: week, On: []calendars.DayHours{on("2027-05-04", "closed")}},
			"2027-05-04 00:00", "2027-05-05 10:00", nil, []string{"Wed 5 May 07:00 to Wed 5 May 10:00"}},
		{"closures, also over each other and over a date of its own",
			calendars.Hours{Weekly: week, On: []calendars.DayHours{on("2027-05-05", "06:00-20:00")},
				Closed: []calendars.Closure{closed("2027-05-05 12:00", "2027-05-05 14:00"),
					closed("2027-05-04 08:00", "2027-05-05 07:00"),
					closed("2027-05-04 09:00", "2027-05-04 10:00"), closed("2027-05-05 13:00", "2027-05-05 15:00")}},
			"2027-05-04 00:00", "2027-05-06 00:00", nil,
			[]string{"Tue 4 May 07:00 to Tue 4 May 08:00",
				"Wed 5 May 07:00 to Wed 5 May 12:00", "Wed 5 May 15:00 to Wed 5 May 20:00"}},
		{"a night shift is one opening",
			calendars.Hours{Weekly: weekly(t, map[string]string{"fri": "22:00-24:00", "sat": "00:00-06:00"})},
			"2027-05-03 00:00", "2027-05-10 00:00", nil, []string{"Fri 7 May 22:00 to Sat 8 May 06:00"}},
		{"ranges that touch are one opening",
			calendars.Hours{Weekly: weekly(t, map[string]string{"tue": "07:00-12:00 12:00-13:00"})},
			"2027-05-03 00:00", "2027-05-10 00:00", nil, []string{"Tue 4 May 07:00 to Tue 4 May 13:00"}},
		{"skipped ends move to the jump",
			calendars.Hours{Weekly: weekly(t, map[string]string{"sun": "00:15-01:15 01:20-01:40 01:45-03:00"})},
			"2027-03-22 00:00", "2027-03-29 00:00", nil, []string{"Sun 28 Mar 00:15 to Sun 28 Mar 03:00"}},
		{"repeated ends are the first", calendars.Hours{Weekly: weekly(t, map[string]string{"sun": "00:30-01:30"})},
			"2027-10-25 00:00", "2027-11-01 00:00", nil, []string{"Sun 31 Oct 00:30 to Sun 31 Oct 01:30"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			line := Span{Start: moment(t, london, c.from), End: moment(t, london, c.to)}
			if diff := cmp.Diff(c.want, listed(c.hours.Openings(london, line, c.kept), london)); diff != "" {
				t.Error(diff)
			}
		})
	}
}

// In St John's the clocks went back from 00:01 on Sunday 7 November 2010 into
// Saturday (tz database). Saturday's late hour is shown again, and Sunday,
// which had begun, goes on through it.
func TestClocksBackOverMidnight(t *testing.T) {
	loc := zone(t, "America/St_Johns")
	sunday := moment(t, loc, "2010-11-07 00:00")
	h := calendars.Hours{Weekly: weekly(t, map[string]string{"sun": "00:00-24:00"})}
	line := Span{Start: sunday - 60, End: sunday + 30}
	if day := line.End.In(loc).Weekday(); day != time.Saturday {
		t.Fatalf("the line ends on a %v", day)
	}
	if diff := cmp.Diff([]Span{{Start: sunday, End: line.End}}, h.Openings(loc, line, nil)); diff != "" {
		t.Error(diff)
	}
}

// A day shift keeps its length over a change of the clocks; a night shift loses
// or gains the hour, since its ends are wall-clock times.
func TestShiftsOverAClockChange(t *testing.T) {
	for _, c := range []struct {
		zone, night string // the evening before the change
		worked      Minutes
	}{
		{"Australia/Melbourne", "2026-10-03", 7 * 60}, {"Australia/Melbourne", "2027-04-03", 9 * 60},
		{"Europe/London", "2027-03-27", 7 * 60}, {"Europe/London", "2027-10-30", 9 * 60},
	} {
		loc := zone(t, c.zone)
		start := moment(t, loc, c.night+" 12:00")
		line := Span{Start: start, End: start.Plus(36 * calendars.Hour)}
		night := calendars.Hours{Weekly: weekly(t, map[string]string{"sat": "22:00-24:00", "sun": "00:00-06:00"})}
		if got := calendars.New(night.Openings(loc, line, nil)).Total(); got != c.worked {
			t.Errorf("%s %s: the night shift has %d minutes, want %d", c.zone, c.night, got, c.worked)
		}
		day := calendars.Hours{Weekly: weekly(t, map[string]string{"sun": "07:00-18:00"})}
		if got := calendars.New(day.Openings(loc, line, nil)).Total(); got != 11*60 {
			t.Errorf("%s %s: the day shift has %d minutes, want 660", c.zone, c.night, got)
		}
	}
}

func drawRanges(t *rapid.T) []calendars.Range {
	var out []calendars.Range
	from := Minutes(0)
	for range rapid.IntRange(0, 3).Draw(t, "ranges") {
		r := calendars.Range{From: from + 15*Minutes(rapid.IntRange(0, 30).Draw(t, "from"))}
		r.To = r.From + 15*Minutes(rapid.IntRange(1, 40).Draw(t, "size"))
		if r.To > calendars.Day {
			break
		}
		out, from = append(out, r), r.To
	}
	return out
}

// Openings agree with a check of each minute: whether it lies between the first
// showings of a range's ends on any date.
func TestOpeningsAgreeWithEachMinute(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.SampledFrom(clockChanges).Draw(t, "change")
		loc, err := time.LoadLocation(c.zone)
		if err != nil {
			t.Fatal(err)
		}
		mid, _ := calendars.ParseDate(c.date)
		var h calendars.Hours
		for d := range h.Weekly {
			h.Weekly[d] = drawRanges(t)
		}
		origin := firstShowing(loc, mid-3, 0)
		const length = 6 * 1440
		for d := mid - 3; d < mid+3; d++ {
			if rapid.IntRange(0, 3).Draw(t, "own") == 0 {
				h.On = append(h.On, calendars.DayHours{On: d, Ranges: drawRanges(t)})
			}
		}
		for _, s := range drawSpans(t, origin, length) {
			h.Closed = append(h.Closed, calendars.Closure{Span: s})
		}
		holiday := mid + calendars.Date(rapid.IntRange(-2, 2).Draw(t, "holiday"))
		until := 15 * Minutes(rapid.IntRange(0, 96).Draw(t, "until"))
		holidays := func(d calendars.Date) Minutes {
			if d == holiday {
				return until
			}
			return calendars.Day
		}
		open := make([]bool, length)
		for d := mid - 4; d <= mid+4; d++ {
			for _, r := range rangesOn(h, d, holidays) {
				fill(open, origin, firstShowing(loc, d, r.From), firstShowing(loc, d, r.To), true)
			}
		}
		for _, s := range h.Closed {
			fill(open, origin, s.Span.Start, s.Span.End, false)
		}
		line := Span{Start: origin, End: origin + length}
		got := make([]bool, length)
		last := origin - 1
		for _, s := range h.Openings(loc, line, holidays) {
			if s.Start <= last || s.Start >= s.End || s.End > line.End {
				t.Fatalf("%v after %d is out of order, touching, empty or beyond the line", s, last)
			}
			last = s.End
			fill(got, origin, s.Start, s.End, true)
		}
		for i := range open {
			if open[i] != got[i] {
				t.Fatalf("minute %s: open %v, want %v", shown(origin+Instant(i), loc), got[i], open[i])
			}
		}
	})
}

// rangesOn are the ranges that hold on a date, closures apart.
func rangesOn(h calendars.Hours, d calendars.Date, holidays calendars.HolidayFrom) []calendars.Range {
	if named, own := h.Named(d); own {
		return named.Ranges
	}
	var out []calendars.Range
	for _, r := range h.Weekly[d.Weekday()] {
		if r.To = min(r.To, holidays(d)); r.From < r.To {
			out = append(out, r)
		}
	}
	return out
}

func fill(minutes []bool, origin, from, to Instant, open bool) {
	for t := max(from, origin); t < min(to, origin+Instant(len(minutes))); t++ {
		minutes[t-origin] = open
	}
}

func TestOverPutsDatesAndClosuresOnTop(t *testing.T) {
	h := calendars.Hours{
		Weekly: weekly(t, map[string]string{"mon": "07:00-08:00"}),
		On:     []calendars.DayHours{{On: 10}, {On: 12, Ranges: ranges(t, "07:00-09:00")}},
		Closed: []calendars.Closure{{Why: "theirs"}},
	}
	own := []calendars.DayHours{{On: 11}, {On: 12, Ranges: ranges(t, "10:00-11:00")}}
	want := calendars.Hours{
		Weekly: h.Weekly,
		On:     []calendars.DayHours{{On: 10}, {On: 11}, {On: 12, Ranges: ranges(t, "10:00-11:00")}},
		Closed: []calendars.Closure{{Why: "theirs"}, {Why: "own"}},
	}
	if diff := cmp.Diff(want, h.Over(own, []calendars.Closure{{Why: "own"}})); diff != "" {
		t.Error(diff)
	}
}
