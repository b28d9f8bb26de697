package solve

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/crews/resources"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/critical"
)

// Promise says which dates an answer must keep: those of the plan. One that a programme
// breaks already may stay broken, if it gets no later. The hand-over is one date for all:
// it is kept by what is done when the last of that programme is.
type Promise struct {
	Of           *schedule.Programme // whose broken dates may stay so; nil for none
	HandoverOnly bool                // no other date counts
	// With are optional tasks that are done too: by the hand-over and their own dates, as
	// all that is optional, and never left out.
	With []schedule.TaskID
}

// line is the moment by which all required work must be done: the hand-over or, while
// that is broken, when the last of it is done.
func (w Promise) line(p *schedule.Plan) calendars.Instant {
	line := p.Site.Handover
	if w.Of != nil {
		for _, b := range w.Of.Breaks {
			if b.Kind == schedule.BreakHandover {
				line = max(line, b.Actual)
			}
		}
	}
	return line
}

// blocks says whether required work has no place that has one in the programme of the
// promise, or an optional task that is to be done has none.
func (w Promise) blocks(m *network.Model) bool {
	if slices.ContainsFunc(w.With, func(t schedule.TaskID) bool { return m.HasNoPlace(t.Activity()) }) {
		return true
	}
	if !stuck(m) {
		return false
	}
	return w.Of == nil || slices.ContainsFunc(m.Blocked, func(b schedule.Blocked) bool {
		return !slices.ContainsFunc(w.Of.Blocked, func(was schedule.Blocked) bool { return was.Activity == b.Activity })
	})
}

// on puts the promise in the place of a problem's dates.
func (w Promise) on(p *resources.Problem) {
	if w.HandoverOnly {
		p.Dates = slices.DeleteFunc(p.Dates, func(d crews.Date) bool {
			return d.Weight == crews.ByDates || d.Weight == crews.KeepsAndGate
		})
	}
	if w.Of == nil || len(w.Of.Breaks) == 0 {
		return
	}
	t, line := timesOf(w.Of, p), w.line(p.Model.Plan)
	for i := range p.Dates {
		d := &p.Dates[i]
		switch was := d.Of(t); {
		case d.Weight == crews.Handover:
			d.At = max(d.At, line)
		case d.Weight == crews.Left || !toCome(w.Of, p.Model, p.Model.At(d.Node)):
		case d.Booking != network.None:
			d.Limit += max(calendars.Minutes(was-p.Latest(d, t)), 0)
		default:
			d.At = max(d.At, was)
		}
	}
}

// timesOf are the times of a programme by the nodes of a problem. What it leaves out, and
// what stands for no activity, comes as early as the rest allows.
func timesOf(g *schedule.Programme, p *resources.Problem) *network.Times {
	n, t := p.Net, network.NewTimes(p.Net)
	for k := range n.Nodes {
		node, a := &n.Nodes[k], p.Model.At(int32(k))
		if !toCome(g, p.Model, a) {
			from, until := critical.Held(n, t, k)
			t.Start[k], t.Finish[k] = critical.Place(n, node, from, until)
		} else {
			t.Start[k], t.Finish[k] = g.Of(a).Start, g.Of(a).Finish
			if id, task := p.Model.Plan.Task(a); task && g.Tasks[id].Resumes != 0 {
				t.Start[k] = g.Tasks[id].Resumes
			}
		}
		t.Done[k] = critical.Done(n, node, t.Finish[k])
	}
	return t
}

// toCome says whether a programme has a moment for an activity of what is to come.
func toCome(g *schedule.Programme, m *network.Model, a schedule.Activity) bool {
	if a == schedule.Nothing || m.HasNoPlace(a) || g.LeavesOut(a) || !g.Of(a).Start.IsReal() {
		return false
	}
	if id, task := m.Plan.Task(a); task {
		return !m.Plan.Finished(id)
	}
	d, _ := m.Plan.Delivery(a)
	return !m.Plan.Unloading(d)
}

// leavesOut says whether a programme lacks an optional task that is to be done.
func (w Promise) leavesOut(g *schedule.Programme) bool {
	return slices.ContainsFunc(w.With, func(t schedule.TaskID) bool { return g.LeavesOut(t.Activity()) })
}

// Unkept lists those of a programme's broken dates that the promise doesn't allow.
func (w Promise) Unkept(p *schedule.Plan, breaks []schedule.Break) []schedule.Break {
	line := w.line(p)
	return slices.DeleteFunc(slices.Clone(breaks), func(b schedule.Break) bool {
		if b.Kind == schedule.BreakHandover {
			return b.Actual <= line
		}
		return w.HandoverOnly || w.Of != nil && slices.ContainsFunc(w.Of.Breaks, func(was schedule.Break) bool {
			return was.Kind == b.Kind && was.Activity == b.Activity && was.Stock == b.Stock && b.Actual <= was.Actual
		})
	})
}
