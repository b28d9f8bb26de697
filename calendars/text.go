package calendars

import (
	"fmt"
	"strings"
	"time"
)

// TextError says what is wrong with a piece of calendar text and what to write.
type TextError struct {
	Text    string // the offending text
	Problem string // what is wrong, to be read after the text: "is not a date"
	Hint    string // what to do
}

// Error is the whole as one line.
func (e *TextError) Error() string { return fmt.Sprintf("%q %s; %s", e.Text, e.Problem, e.Hint) }

// FirstYear and LastYear are the first and last year that a date may have: a
// date outside them is a typing mistake.
const (
	FirstYear = 2000
	LastYear  = 2199
)

// Closed is the text of a day without ranges.
const Closed = "closed"

var dayNames = [7]string{"sun", "mon", "tue", "wed", "thu", "fri", "sat"}

// ParseRanges reads the hours of a day: "07:00-12:00 12:30-18:00", or "closed"
// for none. The ranges are in order and do not overlap; those that touch stay
// as written. Errors are of type *TextError.
func ParseRanges(text string) ([]Range, error) {
	if text == Closed {
		return nil, nil
	}
	var ranges []Range
	for part := range strings.SplitSeq(text, " ") {
		if part == "" {
			return nil, &TextError{text, "is not a list of hours",
				"write like 07:00-12:00 12:30-18:00 with one space between ranges, or closed"}
		}
		r, err := ParseRange(part)
		if err != nil {
			return nil, err
		}
		if n := len(ranges); n > 0 && r.From < ranges[n-1].To {
			return nil, &TextError{part, "starts before " + ranges[n-1].String() + " ends",
				"put the ranges in order, without overlap"}
		}
		ranges = append(ranges, r)
	}
	return ranges, nil
}

// ParseRange reads one stretch of a day, such as "07:00-12:00"; it may end at
// 24:00. Errors are of type *TextError.
func ParseRange(text string) (Range, error) {
	from, to, found := strings.Cut(text, "-")
	if !found || len(text) != len("07:00-12:00") {
		return Range{}, &TextError{text, "is not a range of hours", "write like 07:00-12:00, without spaces inside"}
	}
	start, err := ParseClock(from)
	if err != nil {
		return Range{}, err
	}
	end, err := ParseEnd(to)
	switch {
	case err != nil:
		return Range{}, err
	case end == start:
		return Range{}, &TextError{text, "is empty", "end it after it starts"}
	case end == 0:
		return Range{}, &TextError{text, "crosses midnight or runs backwards", "write 24:00 for the end of the day"}
	case end < start:
		return Range{}, &TextError{text, "crosses midnight or runs backwards",
			fmt.Sprintf("end it by 24:00 and give the next day 00:00-%s for a night shift", to)}
	}
	return Range{start, end}, nil
}

// FormatRanges writes ranges as [ParseRanges] reads them.
func FormatRanges(ranges []Range) string {
	if len(ranges) == 0 {
		return Closed
	}
	parts := make([]string, len(ranges))
	for i, r := range ranges {
		parts[i] = r.String()
	}
	return strings.Join(parts, " ")
}

// String is the range as 07:00-12:00.
func (r Range) String() string { return FormatClock(r.From) + "-" + FormatClock(r.To) }

// ParseDays reads a weekday, "mon", or a run of them, "mon-fri". A week runs
// from mon to sun. Errors are of type *TextError.
func ParseDays(text string) ([]time.Weekday, error) {
	const hint = "write a day like mon or a run of days like mon-fri: mon, tue, wed, thu, fri, sat, sun"
	first, last, run := strings.Cut(text, "-")
	from, to := dayOfWeek(first), dayOfWeek(last)
	switch {
	case from < 0 || run && to < 0:
		return nil, &TextError{text, "is not a day of the week", hint}
	case !run:
		return []time.Weekday{weekdayOf(from)}, nil
	case from == to:
		return nil, &TextError{text, "is a run of one day", "write " + first}
	case from > to:
		return nil, &TextError{text, "runs past the end of the week",
			"a week runs from mon to sun: write the days before and after it apart"}
	}
	var days []time.Weekday
	for d := from; d <= to; d++ {
		days = append(days, weekdayOf(d))
	}
	return days, nil
}

// dayOfWeek counts days from mon, 0, to sun, 6; -1 is no day.
func dayOfWeek(name string) int {
	for i, n := range dayNames {
		if n == name {
			return (i + 6) % 7
		}
	}
	return -1
}

func weekdayOf(day int) time.Weekday { return time.Weekday((day + 1) % 7) }

// ParseDate reads a date such as "2027-04-30", from [FirstYear] to [LastYear].
// Errors are of type *TextError.
func ParseDate(text string) (Date, error) {
	const hint = "write the year, month and day like 2027-04-30"
	if len(text) != len("2027-04-30") || text[4] != '-' || text[7] != '-' {
		return 0, &TextError{text, "is not a date", hint}
	}
	y, m, d := digits(text[:4]), digits(text[5:7]), digits(text[8:])
	if y < 0 || m < 0 || d < 0 {
		return 0, &TextError{text, "is not a date", hint}
	}
	if y < FirstYear || y > LastYear {
		return 0, &TextError{text, "is out of range", fmt.Sprintf("years run from %d to %d", FirstYear, LastYear)}
	}
	if m < 1 || m > 12 {
		return 0, &TextError{text, "names no month", "months run from 01 to 12"}
	}
	date := DateOf(y, time.Month(m), d)
	if date.String() != text {
		last := DateOf(y, time.Month(m+1), 0)
		_, _, days := last.Civil()
		return 0, &TextError{text, "is a day that does not exist", fmt.Sprintf("that month has the days 01 to %02d", days)}
	}
	return date, nil
}

// ParseMoment reads a date and a time of day, such as "2027-04-30 07:00".
// Errors are of type *TextError.
func ParseMoment(text string) (Date, Minutes, error) {
	date, clock, found := strings.Cut(text, " ")
	if !found {
		if _, err := ParseDate(text); err == nil {
			return 0, 0, &TextError{text, "lacks the time of day", "write like " + text + " 07:00"}
		}
		return 0, 0, &TextError{text, "is not a date and time", "write like 2027-04-30 07:00"}
	}
	d, err := ParseDate(date)
	if err != nil {
		return 0, 0, err
	}
	m, err := ParseClock(clock)
	if err != nil {
		return 0, 0, err
	}
	return d, m, nil
}

// ParseClock reads a time of day from "00:00" to "23:59". Errors are of type
// *TextError.
func ParseClock(text string) (Minutes, error) {
	m, err := ParseEnd(text)
	if err == nil && m == Day {
		return 0, &TextError{text, "is an end only", "write 00:00 of the next day"}
	}
	return m, err
}

// ParseEnd reads a time of day that ends something: as [ParseClock], and
// "24:00". Errors are of type *TextError.
func ParseEnd(text string) (Minutes, error) {
	if len(text) != len("07:00") || text[2] != ':' {
		return 0, &TextError{text, "is not a time of day", "write hours and minutes in two digits each like 07:00"}
	}
	h, m := digits(text[:2]), digits(text[3:])
	switch {
	case h < 0 || m < 0:
		return 0, &TextError{text, "is not a time of day", "write hours and minutes in two digits each like 07:00"}
	case h > 24 || h == 24 && m > 0 || m > 59:
		return 0, &TextError{text, "is not a time of day",
			"hours run from 00 to 23 and minutes from 00 to 59; a day ends at 24:00"}
	}
	return Minutes(h)*Hour + Minutes(m), nil
}

// FormatClock writes a minute of the day, 0 to 1440, as 07:00.
func FormatClock(m Minutes) string { return fmt.Sprintf("%02d:%02d", m/Hour, m%Hour) }

// digits is the number that a text of one to nine ASCII digits writes, or -1
// for any other text.
func digits(text string) int {
	if text == "" || len(text) > 9 {
		return -1
	}
	n := 0
	for i := range len(text) {
		if text[i] < '0' || text[i] > '9' {
			return -1
		}
		n = 10*n + int(text[i]-'0')
	}
	return n
}
