package sheets

import "build.example/turflast/schedule"

// Numbers are the short numbers by which people on site name tasks and
// deliveries, from 1 on: on paper, on the screen and in the log. Each thing has one
// number for the whole build, over all crews and days, so that no forecast changes
// it and "23" is the turf on every sheet.
//
// What was agreed in a baseline comes first, in the order of the first baseline
// that has it; the rest follows in the order of the plan, tasks before deliveries.
// A number is never given again: what has left the plan since it was agreed leaves
// a gap.
type Numbers struct {
	tasks      []int // by TaskID
	deliveries []int // by DeliveryID
	things     []thing
}

// thing is what a number stands for; both ids are None for what has left the plan.
type thing struct {
	task     schedule.TaskID
	delivery schedule.DeliveryID
}

// Agreed is what a baseline has numbered: the ids of its tasks and deliveries, each
// list in the order of its plan.
type Agreed struct{ Tasks, Deliveries []string }

// Number numbers the tasks and deliveries of a plan; agreed are its baselines,
// oldest first.
func Number(p *schedule.Plan, agreed ...Agreed) *Numbers {
	n := &Numbers{tasks: make([]int, len(p.Tasks)), deliveries: make([]int, len(p.Deliveries))}
	tasks, deliveries := make(map[string]schedule.TaskID), make(map[string]schedule.DeliveryID)
	plan := Agreed{}
	for i := range p.Tasks {
		tasks[p.Tasks[i].ID] = schedule.TaskID(i)
		plan.Tasks = append(plan.Tasks, p.Tasks[i].ID)
	}
	for i := range p.Deliveries {
		deliveries[p.Deliveries[i].ID] = schedule.DeliveryID(i)
		plan.Deliveries = append(plan.Deliveries, p.Deliveries[i].ID)
	}
	type name struct {
		id       string
		delivery bool
	}
	seen := make(map[name]bool)
	add := func(as name, t thing) {
		if seen[as] {
			return
		}
		seen[as] = true
		n.things = append(n.things, t)
		if t.task != schedule.None {
			n.tasks[t.task] = len(n.things)
		}
		if t.delivery != schedule.None {
			n.deliveries[t.delivery] = len(n.things)
		}
	}
	for _, a := range append(agreed[:len(agreed):len(agreed)], plan) {
		for _, id := range a.Tasks {
			t, ok := tasks[id]
			if !ok {
				t = schedule.None
			}
			add(name{id, false}, thing{t, schedule.None})
		}
		for _, id := range a.Deliveries {
			d, ok := deliveries[id]
			if !ok {
				d = schedule.None
			}
			add(name{id, true}, thing{schedule.None, d})
		}
	}
	return n
}

// Task is the number of a task.
func (n *Numbers) Task(t schedule.TaskID) int { return n.tasks[t] }

// Delivery is the number of a delivery.
func (n *Numbers) Delivery(d schedule.DeliveryID) int { return n.deliveries[d] }

// Find is the task or the delivery with a number, the other being None; ok is false
// when no thing of the plan has it.
func (n *Numbers) Find(number int) (t schedule.TaskID, d schedule.DeliveryID, ok bool) {
	if number < 1 || number > len(n.things) {
		return schedule.None, schedule.None, false
	}
	at := n.things[number-1]
	return at.task, at.delivery, at != thing{schedule.None, schedule.None}
}

// Most is the highest number.
func (n *Numbers) Most() int { return len(n.things) }
