package calendars

// Intersect is the time at which all the calendars are open. It is one of them,
// the same pointer, when that one is never open without the others.
func Intersect(first *Calendar, rest ...*Calendar) *Calendar {
	open, same := first.open, first
	for _, other := range rest {
		if other == same {
			continue
		}
		cut, total := overlap(open, other.open)
		switch {
		case same != nil && total == same.total:
		case total == other.total:
			open, same = other.open, other
		default:
			open, same = cut, nil
		}
	}
	if same != nil {
		return same
	}
	return build(open)
}

// overlap is what two lists of openings share, and its minutes.
func overlap(a, b []opening) (open []opening, total Minutes) {
	open = make([]opening, 0, max(len(a), len(b)))
	for i, j := 0, 0; i < len(a) && j < len(b); {
		s, e := max(a[i].start, b[j].start), min(a[i].end, b[j].end)
		if s < e {
			open = append(open, opening{start: s, end: e})
			total += Minutes(e - s)
		}
		if a[i].end < b[j].end {
			i++
		} else {
			j++
		}
	}
	return open, total
}
