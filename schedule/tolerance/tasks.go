package tolerance

import (
	"context"
	"slices"

	"turflast/calendars"
	"turflast/schedule"
	"turflast/schedule/solve"
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
func Tasks(ctx context.Context, s *solve.Solver, g *schedule.Programme, o Options, tasks []schedule.TaskID) []Task {
	options := solve.Options{Reference: g, Seed: o.Seed, Schedules: o.Schedules}
	return each(ctx, len(tasks), o, func(i int) Task { return task(ctx, s, g, options, tasks[i]) })
}

func task(ctx context.Context, s *solve.Solver, g *schedule.Programme, o solve.Options, id schedule.TaskID) Task {
	p, d := s.Plan(), &g.Tasks[id]
	t := Task{Task: id, Start: d.Start, Held: calendars.Past, Broken: calendars.Never}
	if d.Dropped || !d.Start.IsReal() || len(g.Breaks) > 0 {
		return t
	}
	ask := func(at calendars.Instant) Answer {
		q := *p
		q.Tasks = slices.Clone(p.Tasks)
		q.Tasks[id].NotBefore = at
		q.Tasks[id].Optional = false // it is not left out to make it so
		other, err := solve.New(&q)
		if err != nil {
			return Open // the plan has been solved, so this doesn't happen
		}
		return Ask(ctx, other, o)
	}
	// The slip in the order of hands holds by its definition; from there on the
	// time to the hand-over is halved.
	own := s.Hours().Task(&p.Tasks[id], d.Heads)
	t.Held = d.Start
	if d.CrewFloat > 0 && d.CrewFloat != schedule.FreeRange {
		t.Held = own.Next(own.Add(d.Start, d.CrewFloat))
	}
	if ask(t.Held) != Holds {
		t.Held = d.Start
	}
	not := max(p.Site.Handover, t.Held) + 1
	last := ask(not)
	for not-t.Held > 1 && last != Holds {
		mid := t.Held + (not-t.Held)/2
		if answer := ask(mid); answer == Holds {
			t.Held = mid
		} else {
			not, last = mid, answer
		}
	}
	if last == Breaks {
		t.Broken = not
	}
	return t
}
