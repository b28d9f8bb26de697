package search

import (
	"slices"

	"build.example/turflast/calendars"
)

// equals holds different schedules that cost as little as the best, ties apart: the last
// that were found.
type equals struct {
	list []From
	seen map[uint64]bool
	next int // the place that the next one takes once the list is full
}

// add adds a schedule that isn't held yet, at most so many. One that is better takes the
// place of all.
func (e *equals) add(start []calendars.Instant, mode []uint8, most int, better bool) {
	if better {
		*e = equals{seen: make(map[uint64]bool)}
	}
	x := individual{key: start, mode: mode}
	h := x.hash()
	if e.seen[h] {
		return
	}
	e.seen[h] = true
	f := From{Start: slices.Clone(start), Mode: slices.Clone(mode)}
	if len(e.list) < most {
		e.list = append(e.list, f)
		return
	}
	e.list[e.next] = f
	e.next = (e.next + 1) % most
}
