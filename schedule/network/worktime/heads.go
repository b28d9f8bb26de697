package worktime

import "build.example/turflast/schedule"

// Heads are the people that the logic programme puts on a task, in order of its
// Crew: of a range the most that ever exist and fit all its zones beside its
// other heads and its machines' places, and never below the least. Where more
// than one range competes for room, the first takes it.
func (s *Set) Heads(t *schedule.Task) []int {
	heads := make([]int, len(t.Crew))
	room := s.Room(t)
	for i, c := range t.Crew {
		heads[i] = c.Least
		room -= c.Least
	}
	for i, c := range t.Crew {
		more := min(c.Most, s.Crews[c.Crew].Max()) - c.Least
		if more = min(more, room); more > 0 {
			heads[i] += more
			room -= more
		}
	}
	return heads
}

// unlimited is more room than any plan needs.
const unlimited = 1 << 30

// Room is how many people fit every zone of a task beside its machines.
func (s *Set) Room(t *schedule.Task) int {
	room := unlimited
	for _, z := range t.Zones {
		if people := s.plan.Zones[z].People; people > 0 {
			room = min(room, people)
		}
	}
	for _, m := range t.Machines {
		room -= m.Count * s.plan.Machines[m.Machine].Places
	}
	return room
}
