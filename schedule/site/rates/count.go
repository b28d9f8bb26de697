package rates

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network/worktime"
	"build.example/turflast/schedule/site/progress"
)

// at is a stretch in which heads of one crew are at a task.
type at struct {
	task  schedule.TaskID
	span  calendars.Span
	heads int
}

// parts is the number of parts of a person-minute in which shared hours are
// counted.
const parts = 1000

// count is how many person-minutes were spent on each task, by TaskID.
func count(s *progress.Standing, hours *worktime.Set) []calendars.Minutes {
	p := s.Plan
	crews := make([][]at, len(p.Crews))
	for i := range p.Tasks {
		id, was := schedule.TaskID(i), &p.Progress.Tasks[i]
		if was.Start == 0 || len(p.Tasks[i].Crew) == 0 {
			continue
		}
		for _, x := range teams(p, id) {
			spans := stretches(s, hours, id, &x)
			for k, need := range x.Crew {
				for _, span := range spans {
					crews[need.Crew] = append(crews[need.Crew], at{id, span, x.Heads[k]})
				}
			}
		}
	}
	spent := make([]int64, len(p.Tasks))
	for c, list := range crews {
		share(spent, list, hours.Crews[c])
	}
	out := make([]calendars.Minutes, len(spent))
	for i, n := range spent {
		out[i] = calendars.Minutes((n + parts/2) / parts)
	}
	return out
}

// teams lists who was at a task that was started, those planned first.
func teams(p *schedule.Plan, id schedule.TaskID) []schedule.Team {
	was := &p.Progress.Tasks[id]
	if was.Teams != nil {
		return was.Teams
	}
	over := calendars.Span{Start: was.Start, End: was.Finish}
	if was.Finish == 0 {
		over.End = p.Progress.At
	}
	return []schedule.Team{{Crew: p.Tasks[id].Crew, Heads: was.Heads, Over: over}}
}

// stretches are those in which a team worked on a task with its heads; on a date, or for a
// part of one, for which the log says that fewer of one of its crews turned up, with as many
// as there were.
func stretches(s *progress.Standing, hours *worktime.Set, id schedule.TaskID, x *schedule.Team) []calendars.Span {
	t := s.Plan.Tasks[id]
	t.Crew = x.Crew
	out := inside(s.Plan.Progress.Tasks[id].Worked, x.Over)
	var few *calendars.Calendar
	for i := range s.State.People {
		e := &s.State.People[i]
		k := slices.IndexFunc(t.Crew, func(n schedule.CrewNeed) bool { return s.Plan.Crews[n.Crew].ID == e.Crew })
		if k < 0 || e.People >= x.Heads[k] {
			continue
		}
		if few == nil {
			few = hours.Task(&t, slices.Repeat([]int{1}, len(t.Crew)))
		}
		on := e.About(s.Plan.Site.Location)
		within := calendars.Span{Start: max(x.Over.Start, on.Start), End: min(x.Over.End, on.End)}
		out = without(out, on)
		if within.Start < within.End {
			out = append(out, progress.Worked(few, within, s.State.Tasks[t.ID].Pauses)...)
		}
	}
	return out
}

// inside is the part of spans within another span.
func inside(spans []calendars.Span, in calendars.Span) (out []calendars.Span) {
	for _, s := range spans {
		if s.Start, s.End = max(s.Start, in.Start), min(s.End, in.End); s.Start < s.End {
			out = append(out, s)
		}
	}
	return out
}

// without is the part of spans outside another span.
func without(spans []calendars.Span, cut calendars.Span) []calendars.Span {
	var out []calendars.Span
	for _, s := range spans {
		before := calendars.Span{Start: s.Start, End: min(s.End, cut.Start)}
		after := calendars.Span{Start: max(s.Start, cut.End), End: s.End}
		for _, part := range [...]calendars.Span{before, after} {
			if part.Start < part.End {
				out = append(out, part)
			}
		}
	}
	return out
}

// share adds the time of one crew to the tasks it was at, in parts of a
// person-minute: with all the heads that the tasks have, or when there are
// fewer, with those in proportion.
func share(spent []int64, list []at, there *calendars.Profile) {
	slices.SortStableFunc(list, func(a, b at) int { return int(a.span.Start - b.span.Start) })
	var edges []calendars.Instant
	for _, a := range list {
		edges = append(edges, a.span.Start, a.span.End)
	}
	for s := range there.Steps {
		edges = append(edges, s.Start)
	}
	slices.Sort(edges)
	edges = slices.Compact(edges)
	var now []at
	for i := 0; i+1 < len(edges); i++ {
		from, to := edges[i], edges[i+1]
		now = slices.DeleteFunc(now, func(a at) bool { return a.span.End <= from })
		for len(list) > 0 && list[0].span.Start <= from {
			now, list = append(now, list[0]), list[1:]
		}
		asked := 0
		for _, a := range now {
			asked += a.heads
		}
		if asked == 0 {
			continue
		}
		have := int64(min(asked, there.At(from)))
		for _, a := range now {
			spent[a.task] += int64(to-from) * int64(a.heads) * parts * have / int64(asked)
		}
	}
}
