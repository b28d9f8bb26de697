package worktime

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// AtWork is the time in which a crew has at least n people at work; n must be
// positive.
func (s *Set) AtWork(c schedule.CrewID, n int) *calendars.Calendar {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.atLeast(need{int(c), n})
}

// There is the time in which at least n machines of a kind are ours; nil for
// always. n must be positive.
func (s *Set) There(m schedule.MachineID, n int) *calendars.Calendar {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.atLeast(need{len(s.Crews) + int(m), n})
}
