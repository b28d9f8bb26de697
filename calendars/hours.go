package calendars

import (
	"cmp"
	"slices"
	"time"
)

// Range is a stretch of one day, [From, To) in minutes of its wall clock; To is
// at most 1440.
type Range struct{ From, To Minutes }

// WeekHours holds the ranges of each weekday, Sunday first as in time.Weekday; a day
// without ranges is closed.
type WeekHours [7][]Range

// DayHours are the ranges of one date, in place of the week's; without ranges
// the date is closed.
type DayHours struct {
	On     Date
	Ranges []Range
}

// Closure is a span in which a place is closed, and why.
type Closure struct {
	Span Span
	Why  string
}

// Hours say when a place is open or a crew at work: by weekday, by date in
// place of the weekday, less the closures. A zero Hours has no opening.
type Hours struct {
	Weekly WeekHours
	On     []DayHours // sorted by date, each date once
	Closed []Closure
}

// Named says whether the hours name the date in On.
func (h Hours) Named(d Date) (DayHours, bool) {
	i, found := slices.BinarySearchFunc(h.On, d, compareDay)
	if !found {
		return DayHours{}, false
	}
	return h.On[i], true
}

func compareDay(o DayHours, d Date) int { return cmp.Compare(o.On, d) }

// Over is h with dates and closures of its own on top: a date that both name
// is as on says, and the closures add up.
func (h Hours) Over(on []DayHours, closed []Closure) Hours {
	own := Hours{On: on}
	merged := slices.Clone(on)
	for _, o := range h.On {
		if _, named := own.Named(o.On); !named {
			merged = append(merged, o)
		}
	}
	slices.SortFunc(merged, func(a, b DayHours) int { return compareDay(a, b.On) })
	return Hours{Weekly: h.Weekly, On: merged, Closed: slices.Concat(h.Closed, closed)}
}

// HolidayFrom tells from which minute of the day a public holiday closes a
// date: 0 all of it, [Day] or more none of it.
type HolidayFrom func(Date) Minutes

// Openings lists the openings that meet line, cut to it, in order; those that
// touch, also at midnight, are one. On a date named in On its ranges hold, even
// on a holiday; any other date keeps the week's ranges up to the holiday. Then
// the closures are taken off. A nil holidays keeps none. An end of a range that
// the clocks of loc skip is the instant of the jump; of a repeated one the first
// counts.
func (h Hours) Openings(loc *time.Location, line Span, holidays HolidayFrom) []Span {
	if line.Start >= line.End {
		return nil
	}
	// A day more at the end, for clocks that go back over midnight.
	first, last := DateIn(line.Start, loc), DateIn(line.End, loc)+1
	open := make([]Span, 0, 2*(last-first+1))
	clock := newWallClock(loc)
	next, _ := slices.BinarySearchFunc(h.On, first, compareDay)
	for d := first; d <= last; d++ {
		ranges, until := h.Weekly[d.Weekday()], Day
		if next < len(h.On) && h.On[next].On == d {
			ranges = h.On[next].Ranges
			next++
		} else if holidays != nil {
			until = holidays(d)
		}
		for _, r := range ranges {
			if to := min(r.To, until); r.From < to {
				open = appendJoined(open, Span{clock.at(d, r.From), clock.at(d, to)}, line)
			}
		}
	}
	return Without(open, h.Closed)
}

// appendJoined appends a span cut to line, joined to the last one if they touch.
func appendJoined(open []Span, s, line Span) []Span {
	s = Span{max(s.Start, line.Start), min(s.End, line.End)}
	if s.Start >= s.End {
		return open
	}
	if n := len(open); n > 0 && s.Start <= open[n-1].End {
		open[n-1].End = max(open[n-1].End, s.End)
		return open
	}
	return append(open, s)
}

// Without takes closures off sorted spans.
func Without(open []Span, closed []Closure) []Span {
	if len(closed) == 0 {
		return open
	}
	shut := make([]Span, len(closed))
	for i, c := range closed {
		shut[i] = c.Span
	}
	joined := New(shut)
	out := make([]Span, 0, len(open)+len(closed))
	for _, s := range open {
		for c := range joined.Openings(s.Start, s.End) {
			if s.Start < c.Start {
				out = append(out, Span{s.Start, c.Start})
			}
			s.Start = c.End
		}
		if s.Start < s.End {
			out = append(out, s)
		}
	}
	return out
}
