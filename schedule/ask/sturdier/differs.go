package sturdier

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// handed lists, by start, the pairs of tasks that a crew does one after the other in a
// candidate, and in the opposite order as planned.
func (x *search) handed(c *candidate) []HandOn {
	var out []HandOn
	for crew := range c.Plan.Crews {
		order := sequence(c, schedule.CrewID(crew))
		for k := 1; k < len(order); k++ {
			first, then := order[k-1], order[k]
			was := x.base.Programme.Tasks
			if was[then].Finish <= was[first].Start {
				out = append(out, HandOn{schedule.CrewID(crew), first, then})
			}
		}
	}
	start := func(h HandOn) calendars.Instant { return c.Programme.Tasks[h.First].Start }
	slices.SortStableFunc(out, func(a, b HandOn) int { return cmp.Compare(start(a), start(b)) })
	return out
}

// sequence lists the tasks of a crew that aren't started yet, by start.
func sequence(c *candidate, crew schedule.CrewID) []schedule.TaskID {
	var out []schedule.TaskID
	for i := range c.Plan.Tasks {
		uses := func(n schedule.CrewNeed) bool { return n.Crew == crew }
		d := &c.Programme.Tasks[i]
		if slices.ContainsFunc(c.Plan.Tasks[i].Crew, uses) && !d.Dropped &&
			d.Start.IsReal() && !c.Plan.Started(schedule.TaskID(i)) {
			out = append(out, schedule.TaskID(i))
		}
	}
	slices.SortStableFunc(out, func(a, b schedule.TaskID) int {
		return cmp.Compare(c.Programme.Tasks[a].Start, c.Programme.Tasks[b].Start)
	})
	return out
}

// spare lists the tasks that may slip further than as planned, the most first.
func (x *search) spare(c *candidate) []Spare {
	if x.base.Programme.Cut.Floats || c.Programme.Cut.Floats {
		return nil
	}
	var out []Spare
	for i := range c.Plan.Tasks {
		was, now := &x.base.Programme.Tasks[i], &c.Programme.Tasks[i]
		if was.Dropped || now.Dropped || now.CrewFloat == schedule.FreeRange || was.CrewFloat == schedule.FreeRange {
			continue
		}
		if now.CrewFloat > max(was.CrewFloat, 0) {
			out = append(out, Spare{schedule.TaskID(i), was.CrewFloat, now.CrewFloat})
		}
	}
	gain := func(s Spare) calendars.Minutes { return s.Now - max(s.Was, 0) }
	slices.SortStableFunc(out, func(a, b Spare) int { return cmp.Compare(gain(b), gain(a)) })
	return out
}
