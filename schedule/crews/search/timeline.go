package search

import (
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

// level is a count from a moment until the next level.
type level struct {
	from  calendars.Instant
	count int
}

// newTimeline makes the timeline of the levels of up to lanes resources.
func newTimeline(of [][]level) (t timeline) {
	var next [lanes]int
	word := uint64(0)
	for at := calendars.Past; at != calendars.Never; {
		after := calendars.Never
		for lane, levels := range of {
			for k := next[lane]; k < len(levels) && levels[k].from <= at; k++ {
				word &^= (1<<laneBits - 1) << (lane * laneBits)
				word |= uint64(levels[k].count) << (lane * laneBits)
				next[lane]++
			}
			if k := next[lane]; k < len(levels) {
				after = min(after, levels[k].from)
			}
		}
		t.at, t.free = append(t.at, at), append(t.free, word)
		at = after
	}
	return t
}

// levelsOf returns the capacity of a resource over time. One on duty has in each gap
// what it has after it: no node needs it in a gap, and the timeline gets shorter.
func levelsOf(p *crews.Problem, r int) (out []level) {
	duty, from := p.OnDuty != nil && p.OnDuty[r], calendars.Past
	for s, count := range p.Capacity[r].Steps {
		switch {
		case !duty:
			out = append(out, level{s.Start, count})
		case count > 0:
			if n := len(out); n == 0 || out[n-1].count != count {
				out = append(out, level{from, count})
			}
			from = s.End
		}
	}
	if duty && from != calendars.Never {
		out = append(out, level{from, 0})
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
