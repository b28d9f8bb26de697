// Package network turns a plan into a dense activity network: nodes that take
// working time and arcs that hold them apart, renumbered in topological order.
//
// [Build] makes a network of nodes and arcs in memory and knows nothing of plans;
// [Expand] makes the nodes and arcs of a plan, records where each arc came from,
// and drops arcs that others imply.
package network

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Node is one activity. Its start is on an open minute of its calendar and its
// finish at the end of one, Work open minutes later. A node without work starts
// and finishes at the same moment, which need not be open.
type Node struct {
	Work     calendars.Minutes
	Calendar int32 // index of Calendars
	Place    int32 // index of Calendars: lags to the node and its hold point run in its open time
	Unbroken bool  // the work fits in one opening
	Joint    bool  // stands for no activity: gathers arcs, takes no time
	Optional bool  // bounds the late dates of other optional nodes alone
	Fixed    bool  // takes no time and stands at Earliest, whatever comes before it

	Cure calendars.Minutes // clock wait after the finish
	Hold int32             // index of Holds, or None

	Earliest     calendars.Instant // lowest start; Past for none
	LatestStart  calendars.Instant // dates that may break; Never for none
	LatestFinish calendars.Instant
	LatestDone   calendars.Instant
}

// None is the index of nothing.
const None = -1

// Hold is a sign-off between a finish and what follows it. It begins at the finish
// or at From, whichever is later, and lasts Takes open minutes of the node's
// place. With appointments, it begins at the first of them from then on and lasts
// Takes minutes on the clock, as it does OnTheClock without any. It is over at Least
// or later.
type Hold struct {
	Takes        calendars.Minutes
	OnTheClock   bool
	From, Least  calendars.Instant   // Past for any time
	Appointments []calendars.Instant // sorted; none: any time
	Right        calendars.Minutes
}

// Arc makes an event of To wait for an event of From. Nodes are numbered as given
// to Build.
type Arc struct {
	From, To  int32
	Kind      schedule.LinkKind
	HasWithin bool
	Dropped   bool // implied by others; kept for its origin
	Idle      bool // at an activity without a place, which holds nothing; kept for its origin
	Wait      schedule.Wait
	Within    calendars.Minutes // most clock time from event to event
}

// plain says whether the arc only requires that From is done before To starts.
func (a *Arc) plain() bool {
	return a.Kind == schedule.FinishStart && a.Wait.Kind == schedule.OwnCure
}

// holds says whether the arc makes its follower wait by itself.
func (a *Arc) holds() bool { return !a.Dropped && !a.Idle }

// special says whether the arc holds its follower in another way than a plain one.
func (a *Arc) special() bool { return a.holds() && !a.plain() }

// Spec is what a network is built from. No node is placed outside Line.
type Spec struct {
	Line      calendars.Span
	Calendars []*calendars.Calendar
	Holds     []Hold
	Nodes     []Node
	Arcs      []Arc
}

// Network is a built network. Nodes are in topological order. The passes read the
// slices, so nothing may change them meanwhile.
type Network struct {
	Line      calendars.Span
	Calendars []*calendars.Calendar
	Holds     []Hold
	Nodes     []Node
	Number    []int32 // a node's place in Nodes by its number in the Spec
	Spec      []int32 // the other way round

	In, Out  Plain   // arcs that only require one node to be done before the other starts
	InOther  Special // all other arcs, by their follower
	OutOther Special // the same arcs, by their predecessor
	Withins  []Within
}

// Plain lists numbers for each node, Ends[First[i]:First[i+1]]: in a Network the
// nodes at the other ends of its plain arcs, in a Precedence the indices of its
// arcs.
type Plain struct{ First, Ends []int32 }

// Special lists, for each node, its arcs of other kinds.
type Special struct {
	First []int32 // empty when there are none at all
	Arcs  []End
}

// End is an arc seen from one of its nodes.
type End struct {
	Node int32 // the other end
	Kind schedule.LinkKind
	Wait schedule.Wait
}

// Within limits the clock time from an event of From to an event of To; Kind says
// which events.
type Within struct {
	From, To int32
	Kind     schedule.LinkKind
	Most     calendars.Minutes
}

// Events returns the two moments between which a longest wait runs, that of From
// first.
func (w *Within) Events(start, finish []calendars.Instant) (event, follows calendars.Instant) {
	event, follows = start[w.From], start[w.To]
	if w.Kind.FromFinish() {
		event = finish[w.From]
	}
	if w.Kind.ToFinish() {
		follows = finish[w.To]
	}
	return event, follows
}

// Of returns the numbers listed for node i.
func (p *Plain) Of(i int) []int32 { return p.Ends[p.First[i]:p.First[i+1]] }

// Of returns the arcs of node i.
func (s *Special) Of(i int) []End {
	if len(s.First) == 0 {
		return nil
	}
	return s.Arcs[s.First[i]:s.First[i+1]]
}

// Build orders the nodes and lays out the arcs. The error is a [*Cycle] when
// arcs run in a ring. Build takes time linear in nodes and arcs.
func Build(s Spec) (*Network, error) {
	order, err := topological(s)
	if err != nil {
		return nil, err
	}
	n := &Network{
		Line: s.Line, Calendars: s.Calendars, Holds: s.Holds,
		Nodes:  make([]Node, len(s.Nodes)),
		Number: make([]int32, len(s.Nodes)), Spec: order,
	}
	for at, was := range order {
		n.Nodes[at] = s.Nodes[was]
		n.Number[was] = int32(at)
	}
	n.layOutPlain(s.Arcs)
	n.layOutOther(s.Arcs)
	return n, nil
}

func (n *Network) layOutPlain(arcs []Arc) {
	in, out := make([]int32, len(n.Nodes)+1), make([]int32, len(n.Nodes)+1)
	for i := range arcs {
		if a := &arcs[i]; a.plain() && a.holds() {
			in[n.Number[a.To]+1]++
			out[n.Number[a.From]+1]++
		}
	}
	sum(in)
	sum(out)
	n.In = Plain{in, make([]int32, in[len(in)-1])}
	n.Out = Plain{out, make([]int32, out[len(out)-1])}
	atIn, atOut := append([]int32(nil), in...), append([]int32(nil), out...)
	for i := range arcs {
		a := &arcs[i]
		if !a.plain() || !a.holds() {
			continue
		}
		from, to := n.Number[a.From], n.Number[a.To]
		n.In.Ends[atIn[to]] = from
		atIn[to]++
		n.Out.Ends[atOut[from]] = to
		atOut[from]++
	}
}

func (n *Network) layOutOther(arcs []Arc) {
	count := 0
	for i := range arcs {
		a := &arcs[i]
		if a.HasWithin && !a.Idle {
			n.Withins = append(n.Withins, Within{n.Number[a.From], n.Number[a.To], a.Kind, a.Within})
		}
		if a.special() {
			count++
		}
	}
	if count == 0 {
		return
	}
	in, out := make([]int32, len(n.Nodes)+1), make([]int32, len(n.Nodes)+1)
	for i := range arcs {
		if a := &arcs[i]; a.special() {
			in[n.Number[a.To]+1]++
			out[n.Number[a.From]+1]++
		}
	}
	sum(in)
	sum(out)
	n.InOther = Special{in, make([]End, count)}
	n.OutOther = Special{out, make([]End, count)}
	atIn, atOut := append([]int32(nil), in...), append([]int32(nil), out...)
	for i := range arcs {
		a := &arcs[i]
		if !a.special() {
			continue
		}
		from, to := n.Number[a.From], n.Number[a.To]
		n.InOther.Arcs[atIn[to]] = End{from, a.Kind, a.Wait}
		atIn[to]++
		n.OutOther.Arcs[atOut[from]] = End{to, a.Kind, a.Wait}
		atOut[from]++
	}
}

// sum turns counts into running totals.
func sum(counts []int32) {
	for i := 1; i < len(counts); i++ {
		counts[i] += counts[i-1]
	}
}
