package schedule

import "build.example/turflast/calendars"

// Prices say what an hour costs, besides the measures of a plan.
type Prices struct {
	Name, Note string      // may be empty
	Running    Money       // an hour of site time from the opening to the last required finish
	Late       Money       // an hour of site time after the hand-over, on top of Running
	Tasks      []TaskPrice // by task
}

// TaskPrice is what it costs to do a task in less time: each hour less costs the
// same, down to the shortest.
type TaskPrice struct {
	Task     TaskID
	Shortest calendars.Minutes
	Hour     Money
	Why      string // may be empty
	Pos      Pos
}
