package worktime

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Weekly is the time that a crew works every week: its own hours by weekday, or else the
// site's, public holidays kept. What dates have besides or in their place isn't in it, nor is
// any closure. It is nil for a crew all of whose hours are dated.
func (s *Set) Weekly(c schedule.CrewID) *calendars.Calendar {
	week := s.plan.Site.Hours.Weekly
	if own := s.plan.Crews[c].Hours; own != nil {
		week = own.Weekly
	}
	b := builder{plan: s.plan, line: s.Line}
	open := calendars.Hours{Weekly: week}.Openings(s.plan.Site.Location, s.Line, b.holidayFrom())
	if len(open) == 0 {
		return nil
	}
	return calendars.New(open)
}
