package search

import (
	"fmt"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/critical"
)

// Need is an amount of one resource that a node holds while it is worked on,
// or, when it Stays, from its start to its finish, pauses included, and After
// the finish for so long on the clock (then it stays as well).
type Need struct {
	Resource int32
	Amount   int32
	Stays    bool
	After    calendars.Minutes
}

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
	// OnDuty marks the resources that come and go, and are never asked for while
	// there is none: who needs one works only while it is there in that number. It
	// saves time and changes no schedule; nil for none.
	OnDuty []bool
	Counts []bool // nodes that the last finish counts; nil: all
	Dates  []Date // that may break
	// Content is a last finish that is as good as any sooner; 0 for none.
	Content  calendars.Instant
	Bookings []Booking // starts that may be booked otherwise

	// Tie weighs schedules that are equal in lateness and last finish; the
	// smaller is the better, by the first figure that differs. It may be nil.
	Tie func(t *critical.Times, mode []uint8) [5]int64
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

// MostAmount is the largest capacity and need.
const MostAmount = 1<<15 - 1

// check says what the search can't take. A need above what ever exists is no
// fault: its node has no place.
func (p *Problem) check() error {
	for r, c := range p.Capacity {
		if c.Max() > MostAmount {
			return fmt.Errorf("search: there are %d of resource %d, more than %d", c.Max(), r, MostAmount)
		}
	}
	for i, modes := range p.Modes {
		for _, m := range modes {
			for _, n := range m.Needs {
				if n.Amount > MostAmount {
					return fmt.Errorf("search: node %d takes %d of resource %d, more than %d", i, n.Amount, n.Resource, MostAmount)
				}
			}
		}
	}
	return nil
}
