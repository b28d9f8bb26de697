package said

import (
	"regexp"
	"strconv"
	"strings"

	"build.example/turflast/calendars"
)

// numberWords are the numbers that people write out.
var numberWords = map[string]int{
	"a": 1, "an": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8,
	"nine": 9, "ten": 10, "eleven": 11, "twelve": 12, "fifteen": 15, "twenty": 20, "thirty": 30, "forty": 40,
	"forty-five": 45, "fifty": 50, "sixty": 60, "ninety": 90,
}

// whole is the number that a word is, in digits or written out; -1 for any other word.
func whole(text string) int {
	if n, ok := numberWords[text]; ok {
		return n
	}
	return figure(text)
}

// figure is the number that a word writes in up to six digits; -1 for any other word.
func figure(text string) int {
	if text == "" || len(text) > 6 || strings.Trim(text, "0123456789") != "" {
		return -1
	}
	n, _ := strconv.Atoi(text)
	return n
}

// units are the units of length, each with what people call it.
var units = map[string]calendars.Minutes{
	"m": 1, "min": 1, "mins": 1, "minute": 1, "minutes": 1,
	"h": calendars.Hour, "hr": calendars.Hour, "hrs": calendars.Hour, "hour": calendars.Hour, "hours": calendars.Hour,
	"d": calendars.Day, "day": calendars.Day, "days": calendars.Day,
	"w": calendars.Week, "wk": calendars.Week, "wks": calendars.Week, "week": calendars.Week, "weeks": calendars.Week,
	"fortnight": 2 * calendars.Week, "fortnights": 2 * calendars.Week,
}

// length is how long something takes or is late.
type length struct {
	minutes calendars.Minutes
	inDays  bool // said in days or weeks, which on site are no length of work
}

// lengthAt reads the lengths that begin with word i: to is the word behind. There is at
// most one, the longest.
func (s *saying) lengthAt(i int) (l length, to int, ok bool) {
	first, to, ok := s.oneLength(i)
	if !ok {
		return length{}, i, false
	}
	return s.lengthAfter(first, to)
}

// lengthAfter adds what may follow a length: "and a half", "30", "30 min".
func (s *saying) lengthAfter(first length, to int) (length, int, bool) {
	unit := calendars.Hour
	if first.inDays {
		unit = calendars.Day
	}
	if s.are(to, "and", "a", "half") && first.minutes%unit == 0 {
		first.minutes += unit / 2
		return first, to + 3, true
	}
	rest := to
	if s.are(to, "and") {
		rest++
	}
	if more, end, ok := s.oneLength(rest); ok && more.minutes < unit && !more.inDays {
		first.minutes += more.minutes
		return first, end, true
	}
	if n := figure(s.at(to)); s.hours(to-1) && len(s.at(to)) == 2 && n >= 0 && n < 60 {
		first.minutes += calendars.Minutes(n)
		to++
	}
	return first, to, true
}

// hours says whether word i is a unit of hours, or a number with one.
func (s *saying) hours(i int) bool {
	return units[strings.TrimLeft(s.at(i), "0123456789")] == calendars.Hour
}

// oneLength reads a number and its unit, or a word for both.
func (s *saying) oneLength(i int) (l length, to int, ok bool) {
	for _, known := range [...]struct {
		words string
		share calendars.Minutes // of four quarters
	}{{"three quarters of an", 3}, {"a quarter of an", 1}, {"quarter of an", 1},
		{"half an", 2}, {"half a", 2}, {"a half", 2}, {"half", 2}} {
		n := strings.Fields(known.words)
		if !s.are(i, n...) {
			continue
		}
		if unit, ok := units[s.at(i+len(n))]; ok && unit >= calendars.Hour {
			return sized(unit*known.share/4, unit), i + len(n) + 1, true
		}
	}
	if minutes, unit, ok := attached(s.at(i)); ok {
		return sized(minutes, unit), i + 1, true
	}
	quarters, to, ok := s.quarters(i)
	if !ok {
		return length{}, i, false
	}
	unit, known := units[s.at(to)]
	minutes := calendars.Minutes(quarters) * unit / 4
	if !known || unit == 1 && quarters%4 != 0 || minutes > calendars.Longest {
		return length{}, i, false
	}
	return sized(minutes, unit), to + 1, true
}

func sized(m, unit calendars.Minutes) length { return length{m, unit >= calendars.Day} }

// quarters reads a number in quarters: "2", "two", "2.5", "2,5", "2 1/2", "2½", "two and a half".
func (s *saying) quarters(i int) (n, to int, ok bool) {
	text := s.at(i)
	if n := whole(text); n >= 0 {
		switch {
		case s.are(i+1, "1/2"), s.are(i+1, "½"):
			return 4*n + 2, i + 2, true
		case s.are(i+1, "and", "a", "half"):
			return 4*n + 2, i + 4, true
		}
		return 4 * n, i + 1, true
	}
	if n, ok := decimal(text); ok {
		return n, i + 1, true
	}
	if text == "1/2" || text == "½" {
		return 2, i + 1, true
	}
	return 0, i, false
}

// decimal reads a number with a half or quarters behind the point, in quarters.
func decimal(text string) (quarters int, ok bool) {
	for _, end := range [...]struct {
		text string
		n    int
	}{{".5", 2}, {",5", 2}, {".25", 1}, {",25", 1}, {".75", 3}, {",75", 3}, {".50", 2}, {"½", 2}} {
		if before, ok := strings.CutSuffix(text, end.text); ok && figure(before) >= 0 {
			return 4*figure(before) + end.n, true
		}
	}
	return 0, false
}

// joined is a length in one word: hours and minutes, or a number and its unit.
var joined = regexp.MustCompile(`^(\d{1,6})(?:h(\d{1,2})(?:m|min)?|:(\d\d))$|^([\d.,½]+)([a-z]+)$`)

// attached reads a length in one word: "2h", "90min", "1h30", "1h30m", "2.5h", "1:30".
func attached(text string) (m, unit calendars.Minutes, ok bool) {
	found := joined.FindStringSubmatch(text)
	if found == nil {
		return 0, 0, false
	}
	if found[1] != "" {
		minutes := figure(found[2] + found[3])
		m = calendars.Minutes(figure(found[1]))*calendars.Hour + calendars.Minutes(minutes)
		return m, calendars.Hour, minutes < 60 && m <= calendars.Longest
	}
	quarters, halves := decimal(found[4])
	if n := figure(found[4]); n >= 0 {
		quarters, halves = 4*n, true
	}
	unit = units[found[5]]
	m = calendars.Minutes(quarters) * unit / 4
	return m, unit, halves && unit > 0 && (unit > 1 || quarters%4 == 0) && m <= calendars.Longest
}
