package said

import (
	"regexp"
	"slices"
	"strings"
	"time"

	"build.example/turflast/calendars"
)

// tense says which way a date points that isn't said in full.
type tense uint8

const (
	past   tense = iota // what happened: "saturday" is the last one
	coming              // what is to come: the next one, or those of the window before it begins
	either              // any of the window; a time without a date is one of today
)

// day is what the words for a date may mean.
type day struct {
	dates []calendars.Date
	half  half
	doubt string // why it must be asked even when it is one
}

var weekdays = [...]string{"sunday", "monday", "tuesday", "wednesday", "thursday", "friday", "saturday"}

// weekday is the day of the week that a word names, in full or short: "wed", "thurs".
func weekday(text string) (time.Weekday, bool) {
	if len(text) < 3 {
		return 0, false
	}
	text = strings.TrimSuffix(text, "'s")
	for i, name := range weekdays {
		if strings.HasPrefix(name, text) && len(text) <= 5 || text == name || text == name+"s" {
			return time.Weekday(i), true
		}
	}
	return 0, false
}

func isWeekday(text string) bool {
	_, ok := weekday(text)
	return ok
}

// month is the month that a word names, in full or by three letters or more; 0 for none.
func month(text string) time.Month {
	for m := time.January; m <= time.December; m++ {
		name := strings.ToLower(m.String())
		if len(text) >= 3 && strings.HasPrefix(name, text) || text == "sept" && m == time.September {
			return m
		}
	}
	return 0
}

// today is the date of the moment at which it is said.
func (g *Garden) today() calendars.Date { return calendars.DateIn(g.Now, g.Plan.Site.Location) }

// window is the first and the last date of the window.
func (g *Garden) window() (first, last calendars.Date) {
	s := &g.Plan.Site
	return calendars.DateIn(s.Opens, s.Location), calendars.DateIn(s.Handover, s.Location)
}

// dayAt reads the date that begins with word i, as far as it goes, and gives the word
// behind it.
func (s *saying) dayAt(i int, t tense) (d day, to int, ok bool) {
	for _, read := range [...]func(int, tense) (day, int, bool){s.relative, s.weekdayAt, s.dated} {
		if d, to, ok = read(i, t); ok {
			break
		}
	}
	if h := halves[s.at(to)]; ok && h != anyHalf && d.half == anyHalf {
		d.half, to = h, to+1
	}
	return d, to, ok
}

// nearDays are words for a date by its distance from today.
var nearDays = []struct {
	words []string
	by    calendars.Date
}{
	{[]string{"today"}, 0}, {[]string{"todays"}, 0}, {[]string{"yesterday"}, -1},
	{[]string{"tomorrow"}, 1}, {[]string{"tomorrows"}, 1}, {[]string{"tmrw"}, 1},
	{[]string{"the", "day", "after", "tomorrow"}, 2}, {[]string{"day", "after", "tomorrow"}, 2},
	{[]string{"the", "day", "before", "yesterday"}, -2}, {[]string{"day", "before", "yesterday"}, -2},
}

// relative reads "today", "the day after tomorrow", "in two days", "this morning".
func (s *saying) relative(i int, _ tense) (d day, to int, ok bool) {
	today := s.g.today()
	for _, known := range nearDays {
		if s.are(i, known.words...) {
			return day{dates: []calendars.Date{today + known.by}}, i + len(known.words), true
		}
	}
	if h := halves[s.at(i+1)]; s.are(i, "this") && h != anyHalf {
		return day{dates: []calendars.Date{today}, half: h}, i + 2, true
	}
	if n := s.days(i + 1); s.are(i, "in") && n > 0 {
		return day{dates: []calendars.Date{today + n}}, i + 3, true
	}
	if n := s.days(i); s.are(i+2, "ago") && n > 0 {
		return day{dates: []calendars.Date{today - n}}, i + 3, true
	}
	return day{}, i, false
}

// days is how many days the words "two days" at i are; 0 for any other words.
func (s *saying) days(i int) calendars.Date {
	if n := whole(s.at(i)); n < 100 && strings.TrimSuffix(s.at(i+1), "s") == "day" {
		return calendars.Date(max(n, 0))
	}
	return 0
}

// weekdayAt reads a weekday, alone or before its date.
func (s *saying) weekdayAt(i int, t tense) (d day, to int, ok bool) {
	which := s.at(i)
	if which == "last" || which == "next" || which == "this" {
		i++
	} else {
		which = ""
	}
	w, ok := weekday(s.at(i))
	if !ok {
		return day{}, i, false
	}
	to = i + 1
	if which != "" {
		return s.g.whichWeekday(which, w, t), to, true
	}
	if s.are(to, ".") || s.are(to, ",") {
		to++
	}
	if date, end, dated := s.dated(to, t); dated {
		return s.g.agreeing(date, w, t), end, true
	}
	return s.g.clearly(s.g.onWeekday(w, t), w, t), i + 1, true
}

// agreeing keeps those dates that fall on the weekday said with them.
func (g *Garden) agreeing(d day, w time.Weekday, t tense) day {
	on := slices.DeleteFunc(slices.Clone(d.dates), func(d calendars.Date) bool { return d.Weekday() != w })
	if len(on) > 0 {
		return day{dates: on}
	}
	return day{dates: append(d.dates, g.onWeekday(w, t)...), doubt: "the date and the weekday don't go together"}
}

// whichWeekday is the last weekday of a name, the next or this one.
func (g *Garden) whichWeekday(which string, w time.Weekday, t tense) day {
	today := g.today()
	ago := calendars.Date(today.Weekday()-w+7) % 7
	switch which {
	case "last":
		return day{dates: []calendars.Date{today - (ago+6)%7 - 1}}
	case "this":
		return day{dates: []calendars.Date{today + (7-ago)%7}}
	}
	dates := slices.DeleteFunc(g.onWeekday(w, t), func(d calendars.Date) bool { return d == today })
	return g.clearly(dates, w, t)
}

// clearly is the dates that a weekday may mean, in doubt when they are several.
func (g *Garden) clearly(dates []calendars.Date, w time.Weekday, t tense) day {
	if t != past && len(dates) != 1 {
		return day{dates: dates, doubt: "it isn't clear which " + w.String()}
	}
	return day{dates: dates}
}

// onWeekday lists the dates that a weekday may mean. Of the past it is the last one. To
// come, it is one of the window from today on; without any, the last one or the next.
func (g *Garden) onWeekday(w time.Weekday, t tense) []calendars.Date {
	today := g.today()
	last := today - calendars.Date(today.Weekday()-w+7)%7
	if t == past {
		return []calendars.Date{last}
	}
	first, end := g.window()
	var out []calendars.Date
	if t == coming {
		first = max(first, today)
	}
	for d := first; d <= end && len(out) < 3; d++ {
		if d.Weekday() == w {
			out = append(out, d)
		}
	}
	if len(out) > 0 {
		return out
	}
	return []calendars.Date{last, last + 7}
}

// dated reads a date with its number: "6 May", "May 6", "the 6th", "6/5", "6.5.27", "2027-05-06".
func (s *saying) dated(i int, _ tense) (d day, to int, ok bool) {
	text := s.at(i)
	if date, err := calendars.ParseDate(text); err == nil {
		return day{dates: []calendars.Date{date}}, i + 1, true
	}
	if dates, end := s.inFigures(i); len(dates) > 0 {
		return day{dates: dates}, end, true
	}
	if m := month(text); m != 0 {
		n, end := s.dayOfMonth(i + 1)
		return s.inYear(n, m, end)
	}
	article := s.are(i, "the")
	if article {
		i++
	}
	n, end := s.dayOfMonth(i)
	switch {
	case n == 0:
		return day{}, i, false
	case s.are(end, "of"):
		end++
	}
	if m := month(s.at(end)); m != 0 {
		return s.inYear(n, m, end+1)
	}
	if figure(s.at(i)) >= 0 || s.are(end-1, "of") { // "the 6" is no date
		return day{}, i, false
	}
	return day{dates: s.g.inWindow(n)}, end, len(s.g.inWindow(n)) > 0
}

// dayOfMonth reads "6", "6th" or "6."; 0 for anything else.
func (s *saying) dayOfMonth(i int) (n, to int) {
	text := s.at(i)
	number := strings.TrimRight(text, "dhnrst")
	if suffix := text[len(number):]; suffix != "" && !slices.Contains([]string{"st", "nd", "rd", "th"}, suffix) {
		return 0, i
	}
	if n = figure(number); n < 1 || n > 31 || len(number) > 2 {
		return 0, i
	}
	if to = i + 1; s.are(to, ".") && month(s.at(to+1)) != 0 {
		to++
	}
	return n, to
}

// inWindow lists the dates of the window with this day of the month; of a window that has
// none, that of this month.
func (g *Garden) inWindow(n int) []calendars.Date {
	first, last := g.window()
	var out []calendars.Date
	for d := first; d <= last && len(out) < 3; d++ {
		if _, _, day := d.Civil(); day == n {
			out = append(out, d)
		}
	}
	return out
}

// inYear is a day of a month with its year, or without one in the year that brings it
// nearest to the window.
func (s *saying) inYear(n int, m time.Month, to int) (day, int, bool) {
	if n == 0 {
		return day{}, to, false
	}
	if y := figure(s.at(to)); y >= calendars.FirstYear && y <= calendars.LastYear {
		d, ok := real(y, m, n)
		return day{dates: []calendars.Date{d}}, to + 1, ok
	}
	d, ok := s.g.nearestYear(m, n)
	return day{dates: []calendars.Date{d}}, to, ok
}

// real is a date that exists.
func real(y int, m time.Month, n int) (calendars.Date, bool) {
	d := calendars.DateOf(y, m, n)
	_, month, day := d.Civil()
	return d, month == m && day == n && y >= calendars.FirstYear && y <= calendars.LastYear
}

// nearestYear is the date in the year that brings it nearest to the window.
func (g *Garden) nearestYear(m time.Month, n int) (best calendars.Date, ok bool) {
	first, last := g.window()
	year, _, _ := first.Civil()
	least := calendars.Date(0)
	for y := year - 1; y <= year+2; y++ {
		d, is := real(y, m, n)
		if far := max(first-d, d-last, 0); is && (!ok || far < least) {
			best, least, ok = d, far, true
		}
	}
	return best, ok
}

// dayMonth is a date in figures; with points, one of two numbers ends with a point.
var dayMonth = regexp.MustCompile(`^(\d{1,2})([/.])(\d{1,2})(?:[/.](\d{2}|\d{4}))?$`)

// inFigures reads "6/5", "6/5/27", "6.5.", "06.05.2027": the day first, as is usual where
// the window is; with the month first only where the day can't be.
func (s *saying) inFigures(i int) (dates []calendars.Date, to int) {
	m, to := dayMonth.FindStringSubmatch(s.at(i)), i+1
	switch {
	case m == nil:
		return nil, i
	case m[2] == "." && m[4] == "": // "6.5" alone is a number or a time
		if !s.are(to, ".") || s.words[to].from != s.words[i].to {
			return nil, i
		}
		to++
	}
	a, b := figure(m[1]), figure(m[3])
	dayFirst, ok := s.g.inFigures(b, a, figure(m[4]))
	monthFirst, also := s.g.inFigures(a, b, figure(m[4]))
	switch first, last := s.g.window(); {
	case ok && (!also || first <= dayFirst && dayFirst <= last):
		return []calendars.Date{dayFirst}, to
	case ok:
		return []calendars.Date{dayFirst, monthFirst}, to
	case also:
		return []calendars.Date{monthFirst}, to
	}
	return nil, i
}

// inFigures is a date by the numbers of its month, day and year; a year below 0 wasn't said.
func (g *Garden) inFigures(m, d, year int) (calendars.Date, bool) {
	switch {
	case m < 1 || m > 12:
		return 0, false
	case year < 0:
		return g.nearestYear(time.Month(m), d)
	case year < 100:
		year += 2000
	}
	return real(year, time.Month(m), d)
}
