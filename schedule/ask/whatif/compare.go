package whatif

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
)

// Moved is a task whose dates differ.
type Moved struct {
	Before, After schedule.TaskID // by plan; None where the changes drop it, or add it
	Was, Now      calendars.Span  // of the work; zero when the task has no place or is left out
}

// Difference is what changes do to a programme.
type Difference struct {
	Before, After network.Case
	Moved         []Moved          // by the new start, those without one at the end
	Broken        []schedule.Break // of After, that held before
	Still         []schedule.Break // of After, that broke before too
	Mended        []schedule.Break // of Before, that hold in After
}

// Compare says how two programmes of one garden differ. The plan of after is that of
// before with changes; tasks are matched by id.
func Compare(before, after network.Case) *Difference {
	d, now := &Difference{Before: before, After: after}, numbered(after.Plan)
	for i := range before.Plan.Tasks {
		was := schedule.TaskID(i)
		d.task(was, now.of(before.Plan.Tasks[i].ID))
	}
	known := numbered(before.Plan)
	for i := range after.Plan.Tasks {
		if known.of(after.Plan.Tasks[i].ID) == schedule.None {
			d.task(schedule.None, schedule.TaskID(i))
		}
	}
	slices.SortStableFunc(d.Moved, func(a, b Moved) int {
		return cmp.Or(cmp.Compare(lastly(a.Now.Start), lastly(b.Now.Start)), cmp.Compare(a.Was.Start, b.Was.Start))
	})
	was, is := broken(before), broken(after)
	for _, b := range after.Programme.Breaks {
		if was[nameOf(after, b)] {
			d.Still = append(d.Still, b)
		} else {
			d.Broken = append(d.Broken, b)
		}
	}
	for _, b := range before.Programme.Breaks {
		if !is[nameOf(before, b)] {
			d.Mended = append(d.Mended, b)
		}
	}
	return d
}

// lastly puts what has no moment after everything that has one.
func lastly(t calendars.Instant) calendars.Instant {
	if t == 0 {
		return calendars.Never
	}
	return t
}

// task notes a task whose dates differ.
func (d *Difference) task(was, now schedule.TaskID) {
	m := Moved{was, now, work(d.Before.Programme, was), work(d.After.Programme, now)}
	if m.Was != m.Now {
		d.Moved = append(d.Moved, m)
	}
}

// work returns the time from a task's start to its finish; zero when it has none.
func work(g *schedule.Programme, t schedule.TaskID) calendars.Span {
	if t == schedule.None || g.Tasks[t].Dropped || !g.Tasks[t].Start.IsReal() {
		return calendars.Span{}
	}
	return calendars.Span{Start: g.Tasks[t].Start, End: g.Tasks[t].Finish}
}

// name tells a date that breaks from others of the same plan, and finds it in a changed one.
type name struct {
	kind     schedule.BreakKind
	stock    string // the id of a delivery, or empty
	activity string
}

func nameOf(c network.Case, b schedule.Break) name {
	n := name{kind: b.Kind, activity: c.Plan.ActivityID(b.Activity)}
	if b.Kind == schedule.BreakKeep {
		n.stock = c.Plan.Deliveries[b.Stock].ID
	}
	return n
}

// broken holds the dates that break in a case.
func broken(c network.Case) map[name]bool {
	out := make(map[name]bool, len(c.Programme.Breaks))
	for _, b := range c.Programme.Breaks {
		out[nameOf(c, b)] = true
	}
	return out
}

// Reference returns a programme's dates for the tasks and lorries of a changed plan, matched by id.
// The search for that plan's programme keeps these starts where nothing is lost by it.
func Reference(before network.Case, changed *schedule.Plan) *schedule.Programme {
	g, ids := *before.Programme, numbered(before.Plan)
	g.Tasks = make([]schedule.TaskDates, len(changed.Tasks))
	for i := range changed.Tasks {
		g.Tasks[i].Start, g.Tasks[i].Finish = calendars.Never, calendars.Never
		if was := ids.of(changed.Tasks[i].ID); was != schedule.None {
			g.Tasks[i] = before.Programme.Tasks[was]
		}
	}
	g.Unloads = make([]schedule.UnloadDates, len(changed.Deliveries))
	for d := range changed.Deliveries {
		lorry := &changed.Deliveries[d]
		if was := before.Plan.FindDelivery(lorry.ID); was != schedule.None {
			g.Unloads[d] = before.Programme.Unloads[was]
			continue
		}
		never := schedule.Dates{Start: calendars.Never, Finish: calendars.Never}
		g.Unloads[d] = schedule.UnloadDates{Dates: never, Arrives: lorry.Arrives}
	}
	g.Chain, g.Breaks, g.Moves, g.Blocked, g.Overfull = nil, nil, nil, nil, nil
	return &g
}
