package calendars

import (
	"cmp"
	"slices"
)

// Profile is a count over time, such as the heads of a crew at work: an
// immutable step function that is zero before its first step. Looking up a
// count takes logarithmic time and allocates nothing.
type Profile struct {
	from   []Instant
	count  []int
	levels []int // the counts above zero that occur, rising
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
	p := &Profile{}
	sum := 0
	for i := 0; i < len(edges); {
		at := edges[i].at
		for ; i < len(edges) && edges[i].at == at; i++ {
			sum += edges[i].by
		}
		if at != Never {
			p.step(at, max(sum, 0))
		}
	}
	return p
}

// step appends a count that holds from an instant on.
func (p *Profile) step(at Instant, n int) {
	if k := len(p.count); k == 0 && n == 0 || k > 0 && p.count[k-1] == n {
		return
	}
	p.from, p.count = append(p.from, at), append(p.count, n)
	if i, found := slices.BinarySearch(p.levels, n); !found && n > 0 {
		p.levels = slices.Insert(p.levels, i, n)
	}
}

// At is the count at t.
func (p *Profile) At(t Instant) int {
	i, found := slices.BinarySearch(p.from, t)
	if found {
		return p.count[i]
	}
	if i == 0 {
		return 0
	}
	return p.count[i-1]
}

// Max is the largest count that ever holds.
func (p *Profile) Max() int {
	if len(p.levels) == 0 {
		return 0
	}
	return p.levels[len(p.levels)-1]
}

// Level is the least count that ever holds and is n or more; n itself when none
// is. There is n or more exactly when there is that count or more.
func (p *Profile) Level(n int) int {
	if i, _ := slices.BinarySearch(p.levels, n); i < len(p.levels) {
		return p.levels[i]
	}
	return n
}

// AtLeast is the calendar of the time at which the count is n or more; n must
// be positive.
func (p *Profile) AtLeast(n int) *Calendar {
	var spans []Span
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
	for i, n := range p.count {
		end := Never
		if i+1 < len(p.from) {
			end = p.from[i+1]
		}
		if !yield(Span{p.from[i], end}, n) {
			return
		}
	}
}
