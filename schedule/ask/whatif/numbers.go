package whatif

import "build.example/turflast/schedule"

// numbers are the tasks of a plan by their ids.
type numbers map[string]schedule.TaskID

func numbered(p *schedule.Plan) numbers {
	n := make(numbers, len(p.Tasks))
	for i := range p.Tasks {
		n[p.Tasks[i].ID] = schedule.TaskID(i)
	}
	return n
}

// of returns the task with an id, or None.
func (n numbers) of(id string) schedule.TaskID {
	if t, ok := n[id]; ok {
		return t
	}
	return schedule.None
}
