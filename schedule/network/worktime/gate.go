package worktime

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// shortBreak is the longest break in the hours of the gate that lorries stay for.
const shortBreak = calendars.Hour

// gateOpenings returns the openings of the gate from when the site opens: the
// stretches of its hours, short breaks included.
func gateOpenings(gate *calendars.Calendar, from, upto calendars.Instant) *calendars.Calendar {
	var out []calendars.Span
	for s := range gate.Openings(from, upto) {
		if n := len(out); n > 0 && calendars.Minutes(s.Start-out[n-1].End) <= shortBreak {
			out[n-1].End = s.End
			continue
		}
		out = append(out, s)
	}
	return calendars.New(out)
}

// GateShuts is the end of the opening in which a lorry that comes at a moment is
// to be unloaded: the one that holds the moment, or else the next. A lorry that
// isn't begun by then is sent away. It is Never when the gate doesn't open any
// more.
func (s *Set) GateShuts(arrives calendars.Instant) calendars.Instant {
	if opening, found := s.openings.Opening(arrives); found {
		return opening.End
	}
	return calendars.Never
}

// WaitingTime is how long a lorry stands beyond what it stands for nothing, until
// it is begun; none for one that is sent away, and for one that is never begun.
func (s *Set) WaitingTime(d *schedule.Delivery, arrives, begun calendars.Instant) calendars.Minutes {
	if begun == calendars.Never || begun > s.GateShuts(arrives) {
		return 0
	}
	return max(calendars.Minutes(begun-arrives)-d.Waits, 0)
}
