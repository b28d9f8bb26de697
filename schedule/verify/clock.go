package verify

import (
	"time"

	"build.example/turflast/calendars"
)

// clock turns the wall-clock times of a run of days into instants.
type clock struct {
	loc   *time.Location
	first calendars.Date
	days  []day
}

// day is one date. Before the jump of the clocks its wall time is UTC plus
// before, from the jump on UTC plus after; a plain day never jumps.
type day struct {
	midnight      int64 // of the date in UTC
	before, after int64
	jump          int64
}

// newClock covers the dates of a span and one more at each end.
func newClock(loc *time.Location, s calendars.Span) clock {
	c := clock{loc: loc, first: dateOf(loc, s.Start) - 1}
	for d := c.first; d <= dateOf(loc, s.End)+1; d++ {
		c.days = append(c.days, newDay(loc, d))
	}
	return c
}

// dateOf is the civil date of an instant.
func dateOf(loc *time.Location, t calendars.Instant) calendars.Date {
	wall := int64(t) + offset(loc, int64(t))
	return calendars.Date((wall - ((wall%1440)+1440)%1440) / 1440)
}

func offset(loc *time.Location, minute int64) int64 {
	_, seconds := time.Unix(minute*60, 0).In(loc).Zone()
	return int64(seconds / 60)
}

func newDay(loc *time.Location, d calendars.Date) day {
	utc := int64(d) * 1440
	near := utc - offset(loc, utc) // the date's midnight, to within a jump
	lo, hi := near-180, near+1440+180
	out := day{midnight: utc, before: offset(loc, lo), after: offset(loc, hi), jump: int64(calendars.Never)}
	if out.before == out.after {
		return out
	}
	for lo+1 < hi {
		if mid := (lo + hi) / 2; offset(loc, mid) == out.before {
			lo = mid
		} else {
			hi = mid
		}
	}
	out.jump = hi
	return out
}

// at is the instant of a minute (0 to 1440) of the wall clock of day i. A time
// that happens twice is its first instant, one that is skipped is the jump.
func (c *clock) at(i int, minute calendars.Minutes) calendars.Instant {
	d := &c.days[i]
	wall := d.midnight + int64(minute)
	if t := wall - d.before; t < d.jump {
		return calendars.Instant(t)
	}
	return calendars.Instant(max(wall-d.after, d.jump))
}
