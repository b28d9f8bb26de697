package cost

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/worktime"
)

// stretch is a number of people or machines for some time.
type stretch struct {
	calendars.Span
	n int
}

// taken is what a programme takes of a machine.
type taken struct {
	inUse []stretch // worked, and pauses in site hours of tasks at which it stays
	held  []stretch // from the start to the finish of such tasks, else as worked
}

// takings are what a programme takes of each crew and machine, by their ids.
type takings struct {
	crews    [][]stretch
	machines []taken
}

func takenBy(c network.Case) *takings {
	t := noTakings(c.Plan)
	for a := range c.Plan.Activities() {
		t.activity(c, a)
	}
	t.duties(c)
	return t
}

func noTakings(p *schedule.Plan) *takings {
	return &takings{crews: make([][]stretch, len(p.Crews)), machines: make([]taken, len(p.Machines))}
}

// activity adds what an activity takes.
func (t *takings) activity(c network.Case, a schedule.Activity) {
	d, unloads := c.Plan.Delivery(a)
	switch {
	case unloads:
		t.unload(&c.Plan.Deliveries[d].Unload, &c.Programme.Unloads[d])
	case !c.Programme.LeavesOut(a) && len(c.Programme.Tasks[a].Work) > 0:
		t.task(c, &c.Plan.Tasks[a], &c.Programme.Tasks[a])
	}
}

// unload adds what an unloading takes.
func (t *takings) unload(u *schedule.Unload, d *schedule.UnloadDates) {
	if !d.Start.IsReal() || d.Start >= d.Finish {
		return
	}
	s := calendars.Span{Start: d.Start, End: d.Finish}
	for _, need := range u.Crew {
		t.crews[need.Crew] = append(t.crews[need.Crew], stretch{s, need.Least})
	}
	for _, need := range u.Machines {
		m := &t.machines[need.Machine]
		m.inUse, m.held = append(m.inUse, stretch{s, need.Count}), append(m.held, stretch{s, need.Count})
	}
}

// task adds what a task takes.
func (t *takings) task(c network.Case, task *schedule.Task, d *schedule.TaskDates) {
	for k, need := range task.Crew {
		for _, s := range d.Work {
			t.crews[need.Crew] = append(t.crews[need.Crew], stretch{s, d.Heads[k]})
		}
	}
	for _, need := range task.Machines {
		m := &t.machines[need.Machine]
		for i, s := range d.Work {
			m.inUse = append(m.inUse, stretch{s, need.Count})
			if task.Stays && i > 0 {
				for pause := range c.Hours.Site.Openings(d.Work[i-1].End, s.Start) {
					m.inUse = append(m.inUse, stretch{pause, need.Count})
				}
			}
			if !task.Stays {
				m.held = append(m.held, stretch{s, need.Count})
			}
		}
		if task.Stays {
			whole := calendars.Span{Start: d.Work[0].Start, End: d.Work[len(d.Work)-1].End}
			m.held = append(m.held, stretch{whole, need.Count})
		}
	}
}

// duties adds whom daily duties take off each crew: those who would be at work without.
func (t *takings) duties(c network.Case) {
	if len(c.Plan.Duties) == 0 {
		return
	}
	free := *c.Plan
	free.Duties = nil
	without := worktime.New(&free)
	for i := range c.Plan.Crews {
		var changes []calendars.Change
		for s, n := range without.Crews[i].Steps {
			changes = append(changes, calendars.Change{Span: s, By: n})
		}
		for s, n := range c.Hours.Crews[i].Steps {
			changes = append(changes, calendars.Change{Span: s, By: -n})
		}
		for s, n := range calendars.NewProfile(changes).Steps {
			if n > 0 {
				t.crews[i] = append(t.crews[i], stretch{s, n})
			}
		}
	}
}
