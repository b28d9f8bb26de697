package flaws

import (
	"slices"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
)

// lifting warns of tasks that lift and may pause: a load would hang until those
// who lift are back.
func (c *checker) lifting() {
	for i := range c.Plan.Tasks {
		t, d := &c.Plan.Tasks[i], &c.Programme.Tasks[i]
		if t.Unbroken || !d.Start.IsReal() || d.Finish <= d.Start+1 || !slices.Contains(t.Hazards, "lifting") {
			continue
		}
		first, _ := c.Hours.Task(t, d.Heads).Opening(d.Start)
		if first.End >= c.Plan.Site.Handover {
			continue
		}
		hint := "split it where the load is down: unbroken, it breaks a date or has no place"
		if c.holdsUnbroken(schedule.TaskID(i)) {
			hint = "write unbroken: true, or split it where the load is down"
		}
		c.warn(t.Pos, hint, "task %s lifts and isn't unbroken: it may pause with its load up, first when its hours end %s",
			t.ID, c.w.Moment(first.End))
	}
}

// holdsUnbroken says whether every task keeps a place, and every date that holds
// still does, once a task is unbroken, with hands unlimited.
func (c *checker) holdsUnbroken(t schedule.TaskID) bool {
	p := *c.Plan
	p.Tasks = slices.Clone(p.Tasks)
	p.Tasks[t].Unbroken = true
	s, err := solve.New(&p)
	if err != nil {
		return false
	}
	g := s.Logic().Programme
	for i := range p.Activities() {
		if c.Programme.Of(i).Start.IsReal() && !g.Of(i).Start.IsReal() {
			return false
		}
	}
	return !c.breaksMore(g)
}
