package calendars

import "time"

// toTheMinute is RFC 3339 without the seconds. Older files have moments in this
// form, so it is still read.
const toTheMinute = "2006-01-02T15:04Z07:00"

// lastYear is the last year in which a text may name a moment: far from
// [Never].
const lastYear = 5000

// RFC3339 writes a moment for files, on the clock of a location.
func (t Instant) RFC3339(loc *time.Location) string { return t.In(loc).Format(time.RFC3339) }

// ParseRFC3339 reads what [Instant.RFC3339] writes, with or without seconds. It
// is ok only for whole minutes on the time line.
func ParseRFC3339(text string) (t Instant, ok bool) {
	at, err := time.Parse(time.RFC3339, text)
	if err != nil {
		at, err = time.Parse(toTheMinute, text)
	}
	if err != nil || at.Second() != 0 || at.Nanosecond() != 0 || at.Unix() <= 0 || at.Year() > lastYear {
		return 0, false
	}
	return InstantOf(at), true
}
