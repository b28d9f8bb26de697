package wording

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// LateBy is how much later than booked a delivery may come, in short: "26 h", "none",
// "any" when nothing limits it, "too late" when it would have to come earlier, "gone"
// when no booking is early enough.
func (w *Writer) LateBy(g *schedule.Programme, d schedule.DeliveryID) string {
	u := &g.Unloads[d]
	switch {
	case u.Start == calendars.Never || u.LateArrival == calendars.Past:
		return "gone"
	case u.LateArrival == calendars.Never:
		return "any"
	case u.LateArrival == u.Arrives:
		return "none"
	case u.LateArrival < u.Arrives:
		return "too late"
	}
	return elapsed(u.Arrives, u.LateArrival)
}

// Late says how late a delivery may come, or how early it would have to, as a
// sentence; empty when it is never unloaded.
func (w *Writer) Late(g *schedule.Programme, d schedule.DeliveryID) string {
	u := &g.Unloads[d]
	hands := ""
	if g.Scope == schedule.Logic {
		hands = " (hands unlimited)"
	}
	switch {
	case u.Start == calendars.Never:
		return ""
	case u.LateArrival == calendars.Past:
		return "No booking is early enough for every date that hangs on it" + hands + "."
	case u.LateArrival == calendars.Never:
		return "However late it comes, no date breaks" + hands + "."
	case g.Scope == schedule.Crews && len(g.Breaks) > 0:
		return w.lateAgain(u)
	case u.LateArrival == u.Arrives:
		return "If it comes any later, a date breaks" + hands + "."
	case u.LateArrival < u.Arrives:
		return "A date breaks unless it comes by " + w.Moment(u.LateArrival) + ", " +
			apart(u.Arrives, u.LateArrival) + " than booked" + hands + "."
	}
	return "If it comes by " + w.Moment(u.LateArrival) + ", " +
		apart(u.Arrives, u.LateArrival) + ", every date that hangs on it holds" + hands + "."
}

// lateAgain says how late a delivery may come in the order programmed while a date is
// broken.
func (w *Writer) lateAgain(u *schedule.UnloadDates) string {
	if u.LateArrival <= u.Arrives {
		return "If it comes any later, one more date breaks or a broken one gets later."
	}
	return "If it comes by " + w.Moment(u.LateArrival) + ", " + apart(u.Arrives, u.LateArrival) +
		", no other date breaks and none gets later."
}
