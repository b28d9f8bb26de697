package calendars

import "slices"

// Profile is a count over time, such as the heads of a crew at work: a step
// function that is zero before its first step.
type Profile struct {
	from  []Instant
	count []int
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
	slices.SortFunc(edges, func(a, b edge) int { return int(a.at) - int(b.at) })
	p := &Profile{}
	sum := 0
	for i := 0; i < len(edges); {
		at := edges[i].at
		for ; i < len(edges) && edges[i].at == at; i++ {
			sum += edges[i].by
		}
		n := max(sum, 0)
		if k := len(p.count); k == 0 && n == 0 || k > 0 && p.count[k-1] == n {
			continue
		}
		p.from, p.count = append(p.from, at), append(p.count, n)
	}
	return p
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
	most := 0
	for _, n := range p.count {
		most = max(most, n)
	}
	return most
}

// AtLeast is the calendar of the time at which the count is n or more; n must
// be positive.
func (p *Profile) AtLeast(n int) *Calendar {
	var spans []Span
	for i, c := range p.count {
		if c < n {
			continue
		}
		end := Never
		if i+1 < len(p.from) {
			end = p.from[i+1]
		}
		spans = append(spans, Span{p.from[i], end})
	}
	return New(spans)
}

// Steps yields each stretch of equal count from the first step on.
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
