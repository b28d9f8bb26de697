package schedule

import (
	"build.example/turflast/calendars"
)

// Task is work at one stage, in one or more zones.
type Task struct {
	ID, Name  string
	Short     string   // its name where there is little room; empty: none
	Zones     []ZoneID // at least one
	Stage     StageID
	Crew      []CrewNeed
	Machines  []MachineNeed
	Effort    Effort
	Spread    *Spread // nil: certain
	After     []Link
	Givens    []GivenID
	Uses      []DeliveryID
	Cure      calendars.Minutes
	Unbroken  bool
	Stays     bool
	Loud      bool
	OnBoards  bool
	Closes    Closing
	Clears    []ZoneID
	Apart     []TaskID
	Weather   Weather
	Dries     *calendars.Minutes // work that must be dry waits so long after a wet day; nil: as the site's does
	Hazards   []string
	Hold      *HoldPoint
	NotBefore calendars.Instant // zero: none
	By        calendars.Instant // zero: none
	Optional  bool
	DropOrder int
	Stops     []calendars.Span // when a what-if has it stand still, sorted; a plan as read has none
	Excepts   []Except
	DoneWhen  string
	Note      string
	Pos       Pos
}

// Closing says what a task does to the way in.
type Closing struct {
	Orders bool              // it comes after all work in the zones behind
	For    calendars.Minutes // it closes the way from its start until this long after its finish
	Timed  bool              // For is set, which may be to 0; the way then closes for a time and forces no order
}

// Weather is what work needs of the sky.
type Weather uint8

// The kinds of weather that a task may need, as bits.
const (
	Dry Weather = 1 << iota
	Calm
	Mild
)

// HoldPoint is an inspection or sign-off after the work.
type HoldPoint struct {
	What         string
	Takes        calendars.Minutes   // site time; on the clock from an appointment or if OnTheClock
	OnTheClock   bool                // it runs from the finish, at any hour; there are no appointments then
	Appointments []calendars.Instant // sorted; none: any time
	Notice       *calendars.Minutes  // on the clock, how long before it is called for another time; nil: not said
	Fails        *Fails              // nil: it is signed the first time
}

// Fails is how a hold point may fail: the chance, and the work that puts it
// right.
type Fails struct {
	Chance float64
	Right  calendars.Minutes
}

// LongestShort is the most letters that a task's short name has.
const LongestShort = 24

// BuiltInStages are the stages every plan has, in the order of a usual build.
func BuiltInStages() []string {
	return []string{
		"protection", "set-out", "groundworks", "structure", "first-fix", "paving",
		"cladding", "finishes", "second-fix", "soil", "trees", "planting", "mulch",
		"turf", "clean", "strike",
	}
}

// Hazards are the names that a task's hazards may have.
func Hazards() []string {
	return []string{
		"lifting", "height", "hot-work", "electricity", "gas", "chemicals",
		"handling", "vehicles", "heat", "noise", "excavation", "structures", "water",
	}
}
