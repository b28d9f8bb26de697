package whatif

import "build.example/turflast/schedule"

// drop takes a task out of the plan.
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
	*a.p = *a.p.Without(gone)
}
