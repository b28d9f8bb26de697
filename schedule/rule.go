package schedule

import (
	"build.example/turflast/calendars"
)

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

// Except excuses a task from a rule.
type Except struct {
	Rule RuleID // or WayIn
	Why  string
}
