package schedule

import (
	"slices"

	"build.example/turflast/calendars"
)

// Activity is a task, or the unloading (or loading) of a delivery: what a
// programme dates. One number stands for either, tasks first and then
// deliveries, both in plan order, as the nodes of a network are numbered. Range
// over [Plan.Activities] for all of them.
type Activity int32

// Nothing is no activity.
const Nothing Activity = None

// Activity is the task as an activity.
func (t TaskID) Activity() Activity { return Activity(t) }

// Activities is how many activities the plan has.
func (p *Plan) Activities() Activity { return Activity(len(p.Tasks) + len(p.Deliveries)) }

// Unload is the activity of unloading a delivery.
func (p *Plan) Unload(d DeliveryID) Activity { return Activity(len(p.Tasks) + int(d)) }

// Task is the task that an activity is, and false for anything else.
func (p *Plan) Task(a Activity) (TaskID, bool) {
	if a >= 0 && int(a) < len(p.Tasks) {
		return TaskID(a), true
	}
	return None, false
}

// Delivery is the delivery that an activity unloads, and false for anything
// else.
func (p *Plan) Delivery(a Activity) (DeliveryID, bool) {
	if int(a) >= len(p.Tasks) && a < p.Activities() {
		return DeliveryID(int(a) - len(p.Tasks)), true
	}
	return None, false
}

// ActivityID is the id of an activity in the plan file, and "" for nothing.
func (p *Plan) ActivityID(a Activity) string {
	if t, ok := p.Task(a); ok {
		return p.Tasks[t].ID
	}
	if d, ok := p.Delivery(a); ok {
		return p.Deliveries[d].ID
	}
	return ""
}

// ActivityName is the name of a task, or what a delivery brings, and "" for
// nothing.
func (p *Plan) ActivityName(a Activity) string {
	if t, ok := p.Task(a); ok {
		return p.Tasks[t].Name
	}
	if d, ok := p.Delivery(a); ok {
		return p.Deliveries[d].What
	}
	return ""
}

// ShortName is the name of a task where there is little room, and "" where the
// plan gives none.
func (p *Plan) ShortName(a Activity) string {
	if t, ok := p.Task(a); ok {
		return p.Tasks[t].Short
	}
	return ""
}

// CrewOf are the people that an activity needs.
func (p *Plan) CrewOf(a Activity) []CrewNeed {
	if d, ok := p.Delivery(a); ok {
		return p.Deliveries[d].Unload.Crew
	}
	return p.Tasks[a].Crew
}

// MachinesOf are the machines that an activity needs.
func (p *Plan) MachinesOf(a Activity) []MachineNeed {
	if d, ok := p.Delivery(a); ok {
		return p.Deliveries[d].Unload.Machines
	}
	return p.Tasks[a].Machines
}

// FindActivity is the task or else the delivery with an id, or [Nothing].
func (p *Plan) FindActivity(id string) Activity {
	if t := p.FindTask(id); t != None {
		return t.Activity()
	}
	if d := p.FindDelivery(id); d != None {
		return p.Unload(d)
	}
	return Nothing
}

// Required says whether an activity must be done by the hand-over: a task that isn't
// optional or has begun, and a lorry, unless it serves optional tasks alone.
func (p *Plan) Required(a Activity) bool {
	if t, ok := p.Task(a); ok {
		return !p.Tasks[t].Optional || p.Started(t)
	}
	d, _ := p.Delivery(a)
	return p.awaits(d, p.Users(d))
}

// RequiredOfEach is [Plan.Required] of every activity, found in one pass.
func (p *Plan) RequiredOfEach() []bool {
	out := make([]bool, 0, p.Activities())
	for t := range p.Tasks {
		out = append(out, p.Required(Activity(t)))
	}
	for d, users := range p.UsersOfEach() {
		out = append(out, p.awaits(DeliveryID(d), users))
	}
	return out
}

// awaits says whether the hand-over waits for a lorry that serves its users or, taking
// things away, what it follows.
func (p *Plan) awaits(d DeliveryID, serves []TaskID) bool {
	if len(serves) == 0 && p.Deliveries[d].Out {
		for _, l := range p.Deliveries[d].After {
			serves = append(serves, l.From)
		}
	}
	return len(serves) == 0 || slices.ContainsFunc(serves, func(t TaskID) bool { return p.Required(t.Activity()) })
}

// Begun says whether an activity had begun by the moment of the plan's progress.
func (p *Plan) Begun(a Activity) bool {
	if t, ok := p.Task(a); ok {
		return p.Started(t)
	}
	d, ok := p.Delivery(a)
	return ok && p.Unloading(d)
}

// Over says whether the work of an activity was over by then.
func (p *Plan) Over(a Activity) bool {
	if t, ok := p.Task(a); ok {
		return p.Finished(t)
	}
	d, ok := p.Delivery(a)
	return ok && p.Unloaded(d)
}

// When is the time in which an activity happened by the log: Start is zero
// before it began, End before it was over.
func (p *Progress) When(a Activity) calendars.Span {
	if int(a) < len(p.Tasks) {
		return calendars.Span{Start: p.Tasks[a].Start, End: p.Tasks[a].Finish}
	}
	d := &p.Deliveries[int(a)-len(p.Tasks)]
	return calendars.Span{Start: d.Start, End: d.Finish}
}

// Of is what a programme says of an activity.
func (g *Programme) Of(a Activity) *Dates {
	if int(a) < len(g.Tasks) {
		return &g.Tasks[a].Dates
	}
	return &g.Unloads[int(a)-len(g.Tasks)].Dates
}

// Done is when an activity holds what follows it no more, the waits of links aside.
func (g *Programme) Done(a Activity) calendars.Instant {
	if int(a) < len(g.Tasks) {
		return g.Tasks[a].Done
	}
	return g.Of(a).Finish
}

// LeavesOut says whether a programme leaves an activity out: an optional task.
func (g *Programme) LeavesOut(a Activity) bool {
	return a >= 0 && int(a) < len(g.Tasks) && g.Tasks[a].Dropped
}
