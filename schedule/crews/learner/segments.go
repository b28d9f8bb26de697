package learner

import "slices"

// fitting is the starts from which unbroken work fits in an opening.
func fitting(runs []segment, work int32) []segment {
	var out []segment
	for _, g := range runs {
		if g.end-g.start >= work {
			out = append(out, segment{start: g.start, end: g.end - work + 1})
		}
	}
	return out
}

// either is the time in one list or the other.
func either(a, b []segment) []segment {
	if a == nil || slices.Equal(a, b) {
		return b
	}
	all := slices.Concat(a, b)
	slices.SortFunc(all, func(x, y segment) int { return int(x.start - y.start) })
	out := all[:1]
	for _, g := range all[1:] {
		if last := &out[len(out)-1]; g.start <= last.end {
			last.end = max(last.end, g.end)
			continue
		}
		out = append(out, g)
	}
	return out
}

// both is the time in one list and in the other.
func both(a, b []segment) []segment {
	out := []segment{}
	for _, g := range a {
		for _, h := range b[after(b, g.start):] {
			if h.start >= g.end {
				break
			}
			out = append(out, segment{start: max(g.start, h.start), end: min(g.end, h.end)})
		}
	}
	return out
}
