package builds

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
)

// addSpare lists what is optional and in the programme, in the order in which it is left out.
func (r *Replanner) addSpare() {
	p := r.m.Plan
	for i := range p.Tasks {
		id := schedule.TaskID(i)
		if a := id.Activity(); !p.Required(a) && !r.m.Problem.Left(id) {
			r.spare = append(r.spare, id)
		}
	}
	slices.SortStableFunc(r.spare, func(a, b schedule.TaskID) int { return p.Tasks[a].DropOrder - p.Tasks[b].DropOrder })
}

// leave leaves a task out of the build and of the look ahead, or takes that back.
func (r *Replanner) leave(t schedule.TaskID, out bool) {
	node := r.m.Node(t.Activity())
	r.gone[node] = out
	r.ahead.hoped = calendars.Past
	for _, n := range []*network.Network{r.n, r.ahead.n} {
		if n.Nodes[node].Hold = r.m.Problem.Net.Nodes[node].Hold; out {
			n.Nodes[node].Hold = network.None // nobody comes to sign what isn't done
		}
	}
}

// left lists what may still be left out: what hasn't begun.
func (r *Replanner) left() (out []schedule.TaskID) {
	for _, t := range r.spare {
		if node := r.m.Node(t.Activity()); !r.gone[node] && !r.begun(node) {
			out = append(out, t)
		}
	}
	return out
}

// leaveOut leaves out as few optional tasks as bring a late hand-over in time, and none if they
// don't. It says whether any are, and whether hands go in another order without them.
func (r *Replanner) leaveOut(best *Cost) (any, ordered bool) {
	list := r.left()
	if len(list) == 0 {
		return false, false
	}
	found := r.ahead.best // with all of it
	r.ahead.best = r.ahead.other
	from := slices.Clone(r.asked.from)
	for _, t := range list {
		r.leave(t, true)
	}
	if c, _ := r.without(); c.Handover > 0 {
		r.ahead.best, r.ahead.other = found, r.ahead.best
		copy(r.asked.from, from)
		for _, t := range list {
			r.leave(t, false)
		}
		r.keep()
		return false, false
	}
	r.ahead.other = found
	for k := len(list) - 1; k >= 0; k-- {
		r.leave(list[k], false)
		if c, _ := r.without(); c.Handover > 0 {
			r.leave(list[k], true)
			r.note(list[k])
		}
	}
	*best, ordered = r.without()
	return true, ordered
}

// without is how the build would end with what is left out now: in its present order, or else
// in the best other one, if that brings the hand-over in time.
func (r *Replanner) without() (c Cost, ordered bool) {
	c = r.keep()
	return c, c.Handover > 0 && r.hope(&c, true) && r.reorder(&c)
}

// leaveRest leaves out what is optional and hasn't begun by the hand-over, and says whether
// there is any.
func (r *Replanner) leaveRest() (any bool) {
	r.seen = Cost{}
	for _, t := range r.left() {
		r.leave(t, true)
		r.note(t)
		any = true
	}
	if any {
		r.staysOpen()
	}
	return any
}

// note notes that a task is left out.
func (r *Replanner) note(t schedule.TaskID) {
	r.Changes = append(r.Changes, Change{At: r.now, Call: network.None, Left: t})
}
