package plans

import (
	"slices"

	"build.example/turflast/schedule"
)

// Without is a plan without some of its activities, all that is linked to them or uses
// them among these. now says by the activities of p which of the new plan's each is;
// Nothing for what is gone.
func Without(p *schedule.Plan, gone func(schedule.Activity) bool) (q *schedule.Plan, now []schedule.Activity) {
	q, now = new(schedule.Plan), make([]schedule.Activity, p.Activities())
	*q = *p
	q.Tasks, q.Deliveries, q.Measures, q.Answers = nil, nil, nil, nil
	for i := range p.Tasks {
		now[i] = schedule.Nothing
		if a := schedule.Activity(i); !gone(a) {
			now[i] = schedule.Activity(len(q.Tasks))
			q.Tasks = append(q.Tasks, p.Tasks[i])
		}
	}
	lorries := make([]schedule.DeliveryID, len(p.Deliveries))
	for i := range p.Deliveries {
		a := p.Unload(schedule.DeliveryID(i))
		lorries[i], now[a] = schedule.None, schedule.Nothing
		if !gone(a) {
			lorries[i], now[a] = schedule.DeliveryID(len(q.Deliveries)), q.Activities()
			q.Deliveries = append(q.Deliveries, p.Deliveries[i])
		}
	}
	task := func(t schedule.TaskID) (schedule.TaskID, bool) {
		return schedule.TaskID(now[t]), now[t] != schedule.Nothing
	}
	for i := range q.Tasks {
		t := &q.Tasks[i]
		t.After = linksFrom(t.After, task)
		t.Apart = renamed(t.Apart, task)
		t.Uses = renamed(t.Uses, func(d schedule.DeliveryID) (schedule.DeliveryID, bool) {
			return lorries[d], lorries[d] != schedule.None
		})
	}
	for i := range q.Deliveries {
		q.Deliveries[i].After = linksFrom(q.Deliveries[i].After, task)
	}
	return q, now
}

// renamed lists what is left of some ids, by their new ones.
func renamed[T any](ids []T, now func(T) (T, bool)) (out []T) {
	for _, id := range ids {
		if id, ok := now(id); ok {
			out = append(out, id)
		}
	}
	return out
}

// linksFrom lists the links from what is left.
func linksFrom(links []schedule.Link, now func(schedule.TaskID) (schedule.TaskID, bool)) []schedule.Link {
	out := slices.Clone(links)
	for i := range out {
		from, ok := now(out[i].From)
		out[i].From = from
		if !ok {
			out[i].From = schedule.None
		}
	}
	return slices.DeleteFunc(out, func(l schedule.Link) bool { return l.From == schedule.None })
}
