package schedule

import (
	"fmt"

	"build.example/turflast/calendars"
)

// The ids index the lists of a Plan.
type (
	// TaskID indexes Plan.Tasks.
	TaskID int32
	// ZoneID indexes Plan.Zones.
	ZoneID int32
	// CrewID indexes Plan.Crews.
	CrewID int32
	// MachineID indexes Plan.Machines.
	MachineID int32
	// GivenID indexes Plan.Givens.
	GivenID int32
	// DeliveryID indexes Plan.Deliveries.
	DeliveryID int32
	// StageID indexes Plan.Stages.
	StageID int32
	// RuleID indexes Plan.Rules.
	RuleID int32
)

// None stands in an id for nothing; WayIn stands in a RuleID for the one
// built-in rule.
const (
	None         = -1
	WayIn RuleID = -2
)

// Pos is a place in the plan file, both counted from 1, columns in characters.
type Pos struct{ Line, Column int }

// Plan is one window as its file says it. It is validated when it is read and
// never changed after: a what-if makes a changed copy.
type Plan struct {
	Garden     string
	Currency   string // ISO 4217; may be empty
	Site       Site
	Stages     []string // the built-in ones, then the plan's own; StageID indexes
	Zones      []Zone
	Crews      []Crew
	Machines   []Machine
	Givens     []Given
	Deliveries []Delivery
	Rules      []Rule
	Duties     []Duty
	Tasks      []Task
	Measures   []Measure
	Desk       []DeskItem // what is to be settled before the build and after it
	Answers    []Answer
	Progress   *Progress // nil before the build; a plan as read has none

	// What its log does to a plan; one as read has none of it.
	Added     []string    // ids of all work ever added, in the order of writing
	Cancelled []Cancelled // tasks that were cancelled before they were begun, in the order of the file
}

// Cancelled is a task that isn't to be done any more, and isn't in the plan's list.
type Cancelled struct {
	ID, Name string
	Place    int // in the list of tasks, as it was with all of them
	At       calendars.Instant
	Why      string // may be empty
}

// Money is hundredths of the plan's currency.
type Money int64

// Plain is an amount, which isn't negative, as a plan file writes it.
func (m Money) Plain() string {
	if m%100 == 0 {
		return fmt.Sprint(int64(m / 100))
	}
	return fmt.Sprintf("%d.%02d", m/100, m%100)
}

// For is what some minutes cost at m an hour, to the nearest hundredth, halves up. Neither may
// be negative.
func (m Money) For(t calendars.Minutes) Money {
	hours, rest := Money(t/calendars.Hour), Money(t%calendars.Hour)
	return m*hours + (m*rest+30)/60
}
