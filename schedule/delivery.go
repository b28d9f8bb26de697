package schedule

import (
	"build.example/turflast/calendars"
)

// Delivery is a lorry with an arrival at the gate and an unloading; a
// collection goes out.
type Delivery struct {
	ID, What   string
	Arrives    calendars.Instant
	Unload     Unload
	Waits      calendars.Minutes // how long the lorry stands before unloading starts
	Keep       calendars.Minutes // 0: not living stock
	Movable    *Movable          // nil: the booking holds
	Late       *Lateness         // nil: punctual
	OrderAhead calendars.Minutes // 0: none
	Out        bool
	After      []Link // finish-start
	Pos        Pos
}

// Unload is the work at the gate.
type Unload struct {
	Takes    calendars.Minutes
	Crew     []CrewNeed // fixed: Least equals Most
	Machines []MachineNeed
}

// Movable bounds the arrival that a booking may be moved to.
type Movable struct{ Earliest, Latest calendars.Instant }

// Lateness is how late a delivery may come: the chance of any delay, its likely
// and its worst size.
type Lateness struct {
	Chance        float64
	Likely, Worst calendars.Minutes
}
