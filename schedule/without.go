package schedule

import "slices"

// Without returns a copy of a plan without a task, as if it had never been in it: its links
// go with it, and what follows it follows nothing in its place. What it uses still comes.
func (p *Plan) Without(gone TaskID) *Plan {
	q, i := *p, int(gone)
	if q.Progress != nil {
		progress := *q.Progress
		progress.Tasks = slices.Delete(slices.Clone(progress.Tasks), i, i+1)
		q.Progress = &progress
	}
	q.Tasks = slices.Delete(slices.Clone(q.Tasks), i, i+1)
	for k := range q.Tasks {
		t := &q.Tasks[k]
		t.After = without(t.After, gone)
		t.Apart = others(t.Apart, gone)
	}
	q.Deliveries = slices.Clone(q.Deliveries)
	for k := range q.Deliveries {
		q.Deliveries[k].After = without(q.Deliveries[k].After, gone)
	}
	q.Desk = slices.Clone(q.Desk)
	for k := range q.Desk {
		by := &q.Desk[k].By
		if by.Task == gone {
			*by = DeskDate{Delivery: None, Task: None}
		}
		by.Task = renumbered(by.Task, gone)
	}
	q.Measures = nil
	for _, m := range p.Measures {
		if m, ok := m.without(gone); ok {
			q.Measures = append(q.Measures, m)
		}
	}
	return &q
}

// renumbered returns a task's id once another is gone.
func renumbered(t, gone TaskID) TaskID {
	if t > gone {
		return t - 1
	}
	return t
}

// without returns links except those from a task that is gone.
func without(links []Link, gone TaskID) []Link {
	var out []Link
	for _, l := range links {
		if l.From != gone {
			l.From = renumbered(l.From, gone)
			out = append(out, l)
		}
	}
	return out
}

// others returns tasks except one that is gone.
func others(tasks []TaskID, gone TaskID) []TaskID {
	var out []TaskID
	for _, t := range tasks {
		if t != gone {
			out = append(out, renumbered(t, gone))
		}
	}
	return out
}

// without returns a measure once a task is gone; ok is false when it goes with the task.
func (m Measure) without(gone TaskID) (is Measure, ok bool) {
	if m.Drop == gone {
		return m, false
	}
	if m.Drop != None {
		m.Drop = renumbered(m.Drop, gone)
	}
	if o := m.Overlap; o != nil {
		if o.First == gone || o.Second == gone {
			return m, false
		}
		m.Overlap = &Overlap{First: renumbered(o.First, gone), Second: renumbered(o.Second, gone), By: o.By}
	}
	return m, true
}

// WithoutLorry returns a copy of a plan without a delivery, as if it had never been in it. What
// uses it uses nothing in its place.
func (p *Plan) WithoutLorry(gone DeliveryID) *Plan {
	q, i := *p, int(gone)
	if q.Progress != nil {
		progress := *q.Progress
		progress.Deliveries = slices.Delete(slices.Clone(progress.Deliveries), i, i+1)
		q.Progress = &progress
	}
	q.Deliveries = slices.Delete(slices.Clone(q.Deliveries), i, i+1)
	now := func(d DeliveryID) DeliveryID {
		if d > gone {
			return d - 1
		}
		return d
	}
	q.Tasks = slices.Clone(q.Tasks)
	for k := range q.Tasks {
		var uses []DeliveryID
		for _, d := range q.Tasks[k].Uses {
			if d != gone {
				uses = append(uses, now(d))
			}
		}
		q.Tasks[k].Uses = uses
	}
	q.Measures = nil
	for _, m := range p.Measures {
		if m.Earlier == nil {
			q.Measures = append(q.Measures, m)
		} else if m.Earlier.Delivery != gone {
			m.Earlier = &EarlierDelivery{Delivery: now(m.Earlier.Delivery), By: m.Earlier.By}
			q.Measures = append(q.Measures, m)
		}
	}
	q.Desk = slices.Clone(q.Desk)
	for k := range q.Desk {
		by := &q.Desk[k].By
		if by.Delivery == gone {
			*by = DeskDate{Delivery: None, Task: None}
		}
		by.Delivery = now(by.Delivery)
	}
	return &q
}
