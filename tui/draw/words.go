// Package draw turns a programme into frames of text: data, a size and a theme
// in, a string out. It knows nothing of keys, messages or the terminal, and it
// computes no schedule.
//
// Every frame is exactly as high as asked and no line is wider than asked,
// whatever the names in the plan hold. Meaning is carried by shape first, so a
// frame without a theme reads the same.
package draw

import (
	"turflast/calendars"
	"turflast/schedule"
)

// Words are the sentences and figures of one plan, the same as in reports and
// on paper.
type Words interface {
	Moment(t calendars.Instant) string           // Tue 4 May 10:30
	Day(d calendars.Date) string                 // Tue 4 May
	Work(m calendars.Minutes) string             // working time: 3 h 20
	Clock(m calendars.Minutes) string            // time on the clock: 24 h, 2 d
	Verdict(g *schedule.Programme) string        // the hand-over margin and the aim, one sentence
	Why(g *schedule.Programme, t schedule.TaskID) string
	WhyUnload(g *schedule.Programme, d schedule.DeliveryID) string
	Float(g *schedule.Programme, t schedule.TaskID) string
	Break(b schedule.Break) string // a broken date, and by how much
	Caution(hazard string) string  // the usual caution, which defers to local codes and licensed practice
}

// Hours are the calendars that frames are drawn by.
type Hours struct {
	Site   *calendars.Calendar
	Places []*calendars.Calendar // by ZoneID: the site's for a zone on site, else its own
	Crews  []*calendars.Profile  // by CrewID: heads at work
}
