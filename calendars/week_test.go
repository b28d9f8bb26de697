package calendars_test

import (
	"strings"
	"testing"

	"build.example/turflast/calendars"
)

// The hours of a week are written as plans have them, and read again as they are.
func TestWeekRead(t *testing.T) {
	for text, want := range map[string]string{
		"mon-fri 07:30-12:00 12:30-17:00":        "mon-fri: 07:30-12:00 12:30-17:00",
		"Mon-Fri: 07:30-17:00,  sat 08:00-13:00": "mon-fri: 07:30-17:00, sat: 08:00-13:00",
		"sun 09:00-12:00, mon 09:00-12:00":       "mon: 09:00-12:00, sun: 09:00-12:00",
		"mon-wed 08:00-16:00, thu 08:00-16:00":   "mon-thu: 08:00-16:00",
		"mon-sun 06:00-24:00":                    "mon-sun: 06:00-24:00",
		"mon closed, tue 08:00-09:00":            "tue: 08:00-09:00",
	} {
		week, err := calendars.ParseWeek(text)
		if got := calendars.FormatWeek(week); err != nil || got != want {
			t.Errorf("%q is %q, %v; not %q", text, got, err, want)
			continue
		}
		if again, err := calendars.ParseWeek(want); err != nil || calendars.FormatWeek(again) != want {
			t.Errorf("%q isn't read as it is written: %v", want, err)
		}
	}
}

// What is no week is refused with the part that is wrong.
func TestWeekRefused(t *testing.T) {
	for text, want := range map[string]string{
		"":                                       "has no days or no hours",
		"mon-fri":                                "has no days or no hours",
		"07:30-17:00":                            "has no days or no hours",
		"mo-fr 07:30-17:00":                      "is not a day of the week",
		"mon-fri 7-17":                           "is not a range of hours",
		"mon-fri 07:30-17:00, fri 07:30-12:00":   "names fri a second time",
		"mon-fri closed":                         "has no hours at all",
		"mon-fri 07:30-17:00, ":                  "has no days or no hours",
		"mon-fri 12:30-17:00 07:30-12:00":        "starts before",
		"mon-fri 07:30-12:00, sat, sun 08:00-12": "has no days or no hours",
	} {
		if _, err := calendars.ParseWeek(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, not %q", text, err, want)
		}
	}
}
