package wording

import (
	"fmt"

	"turflast/calendars"
	"turflast/schedule"
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

// Float says in one sentence how far a task may slip.
func (w *Writer) Float(g *schedule.Programme, t schedule.TaskID) string {
	d := &g.Tasks[t]
	if d.Start == calendars.Never || d.Dropped {
		return "No dates, so no float."
	}
	return w.slips(g, "It", d.TotalFloat, d.FreeFloat)
}

// FloatUnload says in one sentence how far an unloading may slip.
func (w *Writer) FloatUnload(g *schedule.Programme, d schedule.DeliveryID) string {
	u := &g.Unloads[d]
	if u.Start == calendars.Never {
		return "No dates, so no float."
	}
	it := "Its unloading"
	if w.plan.Deliveries[d].Out {
		it = "Its loading"
	}
	return w.slips(g, it, u.TotalFloat, u.FreeFloat)
}

func (w *Writer) slips(g *schedule.Programme, it string, total, free calendars.Minutes) string {
	hands := ""
	if g.Scope == schedule.Logic {
		hands = " with hands unlimited"
	}
	switch {
	case total == schedule.NoFloat:
		return it + " can't start early enough for every date to be met."
	case total == schedule.FreeRange:
		return it + " may slip as far as you like."
	case total < 0:
		return fmt.Sprintf("%s starts %s too late for every date to be met.", it, work(-total))
	case total == 0:
		return it + " may not slip at all."
	case free >= total:
		return fmt.Sprintf("%s may slip %s%s, and nothing else moves.", it, work(total), hands)
	case free > 0:
		return fmt.Sprintf("%s may slip %s%s; beyond %s other work or the finish moves.", it, work(total), hands, work(free))
	}
	return fmt.Sprintf("%s may slip %s%s; other work or the finish moves with it.", it, work(total), hands)
}
