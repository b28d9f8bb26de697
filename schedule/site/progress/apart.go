package progress

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Together are two tasks that went on side by side though they are to be kept apart.
type Together struct {
	Task, Beside schedule.TaskID // the one that was started later, and the other
	Rule         schedule.RuleID // that keeps them apart: None where a task names the other
	From         calendars.Instant
}

// together finds the started tasks that went on side by side against the plan, each pair
// once.
func (b *build) together() {
	for pair, rule := range b.p.KeptApart() {
		b.beside(pair[0], pair[1], rule)
	}
}

// beside notes that two tasks went on side by side, if they did.
func (b *build) beside(x, y schedule.TaskID, rule schedule.RuleID) {
	if !b.p.Started(x) || !b.p.Started(y) {
		return
	}
	if b.p.Progress.Tasks[x].Start < b.p.Progress.Tasks[y].Start ||
		b.p.Progress.Tasks[x].Start == b.p.Progress.Tasks[y].Start && x < y {
		x, y = y, x
	}
	from := b.p.Progress.Tasks[x].Start
	if from >= min(b.ended(x), b.ended(y)) {
		return
	}
	if !slices.ContainsFunc(b.Together, func(t Together) bool { return t.Task == x && t.Beside == y }) {
		b.Together = append(b.Together, Together{x, y, rule, from})
	}
}

// ended returns when a task was finished, or the moment of the standing if it isn't. Work to
// be put right that nobody is at was finished before its sign-off failed.
func (b *build) ended(t schedule.TaskID) calendars.Instant {
	switch was := &b.p.Progress.Tasks[t]; {
	case was.Finish != 0:
		return was.Finish
	case was.Paused && was.Before != 0:
		return was.Before
	}
	return b.at
}
