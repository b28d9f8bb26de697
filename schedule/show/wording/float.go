package wording

import (
	"fmt"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Figure is a float in a table: "3 h 20", "none"; "any" when nothing limits it,
// "3 h short" when a date breaks, "gone" when no start is early enough.
func (w *Writer) Figure(m calendars.Minutes) string {
	switch {
	case m == schedule.NoFloat:
		return "gone"
	case m == schedule.FreeRange:
		return "any"
	case m == 0:
		return "none"
	case m < 0:
		return work(-m) + " short"
	}
	return work(m)
}

// Slip is how far a task may slip, as a figure in a table. In a crew programme it is the
// crew float, and the total float of logic alone if that is more: "3 h of 7 h". Where crew
// floats weren't worked out it is at most that: "up to 7 h".
func (w *Writer) Slip(g *schedule.Programme, t schedule.TaskID) string {
	d := &g.Tasks[t]
	if g.Cut.Floats && d.TotalFloat > 0 {
		if d.TotalFloat == schedule.FreeRange {
			return "not known"
		}
		return "up to " + w.Figure(d.TotalFloat)
	}
	if g.Scope == schedule.Logic || d.TotalFloat < 0 || d.CrewFloat >= d.TotalFloat {
		return w.Figure(d.TotalFloat)
	}
	return w.Figure(d.CrewFloat) + " of " + w.Figure(d.TotalFloat)
}

// Float says in one sentence how far a task may slip.
func (w *Writer) Float(g *schedule.Programme, t schedule.TaskID) string {
	d := &g.Tasks[t]
	switch {
	case d.Dropped:
		return "Left out, it has no float."
	case d.Start == calendars.Never:
		return "No dates, so no float."
	case g.Cut.Floats && d.TotalFloat > 0:
		return slipsUpTo("It", d.TotalFloat)
	case g.Scope == schedule.Crews && d.TotalFloat > 0:
		return reallySlips("It", d.CrewFloat, d.TotalFloat)
	}
	return slips("It", d.TotalFloat, d.FreeFloat)
}

// reallySlips says how far something may slip in the order of hands, and how far logic
// alone would allow.
func reallySlips(it string, crew, total calendars.Minutes) string {
	switch {
	case crew >= total && total == schedule.FreeRange:
		return it + " may slip as far as you like."
	case crew >= total:
		return fmt.Sprintf("%s may slip %s, all that logic allows.", it, work(total))
	case total == schedule.FreeRange && crew == 0:
		return it + " may not slip at all, though logic sets no limit: the hands leave none."
	case total == schedule.FreeRange:
		return fmt.Sprintf("%s may slip %s, though logic sets no limit: the hands leave no more.", it, work(crew))
	case crew == 0:
		return fmt.Sprintf("%s may not slip at all, though logic allows %s: the hands leave none.", it, work(total))
	}
	return fmt.Sprintf("%s may slip %s, not the %s that logic allows.", it, work(crew), work(total))
}

// slipsUpTo says how far something may slip at most, if what the hands leave wasn't worked
// out.
func slipsUpTo(it string, total calendars.Minutes) string {
	if total == schedule.FreeRange {
		return it + " may slip as far as the hands allow, which wasn't worked out."
	}
	return fmt.Sprintf("%s may slip up to %s by logic; how much of it the hands leave wasn't worked out.", it, work(total))
}

// FloatUnload says in one sentence how far an unloading may slip.
func (w *Writer) FloatUnload(g *schedule.Programme, d schedule.DeliveryID) string {
	u := &g.Unloads[d]
	if u.Start == calendars.Never {
		return "No dates, so no float."
	}
	it := "Its " + w.unloading(d)
	if g.Cut.Floats && u.TotalFloat > 0 {
		return slipsUpTo(it, u.TotalFloat)
	}
	if g.Scope == schedule.Crews && u.TotalFloat > 0 {
		return reallySlips(it, u.CrewFloat, u.TotalFloat)
	}
	return slips(it, u.TotalFloat, u.FreeFloat)
}

// slips says how far something may slip by logic alone.
func slips(it string, total, free calendars.Minutes) string {
	const hands = " with hands unlimited"
	switch {
	case total == schedule.FreeRange:
		return it + " may slip as far as you like."
	case total <= 0:
		return slipsNot(it, total)
	case free >= total:
		return fmt.Sprintf("%s may slip %s%s, and nothing else moves.", it, work(total), hands)
	case free > 0:
		return fmt.Sprintf("%s may slip %s%s; beyond %s other work or the finish moves.", it, work(total), hands, work(free))
	}
	return fmt.Sprintf("%s may slip %s%s; other work or the finish moves with it.", it, work(total), hands)
}

// slipsNot words a total float that leaves nothing.
func slipsNot(it string, total calendars.Minutes) string {
	switch {
	case total == schedule.NoFloat:
		return it + " can't start early enough for every date to be met."
	case total < 0:
		return fmt.Sprintf("%s starts %s too late for every date to be met.", it, work(-total))
	}
	return it + " may not slip at all."
}
