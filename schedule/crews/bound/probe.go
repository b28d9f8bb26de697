package bound

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/crews"
)

// probe cuts off parts of the dates in which no start is possible: it supposes
// that a node starts at one end of its dates and, when that fails, takes that end
// off (shaving: Carlier and Pinson, 1994; Martin and Shmoys, 1996). It returns
// true when some node is left without a place.
func (s *narrowing) probe() bool {
	order := s.wanting()
	for again := true; again && !s.spent(); {
		again = false
		for _, o := range order {
			cut, failed := s.shave(o)
			if failed {
				return true
			}
			again = again || cut
		}
	}
	return false
}

// wanting lists the options that may start at more than one moment, those with
// the least choice first.
func (s *narrowing) wanting() []int32 {
	var out []int32
	for o := range s.options {
		if !s.out[o] && s.options[o].Work > 0 && s.lo[o] < s.hi[o] && len(s.options[o].needs) > 0 {
			out = append(out, int32(o))
		}
	}
	slices.SortFunc(out, func(a, b int32) int {
		return cmp.Or(cmp.Compare(s.hi[a]-s.lo[a], s.hi[b]-s.lo[b]), cmp.Compare(a, b))
	})
	return out
}

// shave cuts off ends of an option's dates. It returns whether it cut any, and
// whether that leaves no schedule.
func (s *narrowing) shave(o int32) (cut, failed bool) {
	c := s.calendar(o)
	for _, early := range []bool{true, false} {
		for part := s.hi[o] - s.lo[o]; part > 0; part = s.unit.Down(part / 2) {
			if s.out[o] || s.spent() {
				return cut, false
			}
			size := s.unit.Down(min(part, s.hi[o]-s.lo[o]) / 2)
			upto, from := s.lo[o]+size, s.hi[o]-size
			s.saved.copyFrom(s.dates)
			s.only(o)
			if early {
				s.roof[o] = min(s.roof[o], startOf(c, upto))
			} else {
				s.floor[o] = max(s.floor[o], startOf(c, from))
			}
			fails := s.fails()
			s.copyFrom(s.saved)
			if !fails {
				continue
			}
			cut = true
			if early {
				s.floor[o] = max(s.floor[o], startOf(c, upto+s.unit.Length))
			} else {
				s.roof[o] = min(s.roof[o], sooner(s.unit, c, from))
			}
			if s.fails() {
				return cut, true
			}
		}
	}
	return cut, false
}

// sooner is the start of the open unit before the one that starts with the k-th open
// minute; Past when that is the first.
func sooner(u crews.Unit, c *calendars.Calendar, k calendars.Minutes) calendars.Instant {
	if k == 0 {
		return calendars.Past
	}
	return startOf(c, k-u.Length)
}

// only rules out all options of a node but one.
func (s *narrowing) only(o int32) {
	node := s.options[o].node
	for k := s.first[node]; k < s.first[node+1]; k++ {
		s.out[k] = s.out[k] || k != o
	}
}
