package sheets

import "build.example/turflast/schedule"

// Numbers are the short numbers by which people on site name tasks and deliveries,
// from 1 on: on paper, on the screen and in the log. Each thing has one number for
// the whole build, over all crews and days, so that no forecast changes it and
// "23" is the turf on every sheet.
//
// What was agreed in a baseline comes first, in the order of the first baseline
// that has it. The rest follows in the order of the plan, tasks before deliveries.
// A number is never given again: what has left the plan since it was agreed leaves
// a gap.
type Numbers struct {
	of []int               // by Activity
	at []schedule.Activity // by number minus one; Nothing for what has left the plan
}

// Agreed is what a baseline has numbered: the ids of its tasks and deliveries, each
// list in the order of its plan.
type Agreed struct{ Tasks, Deliveries []string }

// AgreedIn returns what a baseline of a plan numbers.
func AgreedIn(p *schedule.Plan) Agreed {
	var out Agreed
	for i := range p.Tasks {
		out.Tasks = append(out.Tasks, p.Tasks[i].ID)
	}
	for i := range p.Deliveries {
		out.Deliveries = append(out.Deliveries, p.Deliveries[i].ID)
	}
	return out
}

// Number numbers the tasks and deliveries of a plan; agreed are its baselines,
// oldest first.
func Number(p *schedule.Plan, agreed ...Agreed) *Numbers {
	n := &Numbers{of: make([]int, p.Activities())}
	plan := AgreedIn(p)
	tasks, deliveries := from(0, plan.Tasks), from(p.Unload(0), plan.Deliveries)
	seenTasks, seenDeliveries := make(map[string]bool), make(map[string]bool)
	for _, a := range append(agreed[:len(agreed):len(agreed)], plan) {
		n.add(a.Tasks, tasks, seenTasks)
		n.add(a.Deliveries, deliveries, seenDeliveries)
	}
	return n
}

// from maps ids to their activities, which are consecutive from the first on.
func from(first schedule.Activity, ids []string) map[string]schedule.Activity {
	out := make(map[string]schedule.Activity, len(ids))
	for i, id := range ids {
		out[id] = first + schedule.Activity(i)
	}
	return out
}

// add numbers what hasn't been seen yet, whether or not the plan still has it.
func (n *Numbers) add(ids []string, known map[string]schedule.Activity, seen map[string]bool) {
	for _, id := range ids {
		if seen[id] {
			continue
		}
		seen[id] = true
		a, ok := known[id]
		if !ok {
			a = schedule.Nothing
		}
		n.at = append(n.at, a)
		if ok {
			n.of[a] = len(n.at)
		}
	}
}

// Of is the number of an activity.
func (n *Numbers) Of(a schedule.Activity) int { return n.of[a] }

// Find is the activity with a number, or Nothing if the plan has none with it.
func (n *Numbers) Find(number int) schedule.Activity {
	if number < 1 || number > len(n.at) {
		return schedule.Nothing
	}
	return n.at[number-1]
}

// Most is the highest number.
func (n *Numbers) Most() int { return len(n.at) }
