package calendars

import (
	"cmp"
	"slices"
)

// Profile is a count over time, such as the heads of a crew at work: an
// immutable step function that is zero before its first step. Looking up a
// count takes logarithmic time and allocates nothing.
type Profile struct {
	steps  []step
	levels []int // the counts above zero that occur, rising
}

// step says the count from an instant on.
type step struct {
	from  Instant
	count int
}

// Change adds By to the count over Span.
type Change struct {
	Span Span
	By   int
}

// NewProfile sums changes; where the sum is negative the count is zero.
func NewProfile(changes []Change) *Profile {
	type edge struct {
		at Instant
		by int
	}
	edges := make([]edge, 0, 2*len(changes))
	for _, c := range changes {
		if c.Span.Start < c.Span.End && c.By != 0 {
			edges = append(edges, edge{c.Span.Start, c.By}, edge{c.Span.End, -c.By})
		}
	}
	slices.SortFunc(edges, func(a, b edge) int { return cmp.Compare(a.at, b.at) })
	p := &Profile{steps: make([]step, 0, len(edges))}
	sum := 0
	for i := 0; i < len(edges); {
		at := edges[i].at
		for ; i < len(edges) && edges[i].at == at; i++ {
			sum += edges[i].by
		}
		if at != Never {
			p.add(step{at, max(sum, 0)})
		}
	}
	return p
}

func (p *Profile) add(s step) {
	if k := len(p.steps); k > 0 && p.steps[k-1].count == s.count {
		return
	}
	p.steps = append(p.steps, s)
	if i, found := slices.BinarySearch(p.levels, s.count); !found && s.count > 0 {
		p.levels = slices.Insert(p.levels, i, s.count)
	}
}

// At is the count at t.
func (p *Profile) At(t Instant) int {
	i, found := slices.BinarySearchFunc(p.steps, t, func(s step, t Instant) int { return cmp.Compare(s.from, t) })
	if found {
		return p.steps[i].count
	}
	if i == 0 {
		return 0
	}
	return p.steps[i-1].count
}

// Max is the largest count that ever holds.
func (p *Profile) Max() int {
	if len(p.levels) == 0 {
		return 0
	}
	return p.levels[len(p.levels)-1]
}

// Level is the least count of the profile that is n or more, or n itself when
// there is none. The profile is at n or more exactly while it is at that level
// or more.
func (p *Profile) Level(n int) int {
	if i, _ := slices.BinarySearch(p.levels, n); i < len(p.levels) {
		return p.levels[i]
	}
	return n
}

// AtLeast is the calendar of the time at which the count is n or more; n must
// be positive.
func (p *Profile) AtLeast(n int) *Calendar {
	spans := make([]Span, 0, len(p.steps)/2+1)
	for s, count := range p.Steps {
		if count >= n {
			spans = append(spans, s)
		}
	}
	return New(spans)
}

// Steps yields each stretch of equal count from the first step on; the last one
// ends at Never.
func (p *Profile) Steps(yield func(Span, int) bool) {
	for i, at := range p.steps {
		end := Never
		if i+1 < len(p.steps) {
			end = p.steps[i+1].from
		}
		if !yield(Span{at.from, end}, at.count) {
			return
		}
	}
}
