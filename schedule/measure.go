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

// Overlap lets the second task start some time before the first is finished.
type Overlap struct {
	First, Second TaskID
	By            calendars.Minutes
}

// TooLate says whether a measure comes too late at the moment of the plan's
// progress: its hours or days are past, or what it brings forward has come or
// begun.
func (p *Plan) TooLate(m *Measure) bool {
	if p.Progress == nil {
		return false
	}
	now := p.Now()
	today := calendars.DateIn(now, p.Site.Location)
	switch {
	case m.Longer != nil:
		return m.Longer.On < today
	case m.People != nil:
		for _, d := range m.People.On {
			if d >= today {
				return false
			}
		}
		return true
	case m.Machine != nil:
		return m.Machine.Span.End <= now
	case m.Earlier != nil:
		d := m.Earlier.Delivery
		return p.Arrived(d) || p.Unloading(d) || p.Deliveries[d].Arrives.Plus(-m.Earlier.By) < now
	case m.Overlap != nil:
		return p.Finished(m.Overlap.First) || p.Started(m.Overlap.Second)
	}
	return p.Started(m.Drop)
}
