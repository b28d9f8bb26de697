package wording

import (
	"strings"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/sheets"
)

// NoHoldPoints is what an empty list of appointments says.
const NoHoldPoints = "The plan has no hold points."

// SignsOff names the task of an appointment, in full with its zones, and says when it
// was signed, or else when the sign-off is over.
func (w *Writer) SignsOff(a *sheets.Appointment, full bool) string {
	text := w.Task(a.Task)
	if full {
		text += ", " + w.Where(a.Task)
	}
	switch {
	case a.Signed != 0:
		text += ", signed " + w.Moment(a.Signed) + w.signer(a.Task)
	case a.Over.IsReal() && a.Over > a.At:
		text += ", over " + w.Then(a.Over, a.At)
	}
	return text + "."
}

// FailedOn says when a hold point failed, as a sentence; empty when it didn't.
func (w *Writer) FailedOn(a *sheets.Appointment) string {
	if a.Failed == 0 {
		return ""
	}
	return "It failed " + w.Moment(a.Failed) + "."
}

// LaterAppointments says when else somebody could come to sign; empty if the sign-off
// isn't by appointment.
func (w *Writer) LaterAppointments(a *sheets.Appointment) string {
	if !a.Booked {
		return ""
	}
	var said []string
	for _, at := range a.Later {
		said = append(said, w.Moment(at))
	}
	if len(said) == 0 {
		return "There is no later appointment."
	}
	return "Later appointments: " + strings.Join(said, ", ") + "."
}

// WaitFor names the tasks that wait for an appointment, as a sentence; empty for none.
func (w *Writer) WaitFor(b *sheets.Book, a *sheets.Appointment) string {
	var waits []schedule.TaskID
	for _, tie := range a.Waits {
		if t, ok := w.plan.Task(tie.Activity); ok {
			waits = append(waits, t)
		}
	}
	if len(waits) == 0 {
		return ""
	}
	return "Then: " + w.starts(b, waits, a.At) + "."
}

// Promised says what others owe, and which task needs it first.
func (w *Writer) Promised(b *sheets.Book, p *sheets.Promise) string {
	text := w.plan.Givens[p.Given].What
	if p.First != schedule.None {
		text += ": first for " + w.starts(b, []schedule.TaskID{p.First}, p.From)
	}
	return text + "."
}
