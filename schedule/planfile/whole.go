package planfile

// checkAll holds the parts of the plan against each other.
func (r *reader) checkAll(top *item) {
	r.checkDates()
	if top.has("tasks") && len(r.tasks.list) == 0 && !r.tasks.broken {
		r.fault(posOf(top.get("tasks")), "write at least one task", "the plan has no task")
	}
	if r.fatal == 0 {
		r.warnings()
	}
}

func (r *reader) warnings() {}
