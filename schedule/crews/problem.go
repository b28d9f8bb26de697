// Package crews describes the problem of finite hands: a network whose nodes share
// resources, and the figures by which its schedules are compared. It has no
// algorithms. The packages that make such a problem from a plan or a benchmark,
// search it and bound it all build on it.
package crews

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule/network"
)

// Need is an amount of one resource that a node holds while it is worked on. A
// need that Stays is held from the node's start to its finish, pauses included,
// and then for After minutes on the clock. A need with an After always stays.
type Need struct {
	Resource int32
	Amount   int32
	Stays    bool
	After    calendars.Minutes
}

// MostAmount is the largest capacity and need.
const MostAmount = 1<<15 - 1

// Mode is one way to do a node.
type Mode struct {
	Work     calendars.Minutes
	Calendar int32 // index of Net.Calendars
	Needs    []Need
}

// Problem is a network whose nodes share resources.
type Problem struct {
	Net      *network.Network
	Modes    [][]Mode             // by place in Net.Nodes; the first is the one in Net
	Capacity []*calendars.Profile // the count of each resource over time
	// OnDuty marks resources that come and go and are never needed while they are
	// gone: the calendar of a node that needs an amount is open only while that much
	// is there. The mark saves time and changes no schedule; nil marks none.
	OnDuty []bool
	Counts []bool // nodes that count for the last finish; nil: all
	Dates  []Date // that may break
	// Content is a last finish that no sooner one betters; 0 for none.
	Content  calendars.Instant
	Bookings []Booking // starts that may be rebooked
	Told     []Told    // starts that only dates may move, and not what is left out or the last finish

	// Tie ranks schedules that are equal in lateness and last finish: the first figure
	// that differs decides, and less is better. It may be nil.
	Tie func(t *network.Times, mode []uint8) Ties
}

// Ties are the figures that rank schedules equal in lateness and last finish, the
// heaviest first.
type Ties [6]int64

// Event is a moment of a node.
type Event uint8

// The events of a node.
const (
	AtStart Event = iota
	AtFinish
	AtDone
)

// Weight is how a late date counts, heavier weights first.
type Weight uint8

// The weights of dates.
const (
	Handover     Weight = iota // the greatest lateness counts
	ByDates                    // the sum counts
	KeepsAndGate               // the sum counts: keeps, openings of the gate, longest waits that are over
	Left                       // the sum counts; a node that is late for one is better left out

	weights // how many there are
)

// Lateness is how late dates are by their weight, in minutes on the clock.
type Lateness [weights]int64

// Add counts a date of a weight that is late by some minutes; not above 0, it holds.
func (l *Lateness) Add(w Weight, minutes int64) {
	switch {
	case minutes <= 0:
	case w == Handover:
		l[w] = max(l[w], minutes)
	default:
		l[w] += minutes
	}
}

// Date is the latest moment of an event.
type Date struct {
	Node    int32
	Event   Event
	Weight  Weight
	Booking int32             // the one from which Limit counts, or None
	At      calendars.Instant // when Booking is None
	Limit   calendars.Minutes // from the booking
}

// Of is the moment of the event in a schedule.
func (d *Date) Of(t *network.Times) calendars.Instant {
	switch d.Event {
	case AtStart:
		return t.Start[d.Node]
	case AtFinish:
		return t.Finish[d.Node]
	}
	return t.Done[d.Node]
}

// Latest is the latest moment that a date allows in a schedule.
func (p *Problem) Latest(d *Date, t *network.Times) calendars.Instant {
	if d.Booking < 0 {
		return d.At
	}
	b := &p.Bookings[d.Booking]
	return b.At(t.Start[b.Node]).Plus(d.Limit)
}

// Told is a node that somebody counts on: its start and its mode.
type Told struct {
	Node  int32
	Start calendars.Instant
	Mode  uint8
}

// Booking is a node whose earliest start may be rebooked. Dates count from its
// start, clamped to Earliest and Latest.
type Booking struct {
	Node             int32
	Earliest, Latest calendars.Instant
}

// At is the booked moment for a start.
func (b *Booking) At(start calendars.Instant) calendars.Instant {
	return min(max(start, b.Earliest), b.Latest)
}

// Order is a schedule whose order is kept. Nodes are sorted by their starts in
// Times. Every hand-on runs along that order, and so does every link except those
// to finishes, with a lead or between equal starts. Givers lists, for each node,
// the nodes that hand on to it when they finish, whatever their cures and hold
// points; Takers lists the nodes that it hands on to. Late is the latest start of
// each node.
type Order struct {
	Nodes          []int32
	Times          *network.Times
	Givers, Takers [][]int32
	Late           []calendars.Instant
}
