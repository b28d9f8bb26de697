package said

import (
	"regexp"
	"strings"

	"build.example/turflast/calendars"
)

// clock is a time of day as it was said.
type clock struct {
	minute calendars.Minutes
	open   bool // may as well be twelve hours later
	bare   bool // an hour and nothing else
}

const noon = 12 * calendars.Hour

// half says which half of a day was meant.
type half uint8

const (
	anyHalf half = iota
	morning
	afternoon
)

// halves are the words for a part of the day; what says "this" is about today.
var halves = map[string]half{"morning": morning, "afternoon": afternoon, "evening": afternoon}

// narrow is the time of day in a half of the day; ok is false when it can't lie in it.
func (c clock) narrow(h half) (clock, bool) {
	switch {
	case h == anyHalf:
		return c, true
	case h == morning:
		c.open = false
		return c, c.minute < noon+calendars.Hour
	case c.open:
		c.minute, c.open = c.minute+noon, false
	}
	return c, c.minute >= noon
}

// clocksAt reads the time of day that begins with word i: what it may mean, and the word
// behind. There are two meanings for "half eight".
func (s *saying) clocksAt(i int) (list []clock, to int) {
	switch {
	case s.are(i, "noon"), s.are(i, "midday"):
		return []clock{{minute: noon}}, i + 1
	case s.are(i, "12", "noon"), s.are(i, "twelve", "noon"):
		return []clock{{minute: noon}}, i + 2
	}
	if list, to = s.spoken(i); list == nil {
		if c, end, ok := s.written(i); ok {
			list, to = []clock{c}, end
		}
	}
	if s.are(to, "in", "the") && halves[s.at(to+2)] != anyHalf && list != nil {
		return narrowed(list, halves[s.at(to+2)]), to + 3
	}
	return list, to
}

// narrowed keeps the times that can lie in a half of the day.
func narrowed(list []clock, h half) []clock {
	var out []clock
	for _, c := range list {
		if n, ok := c.narrow(h); ok {
			out = append(out, n)
		}
	}
	return out
}

// spoken reads "half past 8", "half eight", "quarter to 9", "ten past nine".
func (s *saying) spoken(i int) (list []clock, to int) {
	if h := s.hourAt(i + 1); s.are(i, "half") && h > 0 {
		// In English half past, in German half before.
		at := calendars.Minutes(h) * calendars.Hour
		return []clock{{minute: at + 30, open: h < 10}, {minute: at - 30, open: h <= 10}}, i + 2
	}
	past, from := s.minutesAt(i)
	hour := s.hourAt(from + 1)
	switch {
	case past == 0 || hour == 0 || !s.are(from, "to") && !s.are(from, "past"):
		return nil, i
	case s.are(from, "to"):
		past = -past
	}
	at := calendars.Minutes(hour)*calendars.Hour + past
	return []clock{{minute: at, open: at < 10*calendars.Hour}}, from + 2
}

// hourAt is the hour of the clock that word i is; 0 for any other word.
func (s *saying) hourAt(i int) int {
	if n := whole(s.at(i)); n <= 12 && s.at(i) != "a" && s.at(i) != "an" {
		return max(n, 0)
	}
	return 0
}

// minutesAt reads the minutes past or to an hour: "half", "a quarter", "ten", "20 minutes".
func (s *saying) minutesAt(i int) (m calendars.Minutes, to int) {
	n := whole(s.at(i))
	switch {
	case s.are(i, "half"):
		return 30, i + 1
	case s.are(i, "quarter"):
		return 15, i + 1
	case s.are(i, "a", "quarter"):
		return 15, i + 2
	case n <= 0 || n >= 30 || n%5 != 0:
		return 0, i
	case units[s.at(i+1)] == 1:
		return calendars.Minutes(n), i + 2
	}
	return calendars.Minutes(n), i + 1
}

// written reads "8", "8:00", "8.15pm", "8 am", "0815", "8h15", "four o'clock".
func (s *saying) written(i int) (c clock, to int, ok bool) {
	text, to := s.at(i), i+1
	if h := s.hourAt(i); h > 0 && (s.are(to, "o'clock") || figure(text) < 0) {
		c = clock{minute: calendars.Minutes(h) * calendars.Hour, open: h < 10, bare: !s.are(to, "o'clock")}
		if !c.bare {
			to++
		}
		return c, to, true
	}
	if s.are(to, "am") || s.are(to, "pm") {
		text, to = text+s.at(to), to+1
	}
	if c, ok = clockOf(text); ok && (s.are(to, "h") || s.are(to, "hrs") || s.are(to, "uhr")) {
		c.bare, to = false, to+1
	}
	return c, to, ok
}

// figures is a time of day in figures: hours, minutes, and which half of the day.
var figures = regexp.MustCompile(`^(\d{1,2})(?:[:.](\d\d)h?|h(\d\d)?)?(am|pm)?$|^(\d\d)(\d\d)$`)

// clockOf reads a time of day in one word. An hour of one figure may be before noon or
// after, unless it is said which.
func clockOf(text string) (c clock, ok bool) {
	m := figures.FindStringSubmatch(text)
	if m == nil {
		return clock{}, false
	}
	hour, minutes := calendars.Minutes(figure(m[1]+m[5])), calendars.Minutes(max(figure(m[2]+m[3]+m[6]), 0))
	c.minute = hour*calendars.Hour + minutes
	switch half := m[4]; {
	case minutes > 59 || c.minute > calendars.Day || half != "" && (hour < 1 || hour > 12):
		return clock{}, false
	case half == "pm":
		return clock{minute: c.minute%noon + noon}, true
	case half == "am":
		return clock{minute: c.minute % noon}, true
	case strings.Contains(text, "h"):
		return c, true
	}
	c.open = len(m[1]) == 1 && hour > 0
	c.bare = m[2]+m[6] == ""
	return c, true
}
