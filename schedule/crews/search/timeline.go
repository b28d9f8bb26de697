package search

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/crews"
)

// lanes is how many resources share one timeline: each has 15 bits of a word
// and a guard bit over it, so that one subtraction compares all of them.
const (
	lanes    = 4
	laneBits = 16
	guards   = uint64(0x8000_8000_8000_8000)
)

// timeline is what is free of up to four resources over time: free[i] from
// at[i] until at[i+1], the last for ever.
type timeline struct {
	at   []calendars.Instant
	free []uint64
}

// enough says whether need fits in free, lane by lane.
func enough(free, need uint64) bool { return ((free|guards)-need)&guards == guards }

// newTimeline makes the timeline of the capacities of up to lanes resources.
func newTimeline(capacity []*calendars.Profile) timeline {
	t := timeline{at: []calendars.Instant{calendars.Past}, free: []uint64{0}}
	for lane, c := range capacity {
		c.Steps(func(s calendars.Span, count int) bool {
			from := t.split(s.Start)
			to := len(t.at)
			if s.End != calendars.Never {
				to = t.split(s.End)
			}
			for i := from; i < to; i++ {
				t.free[i] += uint64(count) << (lane * laneBits)
			}
			return true
		})
	}
	return t
}

// withoutGaps returns the capacity of every resource. A resource on duty has in
// each gap what it has after it: no node needs it in a gap, and the timeline gets
// shorter.
func withoutGaps(p *crews.Problem) []*calendars.Profile {
	out := slices.Clone(p.Capacity)
	for r := range out {
		if p.OnDuty == nil || !p.OnDuty[r] {
			continue
		}
		var changes []calendars.Change
		from := calendars.Past
		for s, count := range p.Capacity[r].Steps {
			if count > 0 {
				changes = append(changes, calendars.Change{Span: calendars.Span{Start: from, End: s.End}, By: count})
				from = s.End
			}
		}
		out[r] = calendars.NewProfile(changes)
	}
	return out
}

// copyFrom makes the timeline equal to another, without new memory if possible.
func (t *timeline) copyFrom(o *timeline) {
	t.at = append(t.at[:0], o.at...)
	t.free = append(t.free[:0], o.free...)
}

// find is the piece that holds the instant. The halves are taken without a branch that
// could be guessed wrong.
func (t *timeline) find(x calendars.Instant) int {
	at, base := t.at, 0
	for n := len(at); n > 1; {
		half := n >> 1
		after := (int(x) - int(at[base+half])) >> 63 // -1 when the later half begins after x, or else 0
		base += half &^ after
		n -= half
	}
	return base
}

// split makes a piece start at x and gives its index.
func (t *timeline) split(x calendars.Instant) int {
	i := t.find(x)
	if t.at[i] == x {
		return i
	}
	t.insert(i+1, x)
	return i + 1
}

// take subtracts need over [from, to).
func (t *timeline) take(from, to calendars.Instant, need uint64) {
	i := t.find(from)
	j := i // the piece that holds to, a few pieces on
	for j+1 < len(t.at) && t.at[j+1] <= to {
		j++
	}
	if t.at[j] != to {
		j++
		t.insert(j, to)
	}
	if t.at[i] != from {
		i, j = i+1, j+1
		t.insert(i, from)
	}
	for ; i < j; i++ {
		t.free[i] -= need
	}
}

// insert makes a piece start at x, within piece i-1.
func (t *timeline) insert(i int, x calendars.Instant) {
	t.at = append(t.at, 0)
	copy(t.at[i+1:], t.at[i:])
	t.at[i] = x
	t.free = append(t.free, 0)
	copy(t.free[i+1:], t.free[i:])
	t.free[i] = t.free[i-1]
}

// lastShort is the end of the last piece within [from, to) in which need isn't
// free, or from when it always is; Never when that piece has no end.
func (t *timeline) lastShort(from, to calendars.Instant, need uint64) calendars.Instant {
	for i := t.find(to - 1); ; i-- {
		if !enough(t.free[i], need) {
			if i+1 == len(t.at) {
				return calendars.Never
			}
			return t.at[i+1]
		}
		if t.at[i] <= from {
			return from
		}
	}
}

// firstShort is the start of the first piece within [from, to) in which need
// isn't free, or to when it always is.
func (t *timeline) firstShort(from, to calendars.Instant, need uint64) calendars.Instant {
	for i := t.find(from); i < len(t.at) && t.at[i] < to; i++ {
		if !enough(t.free[i], need) {
			return max(t.at[i], calendars.Past)
		}
	}
	return to
}
