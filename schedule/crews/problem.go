// Package crews is the problem of finite hands: a network whose nodes share
// resources, and what a schedule of it is weighed by. It has no algorithms. What
// makes such a problem of a plan, what searches it, what bounds it and what reads
// it from a benchmark stand side by side on it.
package crews

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule/network"
)

// Need is an amount of one resource that a node holds while it is worked on. One
// that Stays is held from the node's start to its finish, pauses included, and for
// After on the clock beyond the finish; a need with an After always stays.
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
	Modes    [][]Mode             // by place in Net.Nodes; the first is how Net has the node
	Capacity []*calendars.Profile // the count of each resource over time
	// OnDuty marks resources that come and go and are never asked for while they are
	// gone: the calendar of a node that needs some is open only while there is that
	// much. It saves time and changes no schedule; nil for none.
	OnDuty []bool
	Counts []bool // nodes that the last finish counts; nil: all
	Dates  []Date // that may break
	// Content is a last finish that is as good as any sooner; 0 for none.
	Content  calendars.Instant
	Bookings []Booking // starts that may be booked otherwise

	// Tie weighs schedules that are equal in lateness and last finish; the
	// smaller is the better, by the first figure that differs. It may be nil.
	Tie func(t *network.Times, mode []uint8) [5]int64
}

// Event is a moment of a node.
type Event uint8

// The events of a node.
const (
	AtStart Event = iota
	AtFinish
	AtDone
)

// Weight is how a late date counts, the heaviest first.
type Weight uint8

// The weights of dates.
const (
	Handover      Weight = iota // the greatest lateness counts
	ByDates                     // the sum counts
	KeepsAndWaits               // the sum counts
)

// Date is the latest moment of an event.
type Date struct {
	Node    int32
	Event   Event
	Weight  Weight
	Booking int32             // or None: Limit is counted from this booking
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

// Booking is a node whose earliest start may be rebooked: its start, brought
// between Earliest and Latest, is what dates count from.
type Booking struct {
	Node             int32
	Earliest, Latest calendars.Instant
}

// At is the booking for a start.
func (b *Booking) At(start calendars.Instant) calendars.Instant {
	return min(max(start, b.Earliest), b.Latest)
}

// Order is a schedule whose order is kept: Nodes by their starts in Times. Every
// link but those to finishes, and every hand-on, runs along it. Givers, by node,
// hand on to it at their finish, whatever their cures and hold points; Takers are
// those that it hands on to. Late is the latest start of every node.
type Order struct {
	Nodes          []int32
	Times          *network.Times
	Givers, Takers [][]int32
	Late           []calendars.Instant
}
