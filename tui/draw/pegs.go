package draw

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/slip"
)

// Agreed is what the newest baseline says of the plan that is shown, and how far
// the programme is from it.
type Agreed struct {
	Programme *schedule.Programme // only its dates, numbered as in the plan
	late      map[schedule.TaskID]*slip.Task
	traces    []slip.Trace // why dates are late
}

// NewAgreed returns an agreed programme, with the slip of the present one from it.
func NewAgreed(agreed *schedule.Programme, s *slip.Slip) *Agreed {
	a := &Agreed{agreed, make(map[schedule.TaskID]*slip.Task, len(s.Tasks)), s.Traces}
	for i := range s.Tasks {
		a.late[s.Tasks[i].Task] = &s.Tasks[i]
	}
	return a
}

// pegs are the columns at which a task was agreed to start and to finish, and its slip
// as a figure; from is -1 if there are none.
type pegs struct {
	from, to int
	slip     string
}

// pegsOf returns the pegs of a task that isn't as agreed; none while there is a trial.
func (g *Garden) pegsOf(r *ruler, t schedule.TaskID) pegs {
	if g.Agreed == nil || g.Trial != nil {
		return pegs{from: -1}
	}
	was, now := &g.Agreed.Programme.Tasks[t], &g.Programme.Tasks[t]
	if !was.Start.IsReal() || was.Start == now.Start && was.Finish == now.Finish {
		return pegs{from: -1}
	}
	p := pegs{from: r.column(was.Start), to: r.end(was.Finish)}
	p.to = max(p.to, p.from+1)
	if s := g.Agreed.late[t]; s != nil {
		p.slip = wording.Slip(s.By)
	}
	return p
}

// agreedStory says when a task was agreed to be done; empty when it is as agreed.
func (g *Garden) agreedStory(t schedule.TaskID) string {
	if g.Agreed == nil {
		return ""
	}
	was, now := &g.Agreed.Programme.Tasks[t], &g.Programme.Tasks[t]
	if !was.Start.IsReal() || was.Start == now.Start && was.Finish == now.Finish {
		return ""
	}
	return g.Words.AgreedWork(was)
}

// agreedArrival returns when a lorry was agreed to come; 0 when nothing was agreed, or
// there is a trial.
func (g *Garden) agreedArrival(d schedule.DeliveryID) calendars.Instant {
	if g.Agreed == nil || g.Trial != nil || !g.Agreed.Programme.Unloads[d].Arrives.IsReal() {
		return 0
	}
	return g.Agreed.Programme.Unloads[d].Arrives
}

// holdMark returns the mark of a task's hold point.
func (g *Garden) holdMark(t schedule.TaskID) string {
	if g.Plan.Progress != nil && g.Plan.Progress.Tasks[t].Signed != 0 {
		return markSigned
	}
	return markHold
}
