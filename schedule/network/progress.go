package network

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Limit is the latest moment for an event of a node, set by a longest wait that
// runs from an event that is past. It is a date that may break.
type Limit struct {
	Number int32 // of the limited node
	Finish bool  // its finish is limited, not its start
	From   schedule.TaskID
	At     calendars.Instant
}

// Began is the task whose actual start a node number stands for, or None.
func (m *Model) Began(number int32) schedule.TaskID {
	if t, known := m.began[number]; known {
		return t
	}
	return schedule.None
}

// stand sets a task's node from the plan's progress. A finished task is fixed at
// its finish, a task in hand goes on from now at the earliest, and no other task
// starts before now. A signed hold point is over when it was signed. An unsigned
// one is over now at the earliest; one that failed is repeated from when it
// failed.
func (x *expansion) stand(id schedule.TaskID, n *Node) {
	p := x.m.Plan
	if p.Progress == nil {
		return
	}
	now, was := p.Progress.At, &p.Progress.Tasks[id]
	switch {
	case was.Finish != 0:
		n.Work, n.Fixed, n.Unbroken, n.Earliest = 0, true, false, was.Finish
		n.LatestFinish = calendars.Never
	case was.Start != 0:
		n.Unbroken, n.Earliest = false, now
	default:
		n.Earliest = max(n.Earliest, now)
	}
	if n.Hold == None {
		return
	}
	h := &x.spec.Holds[n.Hold]
	h.From, h.Least = was.Failed, now
	if was.Signed != 0 {
		*h = Hold{Appointments: []calendars.Instant{max(was.Signed, was.Finish)}}
	}
}

// standUnloading sets an unloading's node from the plan's progress.
func standUnloading(p *schedule.Plan, d schedule.DeliveryID, n *Node) {
	if p.Progress == nil {
		return
	}
	switch was := &p.Progress.Deliveries[d]; {
	case was.Finish != 0:
		n.Work, n.Fixed, n.Earliest, n.LatestStart = 0, true, was.Finish, calendars.Never
	case was.Start != 0:
		n.Work, n.Earliest, n.LatestStart = was.Left, p.Progress.At, calendars.Never
	default:
		n.Earliest = max(n.Earliest, p.Progress.At)
	}
}

// happened says whether an event of a node number is past.
func (x *expansion) happened(number int32, finish bool) bool {
	if finish {
		return x.m.Plan.Over(x.m.Activity(number))
	}
	return x.m.Plan.Begun(x.m.Activity(number))
}

// past adjusts an arc to the plan's progress and says whether to keep it. An arc
// to an event that is past isn't kept. An arc from a task's actual start is made
// to come from a node fixed at that start, and a longest wait from an event of a
// task that is past becomes a [Limit].
func (x *expansion) past(a *Arc) bool {
	if x.happened(a.To, a.Kind.ToFinish()) {
		return false
	}
	if _, task := x.m.Plan.Task(x.m.Activity(a.From)); !task || !x.happened(a.From, a.Kind.FromFinish()) {
		return true
	}
	was := &x.m.Plan.Progress.Tasks[a.From]
	event := was.Finish
	if !a.Kind.FromFinish() {
		event = was.Start
	}
	if a.HasWithin {
		a.HasWithin = false
		x.m.Limits = append(x.m.Limits, Limit{a.To, a.Kind.ToFinish(), schedule.TaskID(a.From), event.Plus(a.Within)})
		n := &x.spec.Nodes[a.To]
		if a.Kind.ToFinish() {
			n.LatestFinish = min(n.LatestFinish, event.Plus(a.Within))
		} else {
			n.LatestStart = min(n.LatestStart, event.Plus(a.Within))
		}
	}
	if !a.Kind.FromFinish() {
		a.From = x.start(schedule.TaskID(a.From), event)
	}
	return true
}

// start returns the number of the node fixed at a task's actual start, and makes
// the node on first use.
func (x *expansion) start(t schedule.TaskID, at calendars.Instant) int32 {
	if number, known := x.starts[t]; known {
		return number
	}
	number := int32(len(x.spec.Nodes))
	if x.starts == nil {
		x.starts, x.m.began = make(map[schedule.TaskID]int32), make(map[int32]schedule.TaskID)
	}
	x.starts[t], x.m.began[number] = number, t
	x.spec.Nodes = append(x.spec.Nodes, Node{
		Joint: true, Fixed: true, Hold: None, Earliest: at,
		LatestStart: calendars.Never, LatestFinish: calendars.Never, LatestDone: calendars.Never,
	})
	return number
}
