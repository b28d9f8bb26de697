package calendars

import "time"

// toTheMinute is RFC 3339 but for its seconds. Files were written so once, and
// are read still.
const toTheMinute = "2006-01-02T15:04Z07:00"

// lastYear is the last in which a text may name a moment: far from [Never].
const lastYear = 5000

// RFC3339 writes a moment for files, on the clock of a location.
func (t Instant) RFC3339(loc *time.Location) string { return t.In(loc).Format(time.RFC3339) }

// ParseRFC3339 reads what [Instant.RFC3339] writes, and the same without its
// seconds. It is ok for whole minutes only, and only on the time line.
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
