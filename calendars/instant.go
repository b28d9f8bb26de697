package calendars

import (
	"fmt"
	"math"
	"time"
)

// Instant is a moment: whole minutes since 1970-01-01 00:00 UTC. The zero
// Instant stands for "not said"; no plan reaches back to it.
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
	u := t.Unix()
	m := u / 60
	if u%60 < 0 {
		m--
	}
	return Instant(m)
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
	y, m, day := d.Civil()
	wall := int64(d)*1440 + int64(minuteOfDay)
	guess := time.Date(y, m, day, 0, int(minuteOfDay), 0, 0, loc)
	first, n := Instant(0), 0
	// A wall time's instants lie at the offsets in force shortly before and
	// after it; zone changes are never closer than a day to each other.
	for _, probe := range [2]time.Time{guess.Add(-24 * time.Hour), guess.Add(24 * time.Hour)} {
		_, off := probe.Zone()
		t := Instant(wall - int64(off/60))
		_, got := t.In(loc).Zone()
		if got != off || (n == 1 && t == first) {
			continue
		}
		if n == 0 || t < first {
			first = t
		}
		n++
	}
	switch n {
	case 0:
		return jump(loc, guess), Skipped
	case 1:
		return first, Plain
	}
	return first, Repeated
}

// jump finds the instant of the zone change nearest to a skipped time.
func jump(loc *time.Location, near time.Time) Instant {
	lo, hi := InstantOf(near.Add(-24*time.Hour)), InstantOf(near.Add(24*time.Hour))
	_, before := lo.In(loc).Zone()
	for lo+1 < hi {
		mid := lo + (hi-lo)/2
		if _, off := mid.In(loc).Zone(); off == before {
			lo = mid
		} else {
			hi = mid
		}
	}
	return hi
}
