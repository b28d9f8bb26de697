package whatif

import (
	"fmt"
	"slices"

	"build.example/turflast/schedule"
)

// drop takes a task or a lorry out of the plan.
func (a *applying) drop() {
	what, i := a.find(task, delivery)
	if a.fault != nil {
		return
	}
	if what == delivery {
		a.dropLorry(schedule.DeliveryID(i))
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

// dropLorry takes a lorry out of the plan that no task uses.
func (a *applying) dropLorry(gone schedule.DeliveryID) {
	d := &a.p.Deliveries[gone]
	if a.p.Unloading(gone) || a.p.Arrived(gone) {
		a.fail(a.c.Columns.Name, "", "%s has come", d.What)
		return
	}
	for i := range a.p.Tasks {
		if t := &a.p.Tasks[i]; slices.Contains(t.Uses, gone) {
			a.fail(a.c.Columns.Name, fmt.Sprintf("first drop %s too, or say %s without %s", t.ID, t.ID, d.ID),
				"%s uses %s", t.ID, d.ID)
			return
		}
	}
	*a.p = *a.p.WithoutLorry(gone)
}
