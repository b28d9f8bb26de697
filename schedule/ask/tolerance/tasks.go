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
	Task       schedule.TaskID
	Start      calendars.Instant // in the crew programme
	Programmed Programmed        // while everyone keeps the order of hands: crew float
	Replanned                    // with the work arranged anew; Held is Past for a task without a place
}

// Tasks finds the tolerance of the tasks listed around a crew programme. A task that is
// left out has none. When ctx ends, tasks that aren't done are left out of the list.
func Tasks(ctx context.Context, c network.Case, o Options, tasks []schedule.TaskID) []Task {
	slide := solve.Again(c).Slide(c.Programme, solve.Promise{Of: c.Programme, HandoverOnly: true})
	return each(ctx, len(tasks), o, func(i int) Task { return task(ctx, c, o, slide, tasks[i]) })
}

func task(ctx context.Context, c network.Case, o Options, slide *solve.Sliding, id schedule.TaskID) Task {
	d := &c.Programme.Tasks[id]
	none := End{calendars.Past, calendars.Never}
	t := Task{
		Task: id, Start: d.Start, Programmed: Programmed{d.Start, d.Start}, Replanned: Replanned{End: none, Handover: none},
	}
	if d.Dropped || !d.Start.IsReal() {
		return t
	}
	if c.Plan.Started(id) { // it can't be late any more
		t.Held, t.Handover.Held = d.Start, d.Start
		return t
	}
	own := c.Hours.Task(&c.Plan.Tasks[id], d.Heads)
	switch {
	case d.CrewFloat == schedule.FreeRange:
		t.Programmed.Any = calendars.Never
	case d.CrewFloat > 0:
		t.Programmed.Any = own.Next(own.Add(d.Start, d.CrewFloat))
	}
	t.Programmed.Handover = max(t.Programmed.Any, slide.Start(id))
	q := question{
		ctx: ctx, all: with(c, o, id), until: func(at calendars.Instant) *solve.Solver { return heldBack(c.Plan, id, at) },
		slid:  func(x *solve.Sliding) calendars.Instant { return x.Start(id) },
		alike: func(_, _ calendars.Instant) bool { return true },
		last:  max(c.Plan.Site.Handover, c.Programme.Finish, d.Start), never: calendars.Never,
	}
	t.Replanned = q.ends(t.Programmed)
	return t
}

// with are the options of a question about a task, which isn't left out to meet the dates.
// It stays optional all the same: what serves it alone still breaks no hand-over.
func with(c network.Case, o Options, id schedule.TaskID) solve.Options {
	x := options(c, o)
	if !c.Plan.Required(id.Activity()) {
		x.Promise.With = []schedule.TaskID{id}
	}
	return x
}

// heldBack is the solver of the plan in which a task starts no earlier than at.
func heldBack(p *schedule.Plan, id schedule.TaskID, at calendars.Instant) *solve.Solver {
	q := *p
	q.Tasks = slices.Clone(p.Tasks)
	q.Tasks[id].NotBefore = max(q.Tasks[id].NotBefore, at)
	s, err := solve.New(&q)
	if err != nil {
		panic(err) // the same links don't run in a ring
	}
	return s
}
