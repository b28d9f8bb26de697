package verify

import (
	"cmp"
	"slices"
	"sort"

	"build.example/turflast/calendars"
)

// open is a sorted list of open spans that neither overlap nor touch.
type open []calendars.Span

// join makes a list of spans in any order; empty ones vanish.
func join(spans []calendars.Span) open {
	slices.SortFunc(spans, func(a, b calendars.Span) int { return cmp.Compare(a.Start, b.Start) })
	var out open
	for _, s := range spans {
		out = out.with(s)
	}
	return out
}

// with appends a span that starts no earlier than the last; where they touch
// they become one.
func (o open) with(s calendars.Span) open {
	if s.Start >= s.End {
		return o
	}
	if n := len(o); n > 0 && s.Start <= o[n-1].End {
		o[n-1].End = max(o[n-1].End, s.End)
		return o
	}
	return append(o, s)
}

// from is the index of the first span that ends after t.
func (o open) from(t calendars.Instant) int {
	return sort.Search(len(o), func(i int) bool { return o[i].End > t })
}

// holds says whether the minute that starts at t is open.
func (o open) holds(t calendars.Instant) bool {
	i := o.from(t)
	return i < len(o) && o[i].Start <= t
}

// meet is the time open in both.
func (o open) meet(other open) open {
	if len(o) == 0 {
		return nil
	}
	var out open
	j := other.from(o[0].Start)
	for i := 0; i < len(o) && j < len(other); {
		s := calendars.Span{Start: max(o[i].Start, other[j].Start), End: min(o[i].End, other[j].End)}
		out = out.with(s)
		if o[i].End < other[j].End {
			i++
		} else {
			j++
		}
	}
	return out
}

// without is the time open less the closures.
func (o open) without(closed []calendars.Closure) open {
	for _, shut := range closed {
		o = o.less(open{shut.Span})
	}
	return o
}

// less is the time open less other spans.
func (o open) less(spans open) open {
	for _, shut := range spans {
		var out open
		for _, s := range o {
			out = out.with(calendars.Span{Start: s.Start, End: min(s.End, shut.Start)})
			out = out.with(calendars.Span{Start: max(s.Start, shut.End), End: s.End})
		}
		o = out
	}
	return o
}

// count is the number of open minutes in [a, b), a before b.
func (o open) count(a, b calendars.Instant) calendars.Minutes {
	n := calendars.Minutes(0)
	for i := o.from(a); i < len(o) && o[i].Start < b; i++ {
		n += calendars.Minutes(min(b, o[i].End) - max(a, o[i].Start))
	}
	return n
}

// total is the number of open minutes.
func (o open) total() calendars.Minutes {
	n := calendars.Minutes(0)
	for _, s := range o {
		n += calendars.Minutes(s.End - s.Start)
	}
	return n
}

// after is the earliest instant by which n open minutes have passed since t, or
// Never.
func (o open) after(t calendars.Instant, n calendars.Minutes) calendars.Instant {
	if n == 0 {
		return t
	}
	for i := o.from(t); i < len(o); i++ {
		at := max(t, o[i].Start)
		if here := calendars.Minutes(o[i].End - at); n > here {
			n -= here
			continue
		}
		return at + calendars.Instant(n)
	}
	return calendars.Never
}

// before is the latest instant from which n open minutes pass until t, or Past.
func (o open) before(t calendars.Instant, n calendars.Minutes) calendars.Instant {
	if n == 0 {
		return t
	}
	for i := o.from(t - 1); i >= 0; i-- {
		if i == len(o) || o[i].Start >= t {
			continue
		}
		end := min(t, o[i].End)
		if here := calendars.Minutes(end - o[i].Start); n > here {
			n -= here
			continue
		}
		return end - calendars.Instant(n)
	}
	return calendars.Past
}
