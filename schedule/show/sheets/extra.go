package sheets

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Condition is work on condition of which a hold point was signed.
type Condition struct{ Of, Work schedule.TaskID }

// Conditions lists the conditions that aren't done yet, for the sheet of a date: those that
// concern a crew, by its own work or what it signs off, or all for Everyone. None on a date
// that is over.
func (b *Book) Conditions(on calendars.Date, crew schedule.CrewID) []Condition {
	if b.Plan.Progress == nil || on < b.date(b.Plan.Now()) {
		return nil
	}
	var out []Condition
	for i := range b.Plan.Tasks {
		c := Condition{schedule.TaskID(i), b.Plan.FindTask(b.Plan.Progress.Tasks[i].Terms)}
		if c.Work == schedule.None || b.Plan.Finished(c.Work) {
			continue
		}
		if Needs(b.Plan.Tasks[i].Crew, crew) || Needs(b.Plan.Tasks[c.Work].Crew, crew) {
			out = append(out, c)
		}
	}
	return out
}

// Gone lists what was cancelled on the date of a sheet or the day before, so that everybody
// hears of it; each with its number.
func (b *Book) Gone(on calendars.Date) (out []Gone) {
	for i := range b.Plan.Cancelled {
		c := &b.Plan.Cancelled[i]
		if day := b.date(c.At); day == on || day == on-1 {
			out = append(out, Gone{b.Numbers.Was(c.ID), c})
		}
	}
	return out
}

// Gone is a task that was cancelled, and the number that it had.
type Gone struct {
	Number int
	*schedule.Cancelled
}
