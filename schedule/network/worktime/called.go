package worktime

import (
	"time"

	"build.example/turflast/calendars"
)

// NextWeekday is the beginning of the next day after a moment's that is neither on a weekend
// nor a public holiday.
func (s *Set) NextWeekday(at calendars.Instant) calendars.Instant {
	loc := s.plan.Site.Location
	holidays := builder{plan: s.plan}.holidayFrom()
	for d := calendars.DateIn(at, loc) + 1; ; d++ {
		if w := d.Weekday(); w != time.Saturday && w != time.Sunday && holidays(d) == calendars.Day {
			from, _ := calendars.At(loc, d, 0)
			return from
		}
	}
}
