package schedule

import (
	"build.example/turflast/calendars"
)

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

// FromFinish says whether the link runs from the predecessor's finish, not its
// start.
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
