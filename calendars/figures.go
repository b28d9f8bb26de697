package calendars

import (
	"fmt"
	"time"
)

// Figures say moments and lengths as people read them, in the words that every
// message, report and sheet shares. Moments are those of Location's wall clock.
// Dates in Year are said without it.
type Figures struct {
	Location *time.Location
	Year     int
}

// Moment is a moment with its weekday and date, "Tue 4 May 10:30", and with the
// year when it isn't Year. Never and the zero Instant are "never", Past is "too
// early".
func (f Figures) Moment(t Instant) string {
	if words, ok := unreal(t); ok {
		return words
	}
	return f.Day(DateIn(t, f.Location)) + " " + f.Time(t)
}

// Time is the wall-clock time of a moment: "10:30".
func (f Figures) Time(t Instant) string {
	if words, ok := unreal(t); ok {
		return words
	}
	return t.In(f.Location).Format("15:04")
}

func unreal(t Instant) (string, bool) {
	switch t {
	case Never, 0:
		return "never", true
	case Past:
		return "too early", true
	}
	return "", false
}

// Day is a date with its weekday: "Tue 4 May"; with the year when it isn't Year.
func (f Figures) Day(d Date) string {
	year, month, day := d.Civil()
	s := fmt.Sprintf("%s %d %s", d.Weekday().String()[:3], day, month.String()[:3])
	if year != f.Year {
		s += fmt.Sprintf(" %d", year)
	}
	return s
}

// Then is a moment mentioned beside another one: its time alone on the same
// date, else the whole moment.
func (f Figures) Then(t, beside Instant) string {
	if t.IsReal() && beside.IsReal() && f.Date(t) == f.Date(beside) {
		return f.Time(t)
	}
	return f.Moment(t)
}

// Span is a stretch of time: "Tue 4 May 10:30-12:00", or both moments when it
// runs over midnight.
func (f Figures) Span(s Span) string {
	if s.Start == s.End {
		return f.Moment(s.Start)
	}
	if s.Start.IsReal() && s.End.IsReal() && f.Date(s.Start) == f.Date(s.End) {
		return f.Moment(s.Start) + "-" + f.Time(s.End)
	}
	return f.Moment(s.Start) + " to " + f.Moment(s.End)
}

// Times is a stretch by its times alone: "10:30-12:00".
func (f Figures) Times(s Span) string { return f.Time(s.Start) + "-" + f.Time(s.End) }

// Date is the date of a moment.
func (f Figures) Date(t Instant) Date { return DateIn(t, f.Location) }

// Work is a length of working time, of open hours or of float: "3 h 20".
func (f Figures) Work(m Minutes) string { return WorkText(m) }

// Clock is a wait on the clock: "24 h", "2 d".
func (f Figures) Clock(m Minutes) string { return ClockText(m) }

// WorkText is a length of working time, of open hours or of float: "3 h 20".
func WorkText(m Minutes) string {
	if m < 0 {
		return "-" + WorkText(-m)
	}
	switch h := m / Hour; {
	case h == 0:
		return fmt.Sprintf("%d m", m)
	case m%Hour == 0:
		return fmt.Sprintf("%d h", h)
	default:
		return fmt.Sprintf("%d h %02d", h, m%Hour)
	}
}

// ClockText is a wait on the clock; from two days on it counts in days: "24 h",
// "2 d 3 h".
func ClockText(m Minutes) string {
	if m < 2*Day {
		return WorkText(m)
	}
	s := fmt.Sprintf("%d d", m/Day)
	if rest := m % Day; rest != 0 {
		s += " " + WorkText(rest)
	}
	return s
}
