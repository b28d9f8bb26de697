package report

import (
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/shape"
	"build.example/turflast/schedule/show/sheets"
)

func (s *Sheets) top() sheetObject {
	p := s.r.of.Plan
	o := sheetObject{
		Garden: p.Garden, Timezone: p.Site.Location.String(), AsAt: s.r.asAt(), Sentence: s.r.words.Margin(s.r.of.Programme),
		Said: s.Said,
	}
	for _, b := range s.r.of.Programme.Breaks {
		o.Breaks = append(o.Breaks, s.r.words.Break(b))
	}
	return o
}

func (s *Sheets) dayObject(d *sheets.Day) day {
	o := day{
		On: d.On, Crew: schedule.None, Open: d.Open, Gate: s.passObjects(d.Gate),
		Appointments: s.appointmentObjects(d.SignOff), Next: d.Next, Hazards: d.Hazards,
	}
	if d.Crew != sheets.Everyone {
		o.Crew, o.Heads = d.Crew, &d.Heads
	}
	for _, l := range d.Lines {
		o.Lines = append(o.Lines, s.lineObject(l))
	}
	for _, x := range d.Duties {
		o.Duties = append(o.Duties, duty{x.Duty.ID, x.Crew, x.Who, x.Span})
	}
	for _, t := range d.Tired {
		o.Tired = append(o.Tired, tired{t.Crew, t.Finding.Kind, s.r.words.Tired(t)})
	}
	return o
}

func (s *Sheets) lineObject(l sheets.Line) line {
	task, lorry := s.r.pair(l.Activity)
	o := line{
		Number: l.Number, Task: task, Delivery: lorry, State: sheets.StateOf(s.r.of.Plan, l.Activity), Span: l.Span,
		First: l.First, Last: l.Last, OnChain: s.r.of.Programme.Of(l.Activity).OnChain,
		Before: s.ties(s.book.Before(l.Activity), true), After: s.ties(s.book.After(l.Activity), false),
	}
	if task != schedule.None {
		s.taskLine(&o, task)
	} else {
		s.lorryLine(&o, lorry)
	}
	for _, f := range s.r.words.SheetLine(s.book, l) {
		o.Facts = append(o.Facts, fact{f.Kind, f.Text})
	}
	return o
}

func (s *Sheets) taskLine(o *line, id schedule.TaskID) {
	t := s.r.taskObject(id)
	task, d := &s.r.of.Plan.Tasks[id], &s.r.of.Programme.Tasks[id]
	o.Name, o.Zones, o.Crew, o.Machines, o.Uses = task.Name, t.Zones, t.Crew, t.Machines, task.Uses
	o.DoneWhen, o.Hazards, o.MaySlip = task.DoneWhen, task.Hazards, shape.Float(d.TotalFloat)
	if s.r.of.Programme.Scope == schedule.Crews {
		o.MaySlip = shape.Float(d.CrewFloat)
	}
	if task.Hold != nil {
		o.HoldPoint = task.Hold.What
	}
}

func (s *Sheets) lorryLine(o *line, id schedule.DeliveryID) {
	d, u := &s.r.of.Plan.Deliveries[id], &s.r.of.Programme.Unloads[id]
	o.Name, o.MaySlip = d.What, shape.Float(u.TotalFloat)
	if s.r.of.Programme.Scope == schedule.Crews {
		o.MaySlip = shape.Float(u.CrewFloat)
	}
	o.Crew, o.Machines = make(map[schedule.CrewID]int), machines(d.Unload.Machines)
	for _, n := range d.Unload.Crew {
		o.Crew[n.Crew] = n.Least
	}
}

func (s *Sheets) ties(ties []sheets.Tie, before bool) []tie {
	var out []tie
	for _, t := range ties {
		task, lorry := s.r.pair(t.Activity)
		o := tie{
			Number: s.book.Number(t.Activity), Task: task, Delivery: lorry, Link: t.Kind, At: t.At, Hold: t.Hold,
		}
		if before {
			o.Free = &t.Free
		}
		if t.HasWithin {
			o.Within = &t.Within
		}
		out = append(out, o)
	}
	return out
}

func (s *Sheets) passObjects(passes []sheets.Pass) []pass {
	var out []pass
	for _, p := range passes {
		d := &s.r.of.Plan.Deliveries[p.Delivery]
		out = append(out, pass{
			Number: p.Number, Delivery: p.Delivery, What: d.What, Out: d.Out, State: p.State, Arrives: p.Arrives,
			Slot: p.Slot, Leaves: p.Leave, Keep: p.Keep, Latest: s.r.of.Programme.Unloads[p.Delivery].LateArrival,
			Users: p.Users, Overdue: p.Overdue, Refused: p.Refused,
		})
	}
	return out
}

func (s *Sheets) appointmentObjects(all []sheets.Appointment) []appointment {
	var out []appointment
	for _, a := range all {
		out = append(out, appointment{
			Number: a.Number, Task: a.Task, What: a.Hold.What, State: a.State, Booked: a.Booked, At: a.At, Over: a.Over,
			Later: a.Later, Failed: a.Failed, Signed: a.Signed, Waits: s.ties(a.Waits, false),
		})
	}
	return out
}
