package progress

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Together are two tasks that are to be kept apart, and went on side by side.
type Together struct {
	Task, Beside schedule.TaskID // the one that was started later, and the other
	Rule         schedule.RuleID // that asks for it: None where a task names the other
	From         calendars.Instant
}

// together finds the tasks in hand or finished that went on side by side against
// the plan, each pair once.
func (b *build) together() {
	for i := range b.p.Tasks {
		for _, other := range b.p.Tasks[i].Apart {
			b.beside(schedule.TaskID(i), other, schedule.None)
		}
	}
	for r := range b.p.Rules {
		rule := &b.p.Rules[r]
		if rule.Kind != schedule.Apart {
			continue
		}
		for _, x := range b.bound(rule.First, schedule.RuleID(r)) {
			for _, y := range b.bound(rule.Then, schedule.RuleID(r)) {
				if rule.Everywhere || schedule.ShareZone(b.p.Tasks[x].Zones, b.p.Tasks[y].Zones) {
					b.beside(x, y, schedule.RuleID(r))
				}
			}
		}
	}
}

// bound are the started tasks of some stages that a rule is for.
func (b *build) bound(stages []schedule.StageID, rule schedule.RuleID) (out []schedule.TaskID) {
	for i := range b.p.Tasks {
		if t := &b.p.Tasks[i]; b.p.Started(schedule.TaskID(i)) && slices.Contains(stages, t.Stage) && !t.Excused(rule) {
			out = append(out, schedule.TaskID(i))
		}
	}
	return out
}

// beside notes that two tasks went on side by side, if they did.
func (b *build) beside(x, y schedule.TaskID, rule schedule.RuleID) {
	if x == y || !b.p.Started(x) || !b.p.Started(y) {
		return
	}
	if b.p.Progress.Tasks[x].Start < b.p.Progress.Tasks[y].Start || b.p.Progress.Tasks[x].Start == b.p.Progress.Tasks[y].Start && x < y {
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

// ended is when a task was finished, or the moment.
func (b *build) ended(t schedule.TaskID) calendars.Instant {
	if finish := b.p.Progress.Tasks[t].Finish; finish != 0 {
		return finish
	}
	return b.at
}
