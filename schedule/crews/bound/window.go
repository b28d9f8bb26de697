package bound

import (
	"cmp"

	"build.example/turflast/calendars"
)

// Count says how a window's needs are added up.
type Count uint8

// The ways of counting, the plainest first.
const (
	// AtOnce: amounts of nodes that must all be worked on throughout the window, times
	// its minutes, against all that is there.
	AtOnce Count = iota
	// Whole: amounts times worked minutes, against all that is there in the time
	// in which some node that needs it can be worked on.
	Whole
	// Held: amounts times the minutes that they are held for, pauses included,
	// against all that is there, open or not.
	Held
	// Fitting: as Whole, against the most that the amounts can take together: of
	// six places, needs of four each take four.
	Fitting
	// Single: worked minutes of nodes of which no two can be worked on at once,
	// against the minutes in which any of them can.
	Single
	// InTurn: the clock time that two nodes take one after the other, from the
	// earliest start of the first, against the time until the latest finish of the
	// second. Of both orders, it is the one that lacks less.
	InTurn
)

// Window is a stretch of time in which nodes must spend more of a resource than
// there is, if every counting node is to be done by Until.
type Window struct {
	Resource int32 // None: different pairs of nodes share different resources
	Count    Count
	Span     calendars.Span
	Needed   calendars.Minutes // the sum of Minutes times Amount over Nodes, except InTurn
	There    calendars.Minutes // less than Needed
	Lacks    calendars.Minutes // how much longer all that is there would be needed; 0 when nothing is there
	Until    calendars.Instant
	Nodes    []Share // by place in Net.Nodes, rising

	// Derived says that what the nodes must spend in the span follows from other
	// shortages too, not from links, waits and calendars alone.
	Derived bool

	inside bool // all that the nodes do lies in the span
}

// Share is what a node must spend in a window at the least.
type Share struct {
	Node    int32
	Minutes calendars.Minutes // worked, or held when the window counts that
	Amount  int32             // of the resource meanwhile; 1 when counted singly
}

// None is the index of nothing.
const None = -1

// measure sets what is needed, what is there and what is lacking; open is the
// minutes in which something is there.
func (w *Window) measure(needed, there, open int64) {
	w.Needed, w.There, w.Lacks = calendars.Minutes(needed), calendars.Minutes(there), 0
	if there > 0 {
		w.Lacks = calendars.Minutes((needed - there) * open / there)
	}
}

// better says whether w tells more than o. It prefers, in this order: the plainest
// way of counting, a resource that has a name, nothing there at all, the longest
// time lacking, nodes that lie whole in the span, the greatest part lacking, the
// shortest span, the most needed, then the lower resource and the earlier start.
func (w *Window) better(o *Window) bool {
	if o == nil {
		return true
	}
	return cmp.Or(
		cmp.Compare(w.Count, o.Count), first(w.Resource != None, o.Resource != None), first(w.There == 0, o.There == 0),
		cmp.Compare(o.Lacks, w.Lacks), first(w.inside, o.inside),
		cmp.Compare(int64(o.Needed)*int64(w.There), int64(w.Needed)*int64(o.There)),
		cmp.Compare(w.Span.Minutes(), o.Span.Minutes()), cmp.Compare(o.Needed, w.Needed),
		cmp.Compare(w.Resource, o.Resource), cmp.Compare(w.Span.Start, o.Span.Start),
	) < 0
}

// first puts the window for which something holds before one for which it doesn't.
func first(w, o bool) int {
	switch {
	case w == o:
		return 0
	case w:
		return -1
	}
	return 1
}
