package calendars_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"build.example/turflast/calendars"

	"pgregory.net/rapid"
)

// readers write what they accept back as text.
var readers = map[string]func(text string) (back string, err error){
	"ranges": func(text string) (string, error) {
		r, err := calendars.ParseRanges(text)
		return calendars.FormatRanges(r), err
	},
	"range": func(text string) (string, error) {
		r, err := calendars.ParseRange(text)
		return r.String(), err
	},
	"days": func(text string) (string, error) {
		days, err := calendars.ParseDays(text)
		var names []string
		for _, d := range days {
			names = append(names, strings.ToLower(d.String()[:3]))
		}
		if len(names) > 1 {
			return names[0] + "-" + names[len(names)-1], err
		}
		return strings.Join(names, ""), err
	},
	"date": func(text string) (string, error) {
		d, err := calendars.ParseDate(text)
		return d.String(), err
	},
	"moment": func(text string) (string, error) {
		d, m, err := calendars.ParseMoment(text)
		return d.String() + " " + calendars.FormatClock(m), err
	},
	"clock": func(text string) (string, error) {
		m, err := calendars.ParseClock(text)
		return calendars.FormatClock(m), err
	},
	"end": func(text string) (string, error) {
		m, err := calendars.ParseEnd(text)
		return calendars.FormatClock(m), err
	},
	"work": func(text string) (string, error) {
		m, err := calendars.ParseWork(text)
		return fmt.Sprint(m), err
	},
	"lag": func(text string) (string, error) {
		m, err := calendars.ParseLag(text)
		return fmt.Sprint(m), err
	},
	"wait": func(text string) (string, error) {
		m, err := calendars.ParseWait(text)
		return fmt.Sprint(m), err
	},
}

func TestTextAccepted(t *testing.T) {
	for _, c := range []struct{ reader, text, back string }{
		{"ranges", "07:00-12:00", ""}, {"ranges", "07:00-12:00 12:30-18:00", ""}, {"ranges", "closed", ""},
		{"ranges", "00:00-24:00", ""}, {"ranges", "00:00-06:00 22:00-24:00", ""}, {"ranges", "07:00-12:00 12:00-13:00", ""},
		{"range", "07:00-08:00", ""}, {"range", "23:59-24:00", ""},
		{"days", "mon", ""}, {"days", "mon-fri", ""}, {"days", "sat-sun", ""}, {"days", "mon-sun", ""}, {"days", "sun", ""},
		{"date", "2027-04-30", ""}, {"date", "2028-02-29", ""}, {"date", "2000-01-01", ""}, {"date", "2199-12-31", ""},
		{"moment", "2027-04-30 07:00", ""}, {"moment", "2027-04-30 00:00", ""}, {"moment", "2027-04-30 23:59", ""},
		{"clock", "00:00", ""}, {"clock", "23:59", ""}, {"end", "24:00", ""}, {"end", "07:05", ""},
		{"work", "0m", "0"}, {"work", "30m", "30"}, {"work", "90m", "90"}, {"work", "4h", "240"}, {"work", "7h30m", "450"},
		{"work", "8736h", "524160"}, {"work", "1h1m", "61"},
		{"lag", "1h", "60"}, {"lag", "-1h", "-60"}, {"lag", "-1h30m", "-90"}, {"lag", "0m", "0"},
		{"wait", "24h", "1440"}, {"wait", "2d", "2880"}, {"wait", "6w", "60480"},
		{"wait", "52w", "524160"}, {"wait", "12h30m", "750"},
	} {
		if c.back == "" {
			c.back = c.text
		}
		if back, err := readers[c.reader](c.text); err != nil || back != c.back {
			t.Errorf("%s %q: %q, %v; want %q", c.reader, c.text, back, err, c.back)
		}
	}
}

// Hints that several refusals give.
const (
	hintRanges = "write like 07:00-12:00 12:30-18:00 with one space between ranges, or closed"
	hintOne    = "write like 07:00-12:00, without spaces inside"
	hintDays   = "write a day like mon or a run of days like mon-fri: mon, tue, wed, thu, fri, sat, sun"
	hintDate   = "write the year, month and day like 2027-04-30"
	hintClock  = "write hours and minutes in two digits each like 07:00"
	hintBounds = "hours run from 00 to 23 and minutes from 00 to 59; a day ends at 24:00"
	hintWork   = "write a whole number of m or h, like 30m, 4h or 7h30m"
	hintWait   = "write a whole number of m, h, d or w, like 30m, 7h30m, 2d or 6w"
)

var refusals = []struct{ reader, text, message string }{
	{"ranges", "", `"" is not a list of hours; ` + hintRanges},
	{"ranges", "07:00-12:00  13:00-14:00", `"07:00-12:00  13:00-14:00" is not a list of hours; ` + hintRanges},
	{"ranges", " 07:00-12:00", `" 07:00-12:00" is not a list of hours; ` + hintRanges},
	{"ranges", "07:00-12:00,13:00-14:00", `"07:00-12:00,13:00-14:00" is not a range of hours; ` + hintOne},
	{"ranges", "07:00 - 12:00", `"07:00" is not a range of hours; ` + hintOne},
	{"ranges", "Closed", `"Closed" is not a range of hours; ` + hintOne},
	{"ranges", "closed 07:00-12:00", `"closed" is not a range of hours; ` + hintOne},
	{"ranges", "7:00-12:00", `"7:00-12:00" is not a range of hours; ` + hintOne},
	{"ranges", "07:00-12:00 11:30-18:00",
		`"11:30-18:00" starts before 07:00-12:00 ends; put the ranges in order, without overlap`},
	{"ranges", "12:30-18:00 07:00-12:00",
		`"07:00-12:00" starts before 12:30-18:00 ends; put the ranges in order, without overlap`},
	{"ranges", "22:00-06:00",
		`"22:00-06:00" crosses midnight or runs backwards; ` +
			`end it by 24:00 and give the next day 00:00-06:00 for a night shift`},
	{"range", "22:00-00:00", `"22:00-00:00" crosses midnight or runs backwards; write 24:00 for the end of the day`},
	{"range", "07:00-07:00", `"07:00-07:00" is empty; end it after it starts`},
	{"range", "24:00-24:00", `"24:00" is an end only; write 00:00 of the next day`},
	{"range", "07:00-24:01", `"24:01" is not a time of day; ` + hintBounds},
	{"range", "07:00-12:60", `"12:60" is not a time of day; ` + hintBounds},
	{"range", "07.00-12.00", `"07.00" is not a time of day; ` + hintClock},
	{"range", "07:00_12:00", `"07:00_12:00" is not a range of hours; ` + hintOne},
	{"days", "monday", `"monday" is not a day of the week; ` + hintDays},
	{"days", "Mon", `"Mon" is not a day of the week; ` + hintDays},
	{"days", "mon-", `"mon-" is not a day of the week; ` + hintDays},
	{"days", "mon-tue-wed", `"mon-tue-wed" is not a day of the week; ` + hintDays},
	{"days", "mon,tue", `"mon,tue" is not a day of the week; ` + hintDays},
	{"days", "", `"" is not a day of the week; ` + hintDays},
	{"days", "mon-mon", `"mon-mon" is a run of one day; write mon`},
	{"days", "fri-mon",
		`"fri-mon" runs past the end of the week; a week runs from mon to sun: write the days before and after it apart`},
	{"date", "30-04-2027", `"30-04-2027" is not a date; ` + hintDate},
	{"date", "2027-4-30", `"2027-4-30" is not a date; ` + hintDate},
	{"date", "2027/04/30", `"2027/04/30" is not a date; ` + hintDate},
	{"date", "2027-04-3o", `"2027-04-3o" is not a date; ` + hintDate},
	{"date", "2027-+4-30", `"2027-+4-30" is not a date; ` + hintDate},
	{"date", "２027-04-3", `"２027-04-3" is not a date; ` + hintDate},
	{"date", "1999-12-31", `"1999-12-31" is out of range; years run from 2000 to 2199`},
	{"date", "0207-04-30", `"0207-04-30" is out of range; years run from 2000 to 2199`},
	{"date", "2200-01-01", `"2200-01-01" is out of range; years run from 2000 to 2199`},
	{"date", "2027-13-01", `"2027-13-01" names no month; months run from 01 to 12`},
	{"date", "2027-00-01", `"2027-00-01" names no month; months run from 01 to 12`},
	{"date", "2027-04-31", `"2027-04-31" is a day that does not exist; that month has the days 01 to 30`},
	{"date", "2027-02-29", `"2027-02-29" is a day that does not exist; that month has the days 01 to 28`},
	{"date", "2027-02-00", `"2027-02-00" is a day that does not exist; that month has the days 01 to 28`},
	{"date", "2027-12-99", `"2027-12-99" is a day that does not exist; that month has the days 01 to 31`},
	{"moment", "2027-04-30", `"2027-04-30" lacks the time of day; write like 2027-04-30 07:00`},
	{"moment", "tomorrow", `"tomorrow" is not a date and time; write like 2027-04-30 07:00`},
	{"moment", "2027-04-30T07:00", `"2027-04-30T07:00" is not a date and time; write like 2027-04-30 07:00`},
	{"moment", "2027-04-30 7:00", `"7:00" is not a time of day; ` + hintClock},
	{"moment", "2027-04-30  07:00", `" 07:00" is not a time of day; ` + hintClock},
	{"moment", "2027-04-31 07:00", `"2027-04-31" is a day that does not exist; that month has the days 01 to 30`},
	{"moment", "2027-04-30 24:00", `"24:00" is an end only; write 00:00 of the next day`},
	{"moment", "2027-04-30 07:00:00", `"07:00:00" is not a time of day; ` + hintClock},
	{"clock", "24:00", `"24:00" is an end only; write 00:00 of the next day`},
	{"clock", "noon", `"noon" is not a time of day; ` + hintClock},
	{"clock", "0a:00", `"0a:00" is not a time of day; ` + hintClock},
	{"end", "25:00", `"25:00" is not a time of day; ` + hintBounds},
	{"end", "-1:00", `"-1:00" is not a time of day; ` + hintClock},
	{"work", "", `"" is not a length of time; ` + hintWork},
	{"work", "h", `"h" is not a length of time; ` + hintWork},
	{"work", "30", `"30" lacks its unit; ` + hintWork},
	{"work", "1h30", `"1h30" lacks its unit; ` + hintWork},
	{"work", "30min", `"30min" is not a length of time; ` + hintWork},
	{"work", "30 m", `"30 m" is not a length of time; ` + hintWork},
	{"work", "1.5h", `"1.5h" is not a whole number; ` + hintWork},
	{"work", "1,5h", `"1,5h" is not a whole number; ` + hintWork},
	{"work", "+4h", `"+4h" is not a length of time; ` + hintWork},
	{"work", "04h", `"04h" has a needless zero in front; ` + hintWork},
	{"work", "1h05m", `"1h05m" has a needless zero in front; ` + hintWork},
	{"work", "1h60m", `"1h60m" mixes hours and minutes oddly; beside hours give 1 to 59 minutes, or minutes alone`},
	{"work", "1h0m", `"1h0m" mixes hours and minutes oddly; beside hours give 1 to 59 minutes, or minutes alone`},
	{"work", "0h30m", `"0h30m" mixes hours and minutes oddly; beside hours give 1 to 59 minutes, or minutes alone`},
	{"work", "30m1h", `"30m1h" is not a length of time; ` + hintWork},
	{"work", "1h30m10m", `"1h30m10m" is not a length of time; ` + hintWork},
	{"work", "-4h", `"-4h" is negative; write a length of 0m or more`},
	{"work", "-four", `"-four" is not a length of time; ` + hintWork},
	{"work", "2d", `"2d" is a wait on the clock, not working time; give working time in m and h, like 30m, 4h or 7h30m`},
	{"work", "8736h1m", `"8736h1m" is too long; give 52w or less, that is 8736h`},
	{"work", "99999999999999999999m", `"99999999999999999999m" is too long; give 52w or less, that is 8736h`},
	{"lag", "-2d", `"-2d" is a wait on the clock, not working time; give working time in m and h, like 30m, 4h or 7h30m`},
	{"lag", "-0m", `"-0m" is a lead of nothing; write 0m`},
	{"lag", "--1h", `"--1h" is not a length of time; write one minus for a lead, like -30m`},
	{"lag", "-30", `"-30" lacks its unit; ` + hintWork},
	{"wait", "2d12h", `"2d12h" is not a length of time; ` + hintWait},
	{"wait", "1y", `"1y" is not a length of time; ` + hintWait},
	{"wait", "53w", `"53w" is too long; give 52w or less, that is 8736h`},
	{"wait", "365d", `"365d" is too long; give 52w or less, that is 8736h`},
	{"wait", "-2d", `"-2d" is negative; write a length of 0m or more`},
	{"wait", "²d", `"²d" is not a length of time; ` + hintWait},
}

func TestTextRefused(t *testing.T) {
	for _, c := range refusals {
		_, err := readers[c.reader](c.text)
		var text *calendars.TextError
		if !errors.As(err, &text) {
			t.Errorf("%s %q: %v is not a TextError", c.reader, c.text, err)
		} else if err.Error() != c.message {
			t.Errorf("%s: got  %s\nwant %s", c.reader, err, c.message)
		}
	}
}

func TestFormatWait(t *testing.T) {
	for m, want := range map[Minutes]string{0: "0m", 45: "45m", 60: "1h", 90: "1h30m", 1440: "24h", 524160: "8736h"} {
		if got := calendars.FormatWait(m); got != want {
			t.Errorf("%d: %s, want %s", m, got, want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		m := Minutes(rapid.IntRange(0, int(calendars.Longest)).Draw(t, "m"))
		for _, parse := range []func(string) (Minutes, error){calendars.ParseWork, calendars.ParseLag, calendars.ParseWait} {
			if got, err := parse(calendars.FormatWait(m)); err != nil || got != m {
				t.Fatalf("%d reads back as %d, %v", m, got, err)
			}
		}
	})
}

// FuzzText: no text makes a reader panic; what it accepts it can write back, and
// what it refuses it names with something to do.
func FuzzText(f *testing.F) {
	for _, seed := range []string{
		"07:00-12:00 12:30-18:00", "closed", "00:00-24:00", "mon-fri", "sun", "2027-04-30", "2028-02-29", "2027-04-30 07:00",
		"24:00", "07:05", "0m", "7h30m", "-1h", "2d", "52w", "99999999999m",
		"1.5h", "22:00-06:00", "", "-", "h", ":", "２027", "\x00", "\xff-\xfe",
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for name, read := range readers {
			back, err := read(text)
			if err != nil {
				var e *calendars.TextError
				if !errors.As(err, &e) || e.Problem == "" || e.Hint == "" || !strings.Contains(text, e.Text) {
					t.Fatalf("%s %q: the error %v does not help", name, text, err)
				}
				continue
			}
			switch name {
			case "work", "lag", "wait":
				checkLength(t, name, text, back)
			default:
				if back != text {
					t.Fatalf("%s %q reads as %q", name, text, back)
				}
			}
		}
	})
}

// checkLength wants an accepted length, written another way, to read the same.
func checkLength(t *testing.T, name, text, minutes string) {
	t.Helper()
	var m Minutes
	if _, err := fmt.Sscan(minutes, &m); err != nil {
		t.Fatal(err)
	}
	again, sign := m, ""
	if m < 0 {
		again, sign = -m, "-"
	}
	if back, err := readers[name](sign + calendars.FormatWait(again)); err != nil || back != minutes {
		t.Fatalf("%s %q is %s minutes, which reads back as %s, %v", name, text, minutes, back, err)
	}
	if m > calendars.Longest || m < -calendars.Longest || m < 0 && name != "lag" {
		t.Fatalf("%s %q is %d minutes", name, text, m)
	}
}
