package wording

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// LateBy is how much later than booked a delivery may come, in short: "26 h", "none",
// "any" when nothing limits it, "too late" when it would have to come earlier, "gone"
// when no booking is early enough, "not known" when that wasn't worked out.
func (w *Writer) LateBy(g *schedule.Programme, d schedule.DeliveryID) string {
	u := &g.Unloads[d]
	switch {
	case u.Start == calendars.Never || u.LateArrival == calendars.Past:
		return "gone"
	case g.Cut.Floats:
		return "not known"
	case u.LateArrival == calendars.Never:
		return anyTime
	case u.LateArrival == u.Arrives:
		return "none"
	case u.LateArrival < u.Arrives:
		return "too late"
	}
	return elapsed(u.Arrives, u.LateArrival)
}

// Late says how late a delivery may come, or how early it would have to, with hands
// unlimited or as programmed, as a sentence; empty when it is never unloaded.
func (w *Writer) Late(g *schedule.Programme, d schedule.DeliveryID) string {
	switch {
	case g.Unloads[d].Start == calendars.Never:
		return ""
	case g.Scope == schedule.Logic:
		return Capital(w.lateBy(g, &g.Unloads[d])) + " (hands unlimited)."
	}
	return "As programmed, " + w.lateBy(g, &g.Unloads[d]) + "."
}

func (w *Writer) lateBy(g *schedule.Programme, u *schedule.UnloadDates) string {
	switch {
	case g.Cut.Floats:
		return "how late it may come wasn't worked out"
	case u.LateArrival == calendars.Past:
		return "no booking is early enough for every date that hangs on it"
	case u.LateArrival == calendars.Never:
		return "however late it comes, no date breaks"
	case g.Scope == schedule.Crews && len(g.Breaks) > 0:
		return w.lateAgain(u)
	case u.LateArrival == u.Arrives:
		return "if it comes any later, a date breaks"
	case u.LateArrival < u.Arrives:
		return "a date breaks unless it comes by " + w.Moment(u.LateArrival) + ", " +
			apart(u.Arrives, u.LateArrival) + " than booked"
	}
	return "if it comes by " + w.Moment(u.LateArrival) + ", " +
		apart(u.Arrives, u.LateArrival) + ", every date that hangs on it holds"
}

// lateAgain says how late a delivery may come in the order programmed while a date is
// broken.
func (w *Writer) lateAgain(u *schedule.UnloadDates) string {
	if u.LateArrival <= u.Arrives {
		return "if it comes any later, one more date breaks or a broken one gets later"
	}
	return "if it comes by " + w.Moment(u.LateArrival) + ", " + apart(u.Arrives, u.LateArrival) +
		", no other date breaks and none gets later"
}
