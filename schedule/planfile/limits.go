package planfile

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// The limits that the package comment states.
const (
	maxBytes    = 4 << 20
	maxDepth    = 16
	maxTasks    = 10_000
	maxList     = 1_000
	maxID       = schedule.LongestID
	maxName     = 120
	maxText     = 2_000
	maxCount    = 10_000
	maxUnits    = 1_000_000   // of a decimal
	maxMoney    = 100_000_000 // in whole units
	maxProblems = 200

	maxWindow  = 26 * calendars.Week
	maxAhead   = 104 * calendars.Week // off-site work before the gate opens
	maxBefore  = 26 * calendars.Week  // any date before the earliest work
	maxAfter   = 52 * calendars.Week  // any date after the hand-over
	maxWorking = 26 * calendars.Week  // one task's working time
)

// maxKept bounds the problems held while reading, and maxCompared how often a
// mistyped name is compared with a known one: a hostile file costs no more than
// a large one.
const (
	maxKept     = 10_000
	maxCompared = 300_000
)
