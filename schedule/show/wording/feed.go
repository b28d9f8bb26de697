package wording

import (
	"fmt"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/sheets"
)

// FeedHandover is the title of the hand-over in a calendar.
func (w *Writer) FeedHandover() string { return "Hand-over: " + w.plan.Garden }

// FeedAim says what the crews work to; empty without an aim.
func (w *Writer) FeedAim() string {
	if w.plan.Site.Aim == 0 {
		return ""
	}
	return "Done by " + w.Moment(w.plan.Site.Aim) + " is the aim."
}

// FeedWork is what a calendar says of one day of a task: a sentence a line.
func (w *Writer) FeedWork(heads []int, id schedule.TaskID, day, days int) string {
	t := &w.plan.Tasks[id]
	var said []string
	if days > 1 {
		said = append(said, fmt.Sprintf("Day %d of %d.", day+1, days))
	}
	if team := w.Team(id, heads); team != "" {
		said = append(said, team+".")
	}
	var brought []string
	for _, d := range t.Uses {
		brought = append(brought, w.Delivery(d))
	}
	if len(brought) > 0 {
		said = append(said, "Uses "+list(brought)+".")
	}
	if t.DoneWhen != "" {
		said = append(said, "Done when "+strings.TrimSuffix(t.DoneWhen, ".")+".")
	}
	if t.Note != "" {
		said = append(said, t.Note)
	}
	return strings.Join(said, "\n")
}

// FeedLorry is the title of a lorry in a calendar.
func (w *Writer) FeedLorry(d schedule.DeliveryID) string {
	if w.plan.Deliveries[d].Out {
		return "Collection: " + w.Delivery(d)
	}
	return "Lorry: " + w.Delivery(d)
}

// FeedUnload says when a lorry is unloaded, or loaded, and by whom.
func (w *Writer) FeedUnload(d schedule.DeliveryID, u *schedule.UnloadDates) string {
	does := "Unloading"
	if w.plan.Deliveries[d].Out {
		does = "Loading"
	}
	said := []string{fmt.Sprintf("%s from %s until %s.", does, w.Moment(u.Start), w.Then(u.Finish, u.Start))}
	if team := w.UnloadTeam(d); team != "" {
		said = append(said, team+".")
	}
	return strings.Join(said, "\n")
}

// FeedSlot is the title of a slot of a machine in a calendar.
func (w *Writer) FeedSlot(m schedule.MachineID) string { return w.plan.Machines[m].Name + " is ours" }

// FeedSignOff is the title of a hold point in a calendar.
func (w *Writer) FeedSignOff(t schedule.TaskID) string {
	return "Sign-off: " + w.plan.Tasks[t].Hold.What + " (" + w.Task(t) + ")"
}

// FeedSigned says what else there is to an appointment: a sentence a line.
func (w *Writer) FeedSigned(b *sheets.Book, a *sheets.Appointment) string {
	var said []string
	for _, s := range []string{w.FailedOn(a), w.LaterAppointments(a), w.WaitFor(b, a)} {
		if s != "" {
			said = append(said, s)
		}
	}
	return strings.Join(said, "\n")
}

// FeedOrder is the title of an order in a calendar.
func (w *Writer) FeedOrder(d schedule.DeliveryID) string {
	return "Last day to order: " + w.Delivery(d)
}

// FeedOrdered says when what is ordered comes.
func (w *Writer) FeedOrdered(arrives calendars.Instant) string {
	return "To come " + w.Moment(arrives) + "."
}
