package verify

import (
	"fmt"
	"slices"

	"build.example/turflast/schedule"
)

// checkNeeding checks that nothing has dates that needs an activity without any. The
// links of an optional task go with it.
func (c *checker) checkNeeding() {
	lacking := make([]bool, c.p.Activities())
	for a := range c.p.Activities() {
		t, task := c.p.Task(a)
		lacking[a] = c.lacks(a) && !(task && c.p.Tasks[t].Optional && !c.p.Started(t))
	}
	if !slices.Contains(lacking, true) {
		return
	}
	n := c.needing(lacking)
	for b := range c.p.Activities() {
		if c.lacks(b) || !c.hasDates(b) || c.p.Begun(b) {
			continue
		}
		if a := n.before(b); a != schedule.Nothing {
			c.fault("blocked", b, "%s has dates, %s before it has none", c.p.ActivityID(b), c.p.ActivityID(a))
		}
	}
}

// needing finds what needs work without dates. Rules and ways in treat tasks of one kind
// alike, so of each kind one is asked about.
type needing struct {
	*checker
	lacking []bool                       // by Activity
	firsts  map[string]schedule.TaskID   // by kind: a task without dates
	ruled   map[string]schedule.Activity // by kind of what follows: what rules and ways in put before it, as far as known
}

func (c *checker) needing(lacking []bool) *needing {
	n := &needing{
		checker: c, lacking: lacking,
		firsts: make(map[string]schedule.TaskID), ruled: make(map[string]schedule.Activity),
	}
	for i := range c.p.Tasks {
		if lacking[i] {
			n.firsts[c.alike(schedule.TaskID(i))] = schedule.TaskID(i)
		}
	}
	return n
}

// before returns something without dates that comes before an activity, Nothing for none.
func (n *needing) before(b schedule.Activity) schedule.Activity {
	if d, ok := n.p.Delivery(b); ok {
		return n.linked(n.p.Deliveries[d].After)
	}
	t := &n.p.Tasks[b]
	if a := n.linked(t.After); a != schedule.Nothing {
		return a
	}
	for _, d := range t.Uses {
		if a := n.p.Unload(d); n.lacking[a] {
			return a
		}
	}
	kind := n.alike(schedule.TaskID(b))
	if a, known := n.ruled[kind]; known {
		return a
	}
	n.ruled[kind] = schedule.Nothing
	for _, a := range n.firsts {
		sooner := n.ruled[kind] == schedule.Nothing || a.Activity() < n.ruled[kind]
		if sooner && (n.ruledBefore(a, schedule.TaskID(b)) || n.behindOf(a, schedule.TaskID(b))) {
			n.ruled[kind] = a.Activity()
		}
	}
	return n.ruled[kind]
}

// linked is what lacks dates among those that links come from, Nothing for none.
func (n *needing) linked(links []schedule.Link) schedule.Activity {
	for i := range links {
		if a := links[i].From.Activity(); n.lacking[a] {
			return a
		}
	}
	return schedule.Nothing
}

// alike is the same for tasks that rules and ways in treat alike.
func (c *checker) alike(id schedule.TaskID) string {
	t := &c.p.Tasks[id]
	var excused []schedule.RuleID
	for _, x := range t.Excepts {
		excused = append(excused, x.Rule)
	}
	return fmt.Sprint(t.Stage, t.Zones, t.OnBoards, t.Closes.Orders, excused)
}

// comesBefore says whether a link, a use, a rule or a way in puts one activity before
// another.
func (c *checker) comesBefore(a, b schedule.Activity) bool {
	first, isTask := c.p.Task(a)
	then, thenTask := c.p.Task(b)
	linked := func(l schedule.Link) bool { return isTask && l.From == first }
	if d, ok := c.p.Delivery(b); ok {
		return slices.ContainsFunc(c.p.Deliveries[d].After, linked)
	}
	if d, ok := c.p.Delivery(a); ok {
		return slices.Contains(c.p.Tasks[then].Uses, d)
	}
	if !thenTask || first == then {
		return false
	}
	return slices.ContainsFunc(c.p.Tasks[then].After, linked) || c.ruledBefore(first, then) || c.behindOf(first, then)
}

func (c *checker) ruledBefore(a, b schedule.TaskID) bool {
	x, y := &c.p.Tasks[a], &c.p.Tasks[b]
	for i := range c.p.Rules {
		r, id := &c.p.Rules[i], schedule.RuleID(i)
		if r.Kind == schedule.Before && slices.Contains(r.First, x.Stage) && slices.Contains(r.Then, y.Stage) &&
			!excused(x, id) && !excused(y, id) && (r.Everywhere || meet(x, y)) {
			return true
		}
	}
	return false
}

// behindOf says whether b closes the way in to where a works.
func (c *checker) behindOf(a, b schedule.TaskID) bool {
	x, y := &c.p.Tasks[a], &c.p.Tasks[b]
	stage := c.p.Stages[x.Stage]
	if !y.Closes.Orders || excused(y, schedule.WayIn) || excused(x, schedule.WayIn) || x.OnBoards ||
		stage == "clean" || stage == "strike" {
		return false
	}
	through := c.behind(y)
	return slices.ContainsFunc(x.Zones, func(z schedule.ZoneID) bool { return through[z] })
}
