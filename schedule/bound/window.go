package bound

import (
	"cmp"

	"turflast/calendars"
)

// Count says how a window's needs are added up.
type Count uint8

// The ways of counting, the plainest first.
const (
	// Whole: amounts times worked minutes, against all that is there in the time
	// in which some node that needs it can be worked on.
	Whole Count = iota
	// Held: amounts times the minutes that they are held for, pauses included,
	// against all that is there, open or not.
	Held
	// Fitting: as Whole, against the most that the amounts can take together: of
	// six places, needs of four each take four.
	Fitting
	// Single: worked minutes of nodes of which no two can be worked on at once,
	// against the minutes in which any of them can.
	Single
)

// Window is a stretch of time in which nodes must spend more of a resource than
// there is, if every counting node is to be done by Until.
type Window struct {
	Resource int32 // None: the nodes share different resources two by two
	Count    Count
	Span     calendars.Span
	Needed   calendars.Minutes // the sum of Minutes times Amount over Nodes
	There    calendars.Minutes // less than Needed
	Until    calendars.Instant
	Nodes    []Share // by place in Net.Nodes, rising
}

// Share is what a node must spend in a window at the least.
type Share struct {
	Node    int32
	Minutes calendars.Minutes // worked, or held when so counted
	Amount  int32             // of the resource meanwhile; 1 when counted singly
}

// None stands in an index for nothing.
const None = -1

// better orders windows, the most telling first: the plainest way to count, a
// resource that has a name, the greatest part lacking, the shortest, then by
// resource and start.
func (w *Window) better(o *Window) bool {
	if o == nil {
		return true
	}
	return cmp.Or(
		cmp.Compare(w.Count, o.Count), cmp.Compare(nameless(w), nameless(o)), lacking(w, o),
		cmp.Compare(w.Span.Minutes(), o.Span.Minutes()), cmp.Compare(w.Resource, o.Resource),
		cmp.Compare(w.Span.Start, o.Span.Start),
	) < 0
}

func nameless(w *Window) int {
	if w.Resource == None {
		return 1
	}
	return 0
}

// lacking compares the parts lacking, the greater first: of windows in which
// there is nothing at all, the one that needs more.
func lacking(w, o *Window) int {
	if w.There == 0 && o.There == 0 {
		return cmp.Compare(o.Needed, w.Needed)
	}
	return cmp.Compare(int64(o.Needed)*int64(w.There), int64(w.Needed)*int64(o.There))
}
