package report

import (
	"io"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/cost"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/ask/tolerance"
	"build.example/turflast/schedule/show/use"
)

// The tables, as [shape.Words.Table] writes them, have the columns of the JSON where it has a
// list of the same things.

// taskRow is a task of the programme, and what it costs.
type taskRow struct {
	taskDates
	Cost schedule.Money `json:"cost,omitempty" doc:"of people, with overtime, and of machines by the hour, with rates"`
}

// TasksTable writes all tasks of the programme as a table. The error is the writer's.
func (r *Report) TasksTable(out io.Writer) error {
	var rows []taskRow
	for _, t := range r.programme().Tasks {
		rows = append(rows, taskRow{t, cost.Activity(r.of, t.ID.Activity())})
	}
	return r.table(out, rows)
}

func (r *Report) table(out io.Writer, rows any) error { return kinds.Table(out, r.of.Plan, rows) }

// PeopleTable writes the half days of crews and machines as a table. The error is the
// writer's.
func (r *Report) PeopleTable(out io.Writer) error { return r.table(out, r.halves()) }

// bookingRow is a slot of a machine to book or give back, or what all its hours are.
type bookingRow struct {
	Machine schedule.MachineID `json:"machine" doc:"the machine"`
	Name    string             `json:"name" doc:"its name"`
	What    string             `json:"what" doc:"needed, in all; book, or give back"`
	From    calendars.Instant  `json:"from" doc:"of the slot"`
	To      calendars.Instant  `json:"to" doc:"of the slot"`
	Count   int                `json:"count" doc:"machines"`
	Used    calendars.Minutes  `json:"used_minutes" doc:"in use in it"`
	Cost    schedule.Money     `json:"cost,omitempty" doc:"of the hours needed, where a rate is said"`
}

// BookingsTable writes what each machine is needed for, and the slots to book and to give
// back, as a table. The error is the writer's.
func (r *Report) BookingsTable(out io.Writer) error {
	var rows []bookingRow
	for _, m := range r.bookings() {
		machine := &r.of.Plan.Machines[m.Machine]
		rows = append(rows, bookingRow{
			Machine: m.Machine, Name: machine.Name, What: "needed", Count: machine.Count, Used: m.Needed, Cost: m.Cost})
		slots := func(what string, list []use.Slot) {
			for _, s := range list {
				rows = append(rows, bookingRow{Machine: m.Machine, Name: machine.Name, What: what,
					From: s.Span.Start, To: s.Span.End, Count: s.Count, Used: s.Used})
			}
		}
		slots("book", m.Book)
		slots("give back", m.Return)
	}
	return r.table(out, rows)
}

// OddsTable writes the chance to be done by each of a hundred moments as a table: the
// finish of the build in the middle of each hundredth. The error is the writer's.
func (r *Report) OddsTable(out io.Writer, o *odds.Result) error {
	type chanceRow struct {
		Chance float64           `json:"chance" doc:"to be done by then"`
		DoneBy calendars.Instant `json:"done_by" doc:"the moment; none where the builds aren't done"`
	}
	var rows []chanceRow
	for i, at := range o.Dots {
		rows = append(rows, chanceRow{float64(2*i+1) / float64(2*len(o.Dots)), at})
	}
	return r.table(out, rows)
}

// ToleranceTable writes how late each delivery may come as a table, or how late each task
// may start where that was asked. The error is the writer's.
func (r *Report) ToleranceTable(out io.Writer, t *Tolerance) error {
	if t.WithTasks {
		return r.table(out, each(r.tasksByHurt(t.Tasks), r.lateTaskObject))
	}
	return r.table(out, each(tolerance.ByHurt(r.of.Plan, t.Deliveries), r.lateLorryObject))
}

// GateTable writes the gate list, of a date or of the whole build if on is nil, as a table.
// The error is the writer's.
func (s *Sheets) GateTable(out io.Writer, on *calendars.Date) error {
	return s.r.table(out, each(s.passes(on), s.passObject))
}
