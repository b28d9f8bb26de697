package progress

import (
	"cmp"
	"iter"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
)

// OutOfOrder is a task that was started before an activity that it follows was over,
// or before a given was there.
type OutOfOrder struct {
	Task  schedule.TaskID
	After schedule.Activity // or Nothing
	Given schedule.GivenID  // or None
	Rule  schedule.RuleID   // that puts them in order: None for a link, WayIn for the way in
}

// order finds the starts out of sequence, each pair once, in plan order.
func (b *build) order() {
	plan := network.Precedences(b.p)
	// By activity: the task last found to have started before it, so that no pair is
	// told twice.
	told := slices.Repeat([]schedule.TaskID{schedule.None}, int(b.p.Activities()))
	for i := range b.p.Tasks {
		if t := schedule.TaskID(i); b.p.Started(t) {
			b.early(t, plan.Before(t.Activity()), told)
		}
	}
}

// early finds what a task should have followed but started before: first what it is
// linked to and what it uses, then givens, then what rules put before it, by rule and
// then in plan order, and last the way in.
func (b *build) early(t schedule.TaskID, before iter.Seq[network.Tie], told []schedule.TaskID) {
	start, first := b.p.Progress.Tasks[t].Start, len(b.OutOfOrder)
	place := b.hours.Places[b.p.Tasks[t].Zones[0]]
	for tie := range before {
		if !tie.Kind.ToFinish() && told[tie.Activity] != t && start < b.allows(place, tie) {
			told[tie.Activity] = t
			b.OutOfOrder = append(b.OutOfOrder, OutOfOrder{t, tie.Activity, schedule.None, tie.Origin.Rule})
		}
	}
	for _, g := range b.p.Tasks[t].Givens {
		if start < b.there(g) {
			b.OutOfOrder = append(b.OutOfOrder, OutOfOrder{t, schedule.Nothing, g, schedule.None})
		}
	}
	slices.SortStableFunc(b.OutOfOrder[first:], func(x, y OutOfOrder) int {
		if x.Rule == schedule.None && y.Rule == schedule.None {
			return 0
		}
		return cmp.Or(cmp.Compare(b.rank(x.Rule), b.rank(y.Rule)), cmp.Compare(x.After, y.After))
	})
}

// rank returns the place of a rule in the order: None first, the way in last.
func (b *build) rank(r schedule.RuleID) int {
	if r == schedule.WayIn {
		return len(b.p.Rules)
	}
	return int(r)
}

// allows returns the earliest start that a tie allows an activity whose lags count open
// time of a place; Never while the event that the tie runs from hasn't happened, Past if
// the activity was to be left out.
func (b *build) allows(place *calendars.Calendar, tie network.Tie) calendars.Instant {
	from, task := b.p.Task(tie.Activity)
	if !task {
		return b.came(tie.Activity)
	}
	first, was, wait := &b.p.Tasks[from], &b.p.Progress.Tasks[from], tie.Wait
	switch {
	case was.Start == 0 && b.agreed != nil && b.agreed.Tasks[from].Dropped:
		return calendars.Past
	case !tie.Kind.FromFinish():
		return after(was.Start, place, wait)
	case first.Hold != nil && was.Signed == 0:
		return calendars.Never
	case wait.Kind == schedule.OwnCure:
		wait = schedule.Wait{Kind: schedule.Cure, Time: first.Cure}
	}
	return max(after(was.Finish, place, wait), was.Signed)
}

// came returns when a lorry was unloaded by the log, or else when it came; Never while it
// hasn't.
func (b *build) came(unload schedule.Activity) calendars.Instant {
	d, lorry := b.p.Delivery(unload)
	switch {
	case lorry && len(b.p.Progress.Deliveries[d].Parts) > 0:
		return b.p.Progress.Deliveries[d].Parts[0].Arrived
	case b.p.LoggedOver(d):
		return b.p.Progress.Deliveries[d].Finish
	case b.p.Arrived(d):
		return b.p.Deliveries[d].Arrives
	}
	return calendars.Never
}

// after returns the end of a wait after an event. A lag or a lead counts open time of
// the follower's place, a cure runs on the clock. An event of 0 hasn't happened: it
// gives Never, or Past with a lead.
func after(event calendars.Instant, place *calendars.Calendar, wait schedule.Wait) calendars.Instant {
	switch {
	case event == 0 && wait.Kind == schedule.Lag && wait.Time < 0:
		return calendars.Past // with a lead the start may still be in time
	case event == 0:
		return calendars.Never
	case wait.Kind == schedule.Lag:
		return place.Add(event, wait.Time)
	case wait.Kind == schedule.Cure:
		return event.Plus(wait.Time)
	}
	return event
}

// there returns when a given was there: by the log or, if it isn't logged, by the plan.
func (b *build) there(g schedule.GivenID) calendars.Instant {
	if from, logged := b.State.Givens[b.planned[g].ID]; logged {
		return from
	}
	return b.planned[g].From
}
