package sitelog

import (
	"errors"
	"fmt"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
)

// extraStage is the stage of work that a log adds. No rule names it: such work waits for
// what it was logged to wait for, and holds up nothing else.
const extraStage = "not in the plan"

// outside says why the way in doesn't order work that a log adds.
const outside = "it isn't in the plan"

// Planned returns a plan with the work that a log adds to it by a moment, last in its list
// and in the order of writing, and without the work that it cancels before that is begun.
// It is the plan itself when there is none. Once the plan's file has a task with the id of
// added work, that is meant.
func Planned(p *schedule.Plan, events []Event, upto calendars.Instant) *schedule.Plan {
	if !slices.ContainsFunc(events, func(e Event) bool { return e.extra() }) {
		return p
	}
	filed := func(id string) bool { return !slices.Contains(p.Added, id) && p.FindTask(id) != schedule.None }
	q, s := *p, Replay(events, upto)
	q.Tasks, q.Stages = slices.Clone(p.Tasks), slices.Clone(p.Stages)
	q.Added, q.Cancelled = everAdded(events, filed), slices.Clone(p.Cancelled)
	for i := range s.Works {
		if id := s.Works[i].ID(); !filed(id) && q.FindTask(id) == schedule.None {
			addWork(&q, &s.Works[i])
		}
	}
	return cancelled(&q, s)
}

// everAdded lists the ids of work that a log ever added, taken back or not, in the order of
// writing, but for what the plan's file has.
func everAdded(events []Event, filed func(string) bool) (ids []string) {
	var works []Work
	for i := range events {
		if e := &events[i]; e.What == Added || e.conditional() {
			works = append(works, Work{*e})
		}
	}
	slices.SortFunc(works, func(a, b Work) int { return asWritten(&a.Event, &b.Event) })
	for i := range works {
		if id := works[i].ID(); !slices.Contains(ids, id) && !filed(id) {
			ids = append(ids, id)
		}
	}
	return ids
}

// addWork puts work at the end of a plan's list.
func addWork(p *schedule.Plan, w *Work) {
	crew, stage := p.FindCrew(w.Crew), extraStageOf(p)
	zones := zonesOf(p, w)
	if crew == schedule.None || zones == nil {
		return // it is told as unknown
	}
	people := max(w.People, 1)
	id := schedule.TaskID(len(p.Tasks))
	t := schedule.Task{
		ID: w.ID(), Name: w.Text, Zones: zones, Stage: stage,
		Crew:   []schedule.CrewNeed{{Crew: crew, Least: people, Most: people}},
		Effort: schedule.Effort{Takes: w.Takes}, By: w.Until,
		Excepts: []schedule.Except{{Rule: schedule.WayIn, Why: outside}},
		Note:    fmt.Sprintf("not in the plan; logged %s by %s", w.At.In(p.Site.Location).Format("Mon 2 Jan 15:04"), w.By),
	}
	if w.What == Signed {
		t.Note = "on this condition it was signed: " + p.Tasks[p.FindTask(w.Task)].Name
	}
	after := List(w.Follows)
	if w.What == Signed {
		after = []string{w.Task}
	}
	for _, a := range after {
		if from := p.FindTask(a); from != schedule.None && from != id {
			t.After = append(t.After, schedule.Link{From: from})
		}
	}
	p.Tasks = append(p.Tasks, t)
	for _, b := range List(w.Precedes) {
		if to := p.FindTask(b); to != schedule.None && to != id && !leads(p, to, id) {
			p.Tasks[to].After = append(slices.Clip(p.Tasks[to].After), schedule.Link{From: id})
		}
	}
}

// extraStageOf is the stage of added work, which a plan gets with the first of it.
func extraStageOf(p *schedule.Plan) schedule.StageID {
	stage := slices.Index(p.Stages, extraStage)
	if stage < 0 {
		stage = len(p.Stages)
		p.Stages = append(p.Stages, extraStage)
	}
	return schedule.StageID(stage)
}

// zonesOf returns where added work is: where it says, or where the work is on condition of
// which it is done.
func zonesOf(p *schedule.Plan, w *Work) []schedule.ZoneID {
	if w.What == Signed {
		if t := p.FindTask(w.Task); t != schedule.None {
			return p.Tasks[t].Zones
		}
		return nil
	}
	for z := range p.Zones {
		if p.Zones[z].ID == w.Zone {
			return []schedule.ZoneID{schedule.ZoneID(z)}
		}
	}
	return nil
}

// leads says whether a task comes before another by what the plan requires, so that the
// other can't come before it.
func leads(p *schedule.Plan, first, last schedule.TaskID) bool {
	order := network.Precedences(p)
	seen := make([]bool, p.Activities())
	var from func(schedule.Activity) bool
	from = func(a schedule.Activity) bool {
		if a == last.Activity() || seen[a] {
			return a == last.Activity()
		}
		seen[a] = true
		for tie := range order.After(a) {
			if from(tie.Activity) {
				return true
			}
		}
		return false
	}
	return from(first.Activity())
}

// cancelled returns a plan without the tasks that were cancelled before they were begun, but
// never without any task.
func cancelled(p *schedule.Plan, s *State) *schedule.Plan {
	place := 0
	for i := 0; i < len(p.Tasks); place++ {
		t := s.Tasks[p.Tasks[i].ID]
		if t == nil || t.Cancelled == 0 || t.Start != 0 || len(p.Tasks) == 1 {
			i++
			continue
		}
		p.Cancelled = append(slices.Clip(p.Cancelled),
			schedule.Cancelled{ID: p.Tasks[i].ID, Name: p.Tasks[i].Name, Place: place, At: t.Cancelled, Why: t.CancelledWhy})
		p = p.Without(schedule.TaskID(i))
	}
	return p
}

// about is the task of an event that the plan must have.
func (e *Event) about() string {
	if e.What == Added {
		return ""
	}
	return e.Task
}

// gone says that a task was cancelled; nil when it wasn't.
func gone(p *schedule.Plan, task string) error {
	for i := range p.Cancelled {
		if c := &p.Cancelled[i]; c.ID == task {
			return fmt.Errorf("%s is cancelled since %s; undo that first if it goes on", task,
				c.At.In(p.Site.Location).Format("Mon 2 Jan 15:04"))
		}
	}
	return nil
}

// place says why work can't be added to a plan as an event has it, or a task not taken out of
// it; nil when it can.
func (e *Event) place(p *schedule.Plan) error {
	w := Work{*e}
	switch {
	case e.What == Cancelled && len(p.Tasks) == 1:
		return errors.New("the plan would have no task left")
	case !e.extra() || e.What == Cancelled:
		return nil
	case p.FindTask(w.ID()) != schedule.None || gone(p, w.ID()) != nil:
		return fmt.Errorf("a task is called %s already; give it another name", w.ID())
	case e.What == Added && zonesOf(p, &w) == nil:
		return among("zone", e.Zone, len(p.Zones), func(i int) string { return p.Zones[i].ID })
	}
	for _, z := range zonesOf(p, &w) {
		if most := p.Zones[z].People; most != 0 && e.People > most {
			return fmt.Errorf("%s holds %d people at most", p.Zones[z].Name, most)
		}
	}
	return e.order(p)
}

// order says why added work can't come after or before what an event has it; nil when it can.
func (e *Event) order(p *schedule.Plan) error {
	for _, id := range append(List(e.Follows), List(e.Precedes)...) {
		if err := among("task", id, len(p.Tasks), func(i int) string { return p.Tasks[i].ID }); err != nil {
			return err
		}
	}
	for _, last := range List(e.Follows) {
		for _, first := range List(e.Precedes) {
			if leads(p, p.FindTask(first), p.FindTask(last)) {
				return fmt.Errorf("it can't come after %s and before %s: the plan has %s first", last, first, first)
			}
		}
	}
	return nil
}
