package worktime

import "build.example/turflast/schedule"

// Heads returns the people that the logic programme puts on a task, in the order
// of its Crew. Of a range it takes the most that the crew ever has and that fit in
// all the task's zones beside its other heads and its machines' places, but at
// least the range's least. When several ranges compete for room, the first takes
// it.
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

// Room is how many people fit in every zone of a task beside those of its machines
// that stand there.
func (s *Set) Room(t *schedule.Task) int {
	room := unlimited
	for _, z := range t.Zones {
		if people := s.plan.Zones[z].People; people > 0 {
			room = min(room, people-s.plan.RoomIn(z, t.Zones, 0, t.Machines))
		}
	}
	return room
}
