package sitelog

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
)

// Numbers returns the number of each event within the day on which it was true, by id,
// as people call it: from 1, in the order of writing, so that another event, of whatever
// moment, gives no event another number; only a merge of two logs may.
func Numbers(events []Event, at func(calendars.Instant) calendars.Date) map[string]int {
	order := make([]*Event, len(events))
	for i := range events {
		order[i] = &events[i]
	}
	slices.SortFunc(order, asWritten)
	last, out := map[calendars.Date]int{}, make(map[string]int, len(events))
	for _, e := range order {
		id, on := e.ID, at(e.At)
		if out[id] == 0 {
			last[on]++
			out[id] = last[on]
		}
	}
	return out
}

// asWritten orders events by when they were written, then by id.
func asWritten(a, b *Event) int {
	return cmp.Or(cmp.Compare(a.Written, b.Written), cmp.Compare(a.ID, b.ID))
}

// LastOf returns the event that a writer wrote last, of those that aren't taken back and
// take back no other; nil when there is none.
func LastOf(events []Event, by string) *Event {
	undone := Replay(events, calendars.Never).Undone
	var last *Event
	for i := range events {
		e := &events[i]
		if e.What == Undone || undone[e.ID] || e.By != by {
			continue
		}
		if last == nil || e.Written > last.Written || e.Written == last.Written && e.ID > last.ID {
			last = e
		}
	}
	return last
}

// Find returns the event with an id, or nil.
func Find(events []Event, id string) *Event {
	if i := slices.IndexFunc(events, func(e Event) bool { return e.ID == id }); i >= 0 {
		return &events[i]
	}
	return nil
}
