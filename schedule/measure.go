package schedule

import (
	"build.example/turflast/calendars"
)

// Measure is something that could be bought to win time. Exactly one of the
// pointer and id fields says what.
type Measure struct {
	Longer  *LongerHours
	People  *MorePeople
	Machine *MachineSlot
	Earlier *EarlierDelivery
	Overlap *Overlap
	Drop    TaskID // None unless a task is dropped
	Cost    Money
	Why     string
	Pos     Pos
}

// LongerHours opens the site longer on a date, to a minute of its day.
type LongerHours struct {
	On calendars.Date
	To calendars.Minutes
}

// MorePeople adds heads to crews on dates.
type MorePeople struct {
	Crew []CrewNeed
	On   []calendars.Date
}

// MachineSlot adds a slot of a machine.
type MachineSlot struct {
	Machine MachineID
	Span    calendars.Span
}

// EarlierDelivery brings a booking forward.
type EarlierDelivery struct {
	Delivery DeliveryID
	By       calendars.Minutes
}

// Overlap lets the second task start so long before the first is finished.
type Overlap struct {
	First, Second TaskID
	By            calendars.Minutes
}
