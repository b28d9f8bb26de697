package schedule

import (
	"build.example/turflast/calendars"
)

// Delivery is a lorry with an arrival at the gate and an unloading; a
// collection goes out.
type Delivery struct {
	ID, What string
	Arrives  calendars.Instant
	// Booked is what a lorry that is held up was booked for: it comes later. Zero for
	// one that comes as it is booked, or sooner; a plan as read has none.
	Booked calendars.Instant
	// Loaded is when living stock was lifted or cut, or a mix batched, by the log: it keeps from
	// then, whenever it comes. Zero while that isn't logged; a plan as read has none.
	Loaded calendars.Instant
	Unload Unload
	Waits  calendars.Minutes // how long the lorry stands for nothing before unloading starts
	// WaitingRate is the cost of each hour that the lorry stands beyond that; 0: none.
	WaitingRate Money
	Keep        calendars.Minutes // from lifting, cutting or batching; 0: not living stock
	Aged        calendars.Minutes // how old it is at the booked arrival; less than Keep
	Movable     *Movable          // nil: the booking holds
	Late        *Lateness         // nil: punctual
	OrderAhead  calendars.Minutes // 0: none
	OrderAfter  []DeskID          // what is to be settled before it is ordered
	Out         bool
	After       []Link // finish-start
	Givens      []GivenID
	// Notice is how long before the lorry is called to come at another time, on
	// the clock; nil: not said.
	Notice *calendars.Minutes
	Pos    Pos
}

// Unload is the work at the gate.
type Unload struct {
	Takes    calendars.Minutes
	Crew     []CrewNeed // fixed: Least equals Most
	Machines []MachineNeed
}

// KeepsUntil is how long living stock keeps that is at the gate at a moment, from
// when it was lifted, cut or batched. One that comes sooner was loaded sooner; one
// that is held up brings older stock; once it is logged when that was loaded, it keeps from
// then. Keep must be set.
func (d *Delivery) KeepsUntil(arrives calendars.Instant) calendars.Instant {
	if d.Loaded != 0 {
		return d.Loaded.Plus(d.Keep)
	}
	if d.Booked != 0 {
		arrives = min(arrives, d.Booked)
	}
	return arrives.Plus(d.Keep - d.Aged)
}

// WaitingCost is what waiting time costs, to the nearest hundredth.
func (d *Delivery) WaitingCost(waiting calendars.Minutes) Money { return d.WaitingRate.For(waiting) }

// Movable bounds the arrival that a booking may be moved to.
type Movable struct{ Earliest, Latest calendars.Instant }

// Lateness is how late a delivery may come: the chance of any delay, its likely
// and its worst size.
type Lateness struct {
	Chance        float64
	Likely, Worst calendars.Minutes
}
