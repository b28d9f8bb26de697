package calendars

import (
	"slices"
	"strings"
)

// ParseWeek reads the hours of a week on one line: "mon-fri 07:30-12:00 12:30-17:00, sat
// 08:00-13:00". Days that it doesn't name are closed. Errors are of type *TextError.
func ParseWeek(text string) (WeekHours, error) {
	const hint = "write like mon-fri 07:30-12:00 12:30-17:00, sat 08:00-13:00"
	var week WeekHours
	var named [7]bool
	for part := range strings.SplitSeq(strings.ToLower(text), ",") {
		part = strings.Join(strings.Fields(part), " ")
		run, hours, found := strings.Cut(part, " ")
		if !found {
			return week, &TextError{part, "has no days or no hours", hint}
		}
		days, err := ParseDays(strings.TrimSuffix(run, ":"))
		if err != nil {
			return week, err
		}
		ranges, err := ParseRanges(hours)
		if err != nil {
			return week, err
		}
		for _, d := range days {
			if named[d] {
				return week, &TextError{run, "names " + dayNames[d] + " a second time", "name each day once"}
			}
			named[d], week[d] = true, ranges
		}
	}
	if !slices.ContainsFunc(week[:], func(day []Range) bool { return len(day) > 0 }) {
		return week, &TextError{text, "has no hours at all", hint}
	}
	return week, nil
}

// FormatWeek writes the hours of a week from Monday on, days in a row with the same hours
// together: "mon-fri: 07:30-12:00 12:30-17:00, sat: 08:00-13:00".
func FormatWeek(week WeekHours) string {
	var parts []string
	for from := 0; from < 7; {
		hours, to := week[weekdayOf(from)], from
		for to < 6 && slices.Equal(week[weekdayOf(to+1)], hours) {
			to++
		}
		days := dayNames[weekdayOf(from)]
		if to > from {
			days += "-" + dayNames[weekdayOf(to)]
		}
		if len(hours) > 0 {
			parts = append(parts, days+": "+FormatRanges(hours))
		}
		from = to + 1
	}
	return strings.Join(parts, ", ")
}
