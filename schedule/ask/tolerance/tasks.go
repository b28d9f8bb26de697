package tolerance

import (
	"context"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/network"
)

// Task is how late the start of a task may be while all else is as planned.
type Task struct {
	Task   schedule.TaskID
	Start  calendars.Instant // in the crew programme
	Held   calendars.Instant // latest start for which a checked programme is in hand; Past when there is none
	Broken calendars.Instant // earliest later one from which it is proven that a date breaks; Never when nothing is
}

// Tasks finds the tolerance of the tasks listed around a crew programme that
// meets every date. A task that is left out has none. When ctx ends, tasks that
// aren't done are left out of the list.
func Tasks(ctx context.Context, c network.Case, o Options, tasks []schedule.TaskID) []Task {
	options := solve.Options{Reference: c.Programme, Seed: o.Seed, Schedules: o.Schedules}
	return each(ctx, len(tasks), o, func(i int) Task { return task(ctx, c, options, tasks[i]) })
}

func task(ctx context.Context, c network.Case, o solve.Options, id schedule.TaskID) Task {
	p, d := c.Plan, &c.Programme.Tasks[id]
	t := Task{Task: id, Start: d.Start, Held: calendars.Past, Broken: calendars.Never}
	if d.Dropped || !d.Start.IsReal() || len(c.Programme.Breaks) > 0 {
		return t
	}
	a := &startAsking{ctx: ctx, p: p, id: id, o: o, place: c.Hours.Places[p.Tasks[id].Zones[0]],
		known: make(map[calendars.Instant]solve.Answer)}
	// By the definition of crew float, a slip within it breaks no date in the order
	// of hands.
	own := c.Hours.Task(&p.Tasks[id], d.Heads)
	t.Held = d.Start
	if d.CrewFloat > 0 && d.CrewFloat != schedule.FreeRange {
		t.Held = own.Next(own.Add(d.Start, d.CrewFloat))
	}
	if a.ask(t.Held) != solve.Meetable {
		t.Held = d.Start
	}
	not, last := a.between(&t, d.LateStart)
	for not-t.Held > 1 && last != solve.Meetable {
		mid := t.Held + (not-t.Held)/2
		if answer := a.ask(mid); answer == solve.Meetable {
			t.Held = mid
		} else {
			not, last = mid, answer
		}
	}
	if last == solve.Unmeetable {
		t.Broken = not
	}
	return t
}

// startAsking asks about the start of one task.
type startAsking struct {
	ctx   context.Context
	p     *schedule.Plan
	id    schedule.TaskID
	o     solve.Options
	place *calendars.Calendar
	known map[calendars.Instant]solve.Answer // by the next minute in which the place is open
}

// between returns the start up to which to search and the answer to it, and moves the
// start that holds towards it. It asks first about the minute after the start that
// holds, and the minute after the late start that links alone allow: these are the
// likeliest to break a date.
func (a *startAsking) between(t *Task, late calendars.Instant) (not calendars.Instant, answer solve.Answer) {
	last := max(a.p.Site.Handover, t.Held) + 1
	if not = t.Held + 1; not < last {
		if answer = a.ask(not); answer == solve.Unmeetable {
			return not, answer
		}
	}
	if not = late + 1; late.IsReal() && not > t.Held+1 && not < last {
		if answer = a.ask(not); answer != solve.Meetable {
			return not, answer
		}
		t.Held = not
	}
	return last, a.ask(last)
}

// ask asks about a start no earlier than at.
func (a *startAsking) ask(at calendars.Instant) solve.Answer {
	opens := at
	if a.p.Tasks[a.id].Effort != (schedule.Effort{}) { // what takes no time may be at any moment
		opens = a.place.Next(at)
	}
	answer, known := a.known[opens]
	if known {
		return answer
	}
	q := *a.p
	q.Tasks = slices.Clone(a.p.Tasks)
	q.Tasks[a.id].NotBefore = at
	q.Tasks[a.id].Optional = false // it must not be left out to meet the dates
	s, err := solve.New(&q)
	if err != nil {
		return solve.Undecided // the plan has been solved, so this doesn't happen
	}
	answer = s.Ask(a.ctx, a.o)
	a.known[opens] = answer
	return answer
}
