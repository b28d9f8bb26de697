package progress

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// OutOfOrder is a task that was started before something that it follows was over.
// What it follows is a task, a delivery or a given, the others are None.
type OutOfOrder struct {
	Task     schedule.TaskID
	After    schedule.TaskID
	Delivery schedule.DeliveryID
	Given    schedule.GivenID
	Rule     schedule.RuleID // that asks for it: None for a link, WayIn for the way in
}

// order finds the starts out of sequence, each pair of things once, in the order
// of the plan.
func (b *build) order() {
	behind := b.p.Behind()
	b.told = slices.Repeat([]schedule.TaskID{schedule.None}, len(b.p.Tasks))
	for i := range b.p.Tasks {
		id := schedule.TaskID(i)
		if !b.p.Started(id) {
			continue
		}
		b.linked(id)
		b.given(id)
		for r := range b.p.Rules {
			b.ruled(id, schedule.RuleID(r))
		}
		if t := &b.p.Tasks[i]; t.Closes.Orders && !t.Excused(schedule.WayIn) {
			b.closed(id, b.p.ZonesBehind(t, behind))
		}
	}
}

// tell notes that a task was started before another that it follows.
func (b *build) tell(t, after schedule.TaskID, rule schedule.RuleID) {
	if b.told[after] == t {
		return
	}
	b.told[after] = t
	b.OutOfOrder = append(b.OutOfOrder, OutOfOrder{t, after, schedule.None, schedule.None, rule})
}

// free is the moment from which a task holds its followers no more, with a wait
// after its finish; Never while it does. One that was to be left out holds nothing.
func (b *build) free(t schedule.TaskID, wait calendars.Minutes) calendars.Instant {
	was := &b.p.Progress.Tasks[t]
	switch {
	case was.Start == 0 && b.leftOut(t):
		return calendars.Past
	case was.Finish == 0 || b.p.Tasks[t].Hold != nil && was.Signed == 0:
		return calendars.Never
	}
	return max(was.Finish.Plus(wait), was.Signed)
}

// leftOut says whether it was agreed to leave a task out.
func (b *build) leftOut(t schedule.TaskID) bool { return b.agreed != nil && b.agreed.Tasks[t].Dropped }

func (b *build) linked(id schedule.TaskID) {
	t, start := &b.p.Tasks[id], b.p.Progress.Tasks[id].Start
	for _, l := range t.After {
		if l.Kind.ToFinish() {
			continue
		}
		if until := b.allows(t, l); start < until {
			b.tell(id, l.From, schedule.None)
		}
	}
	for _, d := range t.Uses {
		if was := &b.p.Progress.Deliveries[d]; !was.Arrived || b.p.Deliveries[d].Arrives > start {
			b.OutOfOrder = append(b.OutOfOrder, OutOfOrder{id, schedule.None, d, schedule.None, schedule.None})
		}
	}
}

// allows is the start that a link allows; Never while what it runs from hasn't
// happened.
func (b *build) allows(t *schedule.Task, l schedule.Link) calendars.Instant {
	from, was, wait := &b.p.Tasks[l.From], &b.p.Progress.Tasks[l.From], l.Wait
	switch {
	case was.Start == 0 && b.leftOut(l.From):
		return calendars.Past
	case !l.Kind.FromFinish():
		return b.after(was.Start, t, wait)
	case from.Hold != nil && was.Signed == 0:
		return calendars.Never
	case wait.Kind == schedule.OwnCure:
		wait = schedule.Wait{Kind: schedule.Cure, Time: from.Cure}
	}
	return max(b.after(was.Finish, t, wait), was.Signed)
}

// after is an event and a wait after it; a lag and a lead are open time of the
// follower's place.
func (b *build) after(event calendars.Instant, follower *schedule.Task, wait schedule.Wait) calendars.Instant {
	switch {
	case event == 0 && wait.Kind == schedule.Lag && wait.Time < 0:
		return calendars.Past // it may still have been in time
	case event == 0:
		return calendars.Never
	case wait.Kind == schedule.Lag:
		return b.hours.Places[follower.Zones[0]].Add(event, wait.Time)
	case wait.Kind == schedule.Cure:
		return event.Plus(wait.Time)
	}
	return event
}

// given asks for what others give. What isn't logged, and what the work needed, was
// there when the plan has it.
func (b *build) given(id schedule.TaskID) {
	for _, g := range b.p.Tasks[id].Givens {
		from, logged := b.State.Givens[b.planned[g].ID]
		if !logged {
			from = b.planned[g].From
		}
		if from > b.p.Progress.Tasks[id].Start {
			b.OutOfOrder = append(b.OutOfOrder, OutOfOrder{id, schedule.None, schedule.None, g, schedule.None})
		}
	}
}

func (b *build) ruled(id schedule.TaskID, rule schedule.RuleID) {
	t, r, start := &b.p.Tasks[id], &b.p.Rules[rule], b.p.Progress.Tasks[id].Start
	if r.Kind != schedule.Before || t.Excused(rule) || !slices.Contains(r.Then, t.Stage) {
		return
	}
	for i := range b.p.Tasks {
		if !b.p.Puts(rule, schedule.TaskID(i), id) {
			continue
		}
		wait := b.p.Tasks[i].Cure
		if r.HasAfter {
			wait = r.After
		}
		if b.free(schedule.TaskID(i), wait) > start {
			b.tell(id, schedule.TaskID(i), rule)
		}
	}
}

// closed asks the same of the work behind a way in that a task closes.
func (b *build) closed(id schedule.TaskID, zones []schedule.ZoneID) {
	for i := range b.p.Tasks {
		if schedule.TaskID(i) == id || !b.p.CutOff(schedule.TaskID(i), zones) {
			continue
		}
		if b.free(schedule.TaskID(i), b.p.Tasks[i].Cure) > b.p.Progress.Tasks[id].Start {
			b.tell(id, schedule.TaskID(i), schedule.WayIn)
		}
	}
}
