package whatif

import (
	"slices"

	"build.example/turflast/schedule"
)

// drop takes a task out of the plan, with its links and the paths through it.
func (a *applying) drop() {
	_, i := a.find(task)
	if a.fault != nil {
		return
	}
	if len(a.p.Tasks) == 1 {
		a.fail(a.c.Columns.Name, "", "the plan would have no task")
		return
	}
	gone := schedule.TaskID(i)
	if a.p.Started(gone) {
		a.fail(a.c.Columns.Name, "make what is left of it shorter", "%s is under way or done", a.p.Tasks[i].Name)
		return
	}
	if a.p.Progress != nil {
		progress := *a.p.Progress
		progress.Tasks = slices.Delete(slices.Clone(progress.Tasks), i, i+1)
		a.p.Progress = &progress
	}
	a.p.Tasks = slices.Delete(slices.Clone(a.p.Tasks), i, i+1)
	for k := range a.p.Tasks {
		t := &a.p.Tasks[k]
		t.After = without(t.After, gone)
		t.Apart = ids(t.Apart, gone)
	}
	a.p.Deliveries = slices.Clone(a.p.Deliveries)
	for k := range a.p.Deliveries {
		a.p.Deliveries[k].After = without(a.p.Deliveries[k].After, gone)
	}
	var measures []schedule.Measure
	for _, m := range a.p.Measures {
		if m, ok := measure(m, gone); ok {
			measures = append(measures, m)
		}
	}
	a.p.Measures = measures
}

// renumbered returns a task's id once another is gone.
func renumbered(t, gone schedule.TaskID) schedule.TaskID {
	if t > gone {
		return t - 1
	}
	return t
}

// without returns links except those from a task that is gone.
func without(links []schedule.Link, gone schedule.TaskID) []schedule.Link {
	var out []schedule.Link
	for _, l := range links {
		if l.From != gone {
			l.From = renumbered(l.From, gone)
			out = append(out, l)
		}
	}
	return out
}

func ids(tasks []schedule.TaskID, gone schedule.TaskID) []schedule.TaskID {
	var out []schedule.TaskID
	for _, t := range tasks {
		if t != gone {
			out = append(out, renumbered(t, gone))
		}
	}
	return out
}

// measure returns a measure once a task is gone; ok is false when it goes with the task.
func measure(m schedule.Measure, gone schedule.TaskID) (schedule.Measure, bool) {
	if m.Drop == gone {
		return m, false
	}
	if m.Drop != schedule.None {
		m.Drop = renumbered(m.Drop, gone)
	}
	if o := m.Overlap; o != nil {
		if o.First == gone || o.Second == gone {
			return m, false
		}
		m.Overlap = &schedule.Overlap{First: renumbered(o.First, gone), Second: renumbered(o.Second, gone), By: o.By}
	}
	return m, true
}
