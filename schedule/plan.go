package schedule

import (
	"time"

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
	Currency   string // ISO 4217, empty when not said
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
	Progress   *Progress // nil before the build; a plan as read has none
}

// Site is the plot's window, clock and hours.
type Site struct {
	Location *time.Location
	Opens    calendars.Instant
	Handover calendars.Instant
	Aim      calendars.Instant // zero when not said

	Region   string    // ISO 3166 code of the public holidays kept, may be empty
	Holidays []Holiday // kept by site, gate and crews, sorted; added and dropped days are in it

	Hours  calendars.Hours
	Loud   *calendars.WeekHours // nil: loud work whenever the site is open
	Gate   *Gate                // nil: lorries in site hours, any number
	Wet    *WetDays             // nil: no weather said
	WetOn  []calendars.Date     // days taken as wet by a what-if or the log, sorted; a plan as read has none
	WetFor []calendars.Span     // hours in which dry work stood still by the log; a plan as read has none
}

// Holiday is a day, or the part of one from a minute on, that closes site,
// gate and crews unless their own hours name the date.
type Holiday struct {
	On   calendars.Date
	From calendars.Minutes // minute of the day; 0 for the whole day
	Name string
}

// Gate is where lorries come in.
type Gate struct {
	AtOnce int
	Hours  *calendars.Hours // nil: the site's whole calendar
}

// WetDays are the chances of a wet day, and the wait next morning for work
// that must be dry.
type WetDays struct {
	AfterDry, AfterWet float64
	Dries              calendars.Minutes
}

// Zone is a part of the plot, or a place off site.
type Zone struct {
	ID, Name string
	People   int      // most people and machine places at once; 0: no limit
	WayIn    []ZoneID // zones crossed to reach it, as written (not yet theirs in turn)
	OffSite  bool
	From     calendars.Instant // off site: the earliest work
	Hours    calendars.Hours   // off site only
	Pos      Pos
}

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
	Rate    Money // per person-hour; 0 when not said
	Pos     Pos
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
	Pos      Pos
}

// Given is something others provide from a moment on.
type Given struct {
	ID, What string
	From     calendars.Instant
	Pos      Pos
}

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
	OrderAhead calendars.Minutes // 0: not said
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

// Lateness of a delivery: the chance of any, its likely and worst size.
type Lateness struct {
	Chance        float64
	Likely, Worst calendars.Minutes
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
}

// RuleKind tells the two kinds of rule apart.
type RuleKind uint8

// The kinds of rule.
const (
	Before RuleKind = iota // First before Then
	Apart                  // First and Then never overlap
)

// Rule links or parts all tasks of stages, zone by zone or everywhere.
type Rule struct {
	Text        string // as written, spaces made one
	Kind        RuleKind
	First, Then []StageID
	Everywhere  bool
	After       calendars.Minutes // a cure in place of the tasks' own
	HasAfter    bool
	Pos         Pos
}

// Duty takes people off a crew each day.
type Duty struct {
	ID       string
	Crew     []CrewNeed
	At       calendars.Range
	From, To calendars.Date // both included
	Pos      Pos
}

// LinkKind says which ends of two tasks a link joins, the earlier task's first.
type LinkKind uint8

// The kinds of link.
const (
	FinishStart LinkKind = iota
	StartStart
	FinishFinish
	StartFinish
)

// String is the kind as plans write it.
func (k LinkKind) String() string {
	return [...]string{"finish-start", "start-start", "finish-finish", "start-finish"}[k]
}

// FromFinish and ToFinish say which events a link joins.
func (k LinkKind) FromFinish() bool { return k == FinishStart || k == FinishFinish }

// ToFinish says whether the link holds the follower's finish, not its start.
func (k LinkKind) ToFinish() bool { return k == FinishFinish || k == StartFinish }

// WaitKind says how a wait is counted.
type WaitKind uint8

// The kinds of wait on a link.
const (
	OwnCure WaitKind = iota // nothing said: the task's own cure, from its finish
	Lag                     // open time of the follower's place; negative: a lead
	Cure                    // on the clock
)

// Wait is what a link says of the time between its events.
type Wait struct {
	Kind WaitKind
	Time calendars.Minutes
}

// Link makes its owner follow From.
type Link struct {
	From      TaskID
	Kind      LinkKind
	Wait      Wait
	Within    calendars.Minutes // longest time on the clock from event to event
	HasWithin bool
	Pos       Pos
}

// Closing says what a task does to the way in.
type Closing struct {
	Orders bool              // it comes after all work in the zones behind
	For    calendars.Minutes // it closes the way from start to finish and so long after
	Timed  bool              // For is said (0m is allowed); forces no order
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
	Takes        calendars.Minutes   // site time; on the clock from an appointment
	Appointments []calendars.Instant // sorted; none: any time
}

// Except excuses a task from a rule.
type Except struct {
	Rule RuleID // or WayIn
	Why  string
}

// Effort is how much work a task is: a fixed working time, or person-minutes
// shared by all heads, held as a fraction so that no minute is lost.
type Effort struct {
	Takes    calendars.Minutes // when Num is zero
	Num, Den int64             // person-minutes
	Amount   string            // as written, such as "64 m2"; may be empty
	Rate     string            // as written, such as "8 m2/person-hour"
	Unit     string            // of Amount
}

// Time is the working time with so many heads in all, rounded up to the minute.
func (e Effort) Time(heads int) calendars.Minutes {
	if e.Num == 0 {
		return e.Takes
	}
	d := e.Den * int64(max(heads, 1))
	return calendars.Minutes((e.Num + d - 1) / d)
}

// Shared says whether the effort is divided by heads.
func (e Effort) Shared() bool { return e.Num != 0 }

// Spread is the best and worst working time; the effort itself is likeliest.
type Spread struct{ Best, Worst calendars.Minutes }

// Task is work at one stage, in one or more zones.
type Task struct {
	ID, Name  string
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
	Hazards   []string
	Hold      *HoldPoint
	NotBefore calendars.Instant // zero when not said
	By        calendars.Instant // zero when not said
	Optional  bool
	DropOrder int
	Excepts   []Except
	DoneWhen  string
	Note      string
	Pos       Pos
}

// Money is hundredths of the plan's currency.
type Money int64

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
