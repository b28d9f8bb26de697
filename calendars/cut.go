package calendars

// Cut is a calendar less some spans, in memory that it reuses: the next cut
// allocates nothing once there is room. It isn't safe for several goroutines, and
// the next cut invalidates the calendar that the last one gave.
type Cut struct{ c Calendar }

// Of is what is left of c within a span, without spans that are sorted and don't
// overlap.
func (x *Cut) Of(c *Calendar, within Span, without []Span) *Calendar {
	open := x.c.open[:0]
	for i := c.find(within.Start); i < len(c.open) && c.open[i].start < within.End; i++ {
		start, end := max(within.Start, c.open[i].start), min(within.End, c.open[i].end)
		for len(without) > 0 && without[0].Start < end {
			if start < without[0].Start {
				open = append(open, opening{start: start, end: without[0].Start})
			}
			start = max(start, without[0].End)
			if without[0].End > end {
				break
			}
			without = without[1:]
		}
		if start < end {
			open = append(open, opening{start: start, end: end})
		}
	}
	x.c.open = open
	x.c.index()
	return &x.c
}
