package flaws

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/critical"
)

// onlyAfter warns of work that with hands unlimited fits only after the hand-over,
// though its place is open before it for long enough: those it needs aren't there, no
// appointment is left, or what must follow it within a longest wait can't. Work that
// comes too late in its chain is none of these.
func (c *checker) onlyAfter() {
	n, t := c.unhurried()
	if n == nil {
		return
	}
	line := c.Plan.Site.Handover
	for i := range c.Plan.Tasks {
		id := schedule.TaskID(i)
		d := &c.Programme.Tasks[i]
		if !d.Start.IsReal() || d.Done <= line || c.Plan.Begun(id.Activity()) {
			continue
		}
		k := int32(n.Node(id.Activity()))
		switch {
		case t.Finish[k] > line:
			c.notThere(id, n, t)
		case d.Finish > line:
			c.notFollowed(id, k, n, t)
		default:
			c.notSigned(id, d.Finish)
		}
	}
}

// unhurried is the network of the logic programme without its longest waits, and the
// earliest times in it; nil if something can't be laid out.
func (c *checker) unhurried() (*network.Model, *network.Times) {
	choice := network.Choice{NoPlace: make([]bool, c.Plan.Activities())}
	for i := range c.Programme.Tasks {
		d := &c.Programme.Tasks[i]
		choice.Heads, choice.Dropped = append(choice.Heads, d.Heads), append(choice.Dropped, d.Dropped)
	}
	for i := range c.Programme.Blocked {
		a := c.Programme.Blocked[i].Activity
		choice.NoPlace[a] = !c.Programme.LeavesOut(a)
	}
	m, err := network.Expand(c.Plan, c.Hours, choice)
	if err != nil {
		return nil, nil
	}
	free := *m.Network
	free.Withins = nil
	t := network.NewTimes(&free)
	critical.Forward(&free, t)
	return m, t
}

// notThere warns of a task whose place is open for long enough before the hand-over
// when those it needs aren't.
func (c *checker) notThere(id schedule.TaskID, m *network.Model, t *network.Times) {
	k, task, line := m.Node(id.Activity()), &c.Plan.Tasks[id], c.Plan.Site.Handover
	node := m.Nodes[k]
	from, until := critical.Held(m.Network, t, k)
	own := m.Calendars[node.Calendar]
	node.Calendar = node.Place
	if _, finish := critical.Place(m.Network, &node, from, until); finish > line || from >= line {
		return
	}
	if there := own.Between(from, line); there < node.Work {
		together := "never there together"
		if there > 0 {
			together = "there together for " + c.w.Work(there)
		}
		c.warn(task.Pos, "see whose hours are too few or end too soon: the place, loud hours, crews or machines",
			"task %s fits only after the hand-over: it takes %s, and from %s to the hand-over those it needs are %s",
			task.ID, c.w.Work(node.Work), c.w.Moment(from), together)
		return
	}
	if node.Unbroken {
		c.warn(task.Pos, "let it pause, or split it",
			"task %s fits only after the hand-over: it takes %s unbroken, and from %s to the hand-over those it needs are "+
				"never there together for so long", task.ID, c.w.Work(node.Work), c.w.Moment(from))
	}
}

// notFollowed warns of a task that would be in time but for what must follow it within
// a longest wait, which would be in time too.
func (c *checker) notFollowed(id schedule.TaskID, k int32, m *network.Model, t *network.Times) {
	for i := range m.Withins {
		w := &m.Withins[i]
		other, ok := c.Plan.Task(m.At(w.To))
		if w.From != k || !ok || t.Finish[w.To] > c.Plan.Site.Handover {
			continue
		}
		task := &c.Plan.Tasks[id]
		c.warn(task.Pos, "lengthen the within",
			"task %s fits only after the hand-over: before it the hours never let %s follow within %s",
			task.ID, c.Plan.Tasks[other].ID, c.w.Clock(w.Most))
		return
	}
}

// notSigned warns of a task whose appointments are over when it is finished, in time.
func (c *checker) notSigned(id schedule.TaskID, finish calendars.Instant) {
	task := &c.Plan.Tasks[id]
	if task.Hold == nil || len(task.Hold.Appointments) == 0 {
		return
	}
	inTime := func(at calendars.Instant) bool {
		return at >= finish && at.Plus(task.Hold.Takes) <= c.Plan.Site.Handover
	}
	if !slices.ContainsFunc(task.Hold.Appointments, inTime) {
		c.warn(task.Pos, "add an appointment",
			"task %s is signed off only after the hand-over: it is finished %s, after the last appointment before that",
			task.ID, c.w.Moment(finish))
	}
}
