// Package baseline freezes an agreed programme, by the ids of the plan's tasks
// and deliveries. What happens can then be measured against it even when the
// plan file changes.
//
// Its file is JSON, with moments in RFC 3339 on the site's clock; older files
// leave out the seconds, and read the same.
package baseline

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
)

// Baseline is an agreed programme.
type Baseline struct {
	Number int               // from 1; the newest has the highest
	Garden string            // as the plan calls it
	Agreed calendars.Instant // when it was frozen
	By     string            // who froze it
	Why    string            // why, after an earlier one; empty in the first
	Digest string            // of the plan file: "sha256" and its digits
	Seed   uint64            // of the search that found it

	Finish   calendars.Instant // the last required work is done
	Handover calendars.Instant // as the plan has it
	Margin   schedule.Margin

	Tasks      []Task     // in the order of the plan
	Deliveries []Delivery // in the order of the plan
}

// Task is what was agreed of a task.
type Task struct {
	ID                          string
	Start, Finish, Done, Signed calendars.Instant
	Crew                        []Heads
	Dropped                     bool // left out; the moments are zero then
	NoPlace                     bool // it had no place; the moments are zero then
}

// Heads are the people of one crew.
type Heads struct {
	Crew  string
	Heads int
}

// Delivery is what was agreed of a delivery.
type Delivery struct {
	ID                     string
	Arrives, Start, Finish calendars.Instant // its booking, and its unloading
	NoPlace                bool              // its unloading had no place, and has no moments
}

// Without lists the ids of what had no place when the baseline was agreed, tasks first:
// it is a baseline of the rest.
func (b *Baseline) Without() (tasks, deliveries []string) {
	for i := range b.Tasks {
		if b.Tasks[i].NoPlace {
			tasks = append(tasks, b.Tasks[i].ID)
		}
	}
	for i := range b.Deliveries {
		if b.Deliveries[i].NoPlace {
			deliveries = append(deliveries, b.Deliveries[i].ID)
		}
	}
	return tasks, deliveries
}

// Freeze is the baseline of a programme, of all that has a place in it. The caller sets
// its number, digest and seed, and when, by whom and why it was agreed.
func Freeze(c network.Case) *Baseline {
	p, g := c.Plan, c.Programme
	b := &Baseline{Garden: p.Garden, Finish: g.Finish, Handover: p.Site.Handover, Margin: g.Handover}
	for i := range p.Tasks {
		d := &g.Tasks[i]
		t := Task{ID: p.Tasks[i].ID, Dropped: d.Dropped, NoPlace: g.HasNoPlace(schedule.Activity(i))}
		if !t.Dropped && !t.NoPlace {
			t.Start, t.Finish, t.Done, t.Signed = d.Start, d.Finish, d.Done, d.Signed
			for k, need := range p.Tasks[i].Crew {
				t.Crew = append(t.Crew, Heads{p.Crews[need.Crew].ID, d.Heads[k]})
			}
		}
		b.Tasks = append(b.Tasks, t)
	}
	for i := range p.Deliveries {
		u := &g.Unloads[i]
		d := Delivery{ID: p.Deliveries[i].ID, Arrives: u.Arrives}
		if d.NoPlace = g.HasNoPlace(p.Unload(schedule.DeliveryID(i))); !d.NoPlace {
			d.Start, d.Finish = u.Start, u.Finish
		}
		b.Deliveries = append(b.Deliveries, d)
	}
	return b
}

// Programme is the baseline as a programme of a plan, with dates and heads
// only. What is in the plan and not in the baseline has no dates
// ([calendars.Never]); what had no place is Blocked besides, without a reason.
func (b *Baseline) Programme(p *schedule.Plan) *schedule.Programme {
	g := &schedule.Programme{
		Scope: schedule.Crews, Finish: b.Finish, Handover: b.Margin,
		Tasks: make([]schedule.TaskDates, len(p.Tasks)), Unloads: make([]schedule.UnloadDates, len(p.Deliveries)),
	}
	tasks := make(map[string]*Task, len(b.Tasks))
	for i := range b.Tasks {
		tasks[b.Tasks[i].ID] = &b.Tasks[i]
	}
	noPlace := func(a schedule.Activity) {
		g.Blocked = append(g.Blocked, schedule.Blocked{Activity: a, Needs: schedule.Nothing})
	}
	for i := range p.Tasks {
		was := tasks[p.Tasks[i].ID]
		g.Tasks[i] = dates(p, &p.Tasks[i], was)
		if was != nil && was.NoPlace {
			noPlace(schedule.Activity(i))
		}
	}
	deliveries := make(map[string]*Delivery, len(b.Deliveries))
	for i := range b.Deliveries {
		deliveries[b.Deliveries[i].ID] = &b.Deliveries[i]
	}
	const never = calendars.Never
	for i := range p.Deliveries {
		g.Unloads[i] = schedule.UnloadDates{Dates: schedule.Dates{Start: never, Finish: never}, Arrives: never}
		switch d := deliveries[p.Deliveries[i].ID]; {
		case d == nil:
		case d.NoPlace:
			g.Unloads[i].Arrives = d.Arrives
			noPlace(p.Unload(schedule.DeliveryID(i)))
		default:
			g.Unloads[i] = schedule.UnloadDates{Dates: schedule.Dates{Start: d.Start, Finish: d.Finish}, Arrives: d.Arrives}
		}
	}
	return g
}

func dates(p *schedule.Plan, t *schedule.Task, was *Task) schedule.TaskDates {
	const never = calendars.Never
	out := schedule.TaskDates{
		Dates: schedule.Dates{Start: never, Finish: never}, Done: never, Signed: never, Heads: make([]int, len(t.Crew)),
	}
	if was == nil || was.Dropped || was.NoPlace {
		out.Dropped = was != nil && was.Dropped
		return out
	}
	out.Start, out.Finish, out.Done, out.Signed = was.Start, was.Finish, was.Done, was.Signed
	for k, need := range t.Crew {
		for _, h := range was.Crew {
			if h.Crew == p.Crews[need.Crew].ID {
				out.Heads[k] = h.Heads
			}
		}
	}
	return out
}

// Change is how one thing differs between two baselines.
type Change uint8

// How things differ.
const (
	Moved   Change = iota // it starts, or its lorry comes, at another moment
	Longer                // it starts at the same moment and takes longer, or shorter
	Added                 // it is only in the second
	Gone                  // it is only in the first
	LeftOut               // the second leaves it out
	PutBack               // the first leaves it out
	Lost                  // it has no place in the second
	Placed                // it had no place in the first
)

// Difference is one thing that differs. Moments are zero where there are none.
type Difference struct {
	ID                   string
	Delivery             bool
	Change               Change
	Was, Now             calendars.Instant // start, or arrival
	WasFinish, NowFinish calendars.Instant
	NoPlace              bool // of Added and Gone: it has, or had, no place
}

// Compare lists what differs from a to b: tasks in the order of b, then those
// that are gone, then deliveries in the same order.
func Compare(a, b *Baseline) []Difference {
	return append(differences(tasks(a), tasks(b)), differences(deliveries(a), deliveries(b))...)
}

// entry is what is compared of a task or a delivery.
type entry struct {
	id                         string
	delivery, dropped, noPlace bool
	start, finish              calendars.Instant // a delivery starts when it arrives
}

func tasks(b *Baseline) []entry {
	var out []entry
	for _, t := range b.Tasks {
		out = append(out, entry{id: t.ID, dropped: t.Dropped, noPlace: t.NoPlace, start: t.Start, finish: t.Finish})
	}
	return out
}

func deliveries(b *Baseline) []entry {
	var out []entry
	for _, d := range b.Deliveries {
		out = append(out, entry{id: d.ID, delivery: true, noPlace: d.NoPlace, start: d.Arrives, finish: d.Finish})
	}
	return out
}

func differences(a, b []entry) []Difference {
	var out []Difference
	before := make(map[string]entry)
	for _, x := range a {
		before[x.id] = x
	}
	for _, now := range b {
		was, known := before[now.id]
		delete(before, now.id)
		if change, differs := changed(was, now, known); differs {
			out = append(out, Difference{
				ID: now.id, Delivery: now.delivery, Change: change,
				Was: was.start, Now: now.start, WasFinish: was.finish, NowFinish: now.finish,
				NoPlace: change == Added && now.noPlace,
			})
		}
	}
	for _, was := range a {
		if _, gone := before[was.id]; gone {
			out = append(out, Difference{
				ID: was.id, Delivery: was.delivery, Change: Gone, Was: was.start, WasFinish: was.finish,
				NoPlace: was.noPlace,
			})
		}
	}
	return out
}

// changed is how an entry that the first baseline may have differs in the
// second. How long an unloading takes doesn't count.
func changed(was, now entry, known bool) (change Change, differs bool) {
	if !known {
		return Added, true
	}
	switch {
	case was.noPlace != now.noPlace && now.noPlace:
		return Lost, true
	case was.noPlace != now.noPlace && !now.dropped:
		return Placed, true
	case was.dropped != now.dropped && now.dropped:
		return LeftOut, true
	case was.dropped != now.dropped:
		return PutBack, true
	case was.start != now.start:
		return Moved, true
	}
	return Longer, was.finish != now.finish && !now.delivery
}
