package schedule

import (
	"build.example/turflast/calendars"
)

// Crew is people of one trade.
type Crew struct {
	ID, Name string
	People   int
	PeopleOn []PeopleOn       // heads on a date in place of People, sorted
	Hours    *calendars.Hours // nil: the site's hours
	// HoursOn and Closed of a crew without hours of its own, on top of the site's.
	HoursOn []calendars.DayHours
	Closed  []calendars.Closure
	Away    []Away
	Rate    Money // per person-hour; 0: none
	// Overtime is the rate beyond the weekly hours, per person-hour; 0: none.
	Overtime Money
	Notice   *calendars.Minutes // on the clock, how long before it is called to come at another time; nil: not said
	TurnsOut *float64           // the chance that each of them comes; nil: all come
	Pos      Pos
}

// PeopleOn is a headcount for one date.
type PeopleOn struct {
	On     calendars.Date
	People int
}

// Away takes people off a crew; All takes every one.
type Away struct {
	Span   calendars.Span
	People int
	All    bool
}

// Machine is a count of machines of one kind.
type Machine struct {
	ID, Name string
	Count    int
	Ours     []calendars.Span // sorted; none: in all hours of the place it works in
	Away     []calendars.Span // taken from those by a what-if; a plan as read has none
	Places   int              // room each takes, counted with people
	Rate     Money            // per hour in use
	Hire     *Hire            // in place of Rate; nil: none
	// Notice is how long before it is called to come at another time, on the
	// clock; nil: not said.
	Notice *calendars.Minutes
	Pos    Pos
}

// Hire is what a machine costs by whole days or weeks.
type Hire struct {
	Per      calendars.Minutes // a day or a week
	Rate     Money             // of each of them
	Least    calendars.Minutes // the shortest hire, in whole days or weeks
	Bringing Money             // bringing and fetching it, once a hire
}

// CrewNeed is the heads a task needs of a crew; a range leaves the choice to
// the crew programme.
type CrewNeed struct {
	Crew        CrewID
	Least, Most int
}

// MachineNeed is the machines a task needs of a kind.
type MachineNeed struct {
	Machine MachineID
	Count   int
	Stands  []ZoneID // where it stands, each once; nil: where the task is, and for an unloading at the gate
}

// Duty takes people off a crew each day.
type Duty struct {
	ID       string
	Crew     []CrewNeed
	At       calendars.Range
	From, To calendars.Date // both included
	Pos      Pos
}
