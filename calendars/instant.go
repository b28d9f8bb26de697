package calendars

import (
	"fmt"
	"math"
	"time"
)

// Instant is a moment: whole minutes since 1970-01-01 00:00 UTC. The zero
// Instant stands for none; no plan reaches back to it.
type Instant int32

// Past and Never lie before and after every moment that can be programmed.
// Operations that find no opening answer with one of them.
const (
	Past  Instant = math.MinInt32
	Never Instant = math.MaxInt32
)

// Minutes is a length of time in whole minutes, worked or on the clock as the
// context says.
type Minutes int32

// Lengths in common use, in minutes.
const (
	Hour Minutes = 60
	Day  Minutes = 24 * Hour
	Week Minutes = 7 * Day
)

// Span is the half-open stretch [Start, End).
type Span struct{ Start, End Instant }

// Minutes is the length of the span on the clock.
func (s Span) Minutes() Minutes { return Minutes(s.End - s.Start) }

// Holds says whether t lies in the span.
func (s Span) Holds(t Instant) bool { return s.Start <= t && t < s.End }

// IsReal says whether t is a moment on the time line: said, and neither Past
// nor Never.
func (t Instant) IsReal() bool { return t != 0 && t != Past && t != Never }

// Plus adds m clock minutes; Past and Never stay what they are, and sums
// beyond the time line become them.
func (t Instant) Plus(m Minutes) Instant {
	if t == Past || t == Never {
		return t
	}
	sum := int64(t) + int64(m)
	switch {
	case sum >= int64(Never):
		return Never
	case sum <= int64(Past):
		return Past
	}
	return Instant(sum)
}

// In gives the instant as a time in loc.
func (t Instant) In(loc *time.Location) time.Time {
	return time.Unix(int64(t)*60, 0).In(loc)
}

// InstantOf is the instant at or before the time given.
func InstantOf(t time.Time) Instant {
	return instantOfUnix(t.Unix())
}

// instantOfUnix rounds down to the minute; moments beyond the time line are
// Past and Never.
func instantOfUnix(seconds int64) Instant {
	m := seconds / 60
	if seconds%60 < 0 {
		m--
	}
	return Instant(min(max(m, int64(Past)), int64(Never)))
}

// Date is a civil date: days since 1970-01-01, without a time zone.
type Date int32

// DateOf makes a civil date. Out-of-range months and days carry over as in
// time.Date.
func DateOf(year int, month time.Month, day int) Date {
	return Date(time.Date(year, month, day, 0, 0, 0, 0, time.UTC).Unix() / 86400)
}

// DateIn is the civil date of an instant in loc.
func DateIn(t Instant, loc *time.Location) Date {
	y, m, d := t.In(loc).Date()
	return DateOf(y, m, d)
}

// Civil splits the date.
func (d Date) Civil() (year int, month time.Month, day int) {
	return time.Unix(int64(d)*86400, 0).UTC().Date()
}

// Weekday of the date.
func (d Date) Weekday() time.Weekday {
	return time.Weekday(((int(d)+4)%7 + 7) % 7)
}

// String gives the date as 2027-04-30.
func (d Date) String() string {
	y, m, day := d.Civil()
	return fmt.Sprintf("%04d-%02d-%02d", y, int(m), day)
}

// Clock tells what the clocks do at a wall-clock time.
type Clock uint8

// What a wall-clock time is on its date.
const (
	Plain    Clock = iota // it happens once
	Skipped               // the clocks jump over it
	Repeated              // it happens twice; the first counts
)

// At is the instant of a wall-clock time: minute of the day (0 to 1440) on a
// date in loc. A repeated time is its first instant; a skipped one is the
// instant at which the clocks jump.
func At(loc *time.Location, d Date, minuteOfDay Minutes) (Instant, Clock) {
	wall := (int64(d)*int64(Day) + int64(minuteOfDay)) * 60
	first, n := int64(0), 0
	// No clock is a day or more from UTC, so every period of equal offset that
	// can show the wall time meets these two days. Read as each period in turn
	// shows it, a wall time that happens falls inside the period; one that is
	// skipped falls behind the end of one and before the start of the next.
	for at := wall - daySeconds; at <= wall+daySeconds; {
		p := periodAt(loc, at)
		t := wall - p.offset
		switch {
		case t < p.start && n == 0:
			return instantOfUnix(p.start), Skipped
		case p.start <= t && t < p.end:
			if n++; n == 1 {
				first = t
			}
		}
		if p.end > wall+daySeconds {
			break
		}
		at = p.end
	}
	if n > 1 {
		return instantOfUnix(first), Repeated
	}
	return instantOfUnix(first), Plain
}

const daySeconds = 24 * 60 * 60

// period is a stretch of equal offset from UTC, all in Unix seconds.
type period struct{ start, end, offset int64 }

func periodAt(loc *time.Location, unix int64) period {
	t := time.Unix(unix, 0).In(loc)
	_, off := t.Zone()
	p := period{math.MinInt64, math.MaxInt64, int64(off)}
	start, end := t.ZoneBounds()
	if !start.IsZero() {
		p.start = start.Unix()
	}
	if !end.IsZero() {
		p.end = end.Unix()
	}
	return p
}

// wallClock turns the wall-clock times of rising dates into instants without
// asking the time zone again while no change of the clocks is near.
type wallClock struct {
	loc      *time.Location
	from, to int64 // wall minutes, [from, to), for which offset holds
	offset   int64 // minutes
}

func newWallClock(loc *time.Location) *wallClock { return &wallClock{loc: loc} }

func (w *wallClock) at(d Date, minuteOfDay Minutes) Instant {
	wall := int64(d)*int64(Day) + int64(minuteOfDay)
	if w.from <= wall && wall < w.to {
		return Instant(wall - w.offset)
	}
	// More than two days inside a period, no other offset can show the same wall
	// time.
	const margin, far = 2 * daySeconds, 1 << 40
	p := periodAt(w.loc, wall*60)
	from, to := max(p.start, -far)+margin, min(p.end, far)-margin
	if p.offset%60 == 0 && from <= wall*60 && wall*60 < to {
		w.from, w.to, w.offset = from/60, to/60, p.offset/60
	}
	t, _ := At(w.loc, d, minuteOfDay)
	return t
}
