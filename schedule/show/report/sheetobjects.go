package report

import (
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/sheets"
)

func (s *Sheets) dayObject(d *sheets.Day) dayObject {
	o := dayObject{On: d.On.String(), Open: []stretch{}, Lines: []lineObject{}, Gate: s.passObjects(d.Gate),
		Appointments: s.appointmentObjects(d.SignOff), Hazards: d.Hazards}
	for _, x := range d.Open {
		o.Open = append(o.Open, stretch{s.r.moment(x.Start), s.r.moment(x.End)})
	}
	if d.Crew != sheets.Everyone {
		o.Crew, o.Heads = s.crewID(d.Crew), &d.Heads
	}
	for _, l := range d.Lines {
		o.Lines = append(o.Lines, s.lineObject(l))
	}
	for _, x := range d.Duties {
		o.Duties = append(o.Duties, dutyObject{x.Duty.ID, s.crewID(x.Crew), x.Who, s.r.moment(x.Span.Start), s.r.moment(x.Span.End)})
	}
	for _, t := range d.Tired {
		o.Tired = append(o.Tired, tiredObject{s.crewID(t.Crew), tiredNames[t.Finding.Kind], s.r.words.Tired(t)})
	}
	for _, t := range d.Next {
		o.Next = append(o.Next, s.r.taskID(t))
	}
	return o
}

func (s *Sheets) crewID(c schedule.CrewID) string { return s.r.plan.Crews[c].ID }

func (s *Sheets) lineObject(l sheets.Line) lineObject {
	o := lineObject{Number: l.Number, Task: s.r.taskID(l.Task), Delivery: s.r.deliveryID(l.Delivery),
		State: stateNames[sheets.StateOf(s.r.plan, l.Thing)], From: s.r.moment(l.Span.Start), To: s.r.moment(l.Span.End),
		First: l.First, Last: l.Last, OnChain: s.onChain(l.Thing), Before: s.ties(s.book.Before(l.Thing), true), After: s.ties(s.book.After(l.Thing), false),
		Facts: []map[string]string{}}
	if l.Task != schedule.None {
		s.taskLine(&o, l.Task)
	} else {
		s.lorryLine(&o, l.Delivery)
	}
	for _, f := range s.r.words.SheetLine(s.book, l) {
		o.Facts = append(o.Facts, map[string]string{"about": factNames[f.Kind], "sentence": f.Text})
	}
	return o
}

func (s *Sheets) taskLine(o *lineObject, id schedule.TaskID) {
	t := s.r.taskObject(id)
	task, d := &s.r.plan.Tasks[id], &s.r.prog.Tasks[id]
	o.Name, o.Zones, o.Crew, o.Machines = task.Name, t.Zones, t.Crew, t.Machines
	o.DoneWhen, o.Hazards, o.MaySlip = task.DoneWhen, task.Hazards, floatMinutes(d.TotalFloat)
	if s.r.prog.Scope == schedule.Crews {
		o.MaySlip = floatMinutes(d.CrewFloat)
	}
	if task.Hold != nil {
		o.HoldPoint = task.Hold.What
	}
	for _, x := range task.Uses {
		o.Uses = append(o.Uses, s.r.deliveryID(x))
	}
}

func (s *Sheets) lorryLine(o *lineObject, id schedule.DeliveryID) {
	d, u := &s.r.plan.Deliveries[id], &s.r.prog.Unloads[id]
	o.Name, o.MaySlip = d.What, floatMinutes(u.TotalFloat)
	if s.r.prog.Scope == schedule.Crews {
		o.MaySlip = floatMinutes(u.CrewFloat)
	}
	for _, n := range d.Unload.Crew {
		set(&o.Crew, s.crewID(n.Crew), n.Least)
	}
	for _, n := range d.Unload.Machines {
		set(&o.Machines, s.r.plan.Machines[n.Machine].ID, n.Count)
	}
}

func (s *Sheets) ties(ties []sheets.Tie, before bool) []tieObject {
	var out []tieObject
	for _, t := range ties {
		o := tieObject{Number: s.book.Number(t.Thing), Task: s.r.taskID(t.Task), Delivery: s.r.deliveryID(t.Delivery),
			Link: t.Kind.String(), At: s.r.moment(t.At), Hold: t.Hold}
		if before {
			o.Free = s.r.moment(t.Free)
		}
		if t.HasWithin {
			o.Within = &t.Within
		}
		out = append(out, o)
	}
	return out
}

func (s *Sheets) passObjects(passes []sheets.Pass) []passObject {
	out := []passObject{}
	for _, p := range passes {
		d := &s.r.plan.Deliveries[p.Delivery]
		o := passObject{Number: p.Number, Delivery: d.ID, What: d.What, Out: d.Out, State: stateNames[p.State], Arrives: s.r.moment(p.Arrives),
			Slot: stretch{s.r.moment(p.Slot.Start), s.r.moment(p.Slot.End)}, Leaves: s.r.moment(p.Leave), Keep: s.r.said(p.Keep),
			Latest: s.r.moment(s.r.prog.Unloads[p.Delivery].LateArrival), Overdue: s.r.said(p.Overdue), Refused: p.Refused}
		for _, t := range p.Users {
			o.Users = append(o.Users, s.r.taskID(t))
		}
		out = append(out, o)
	}
	return out
}

func (s *Sheets) appointmentObjects(all []sheets.Appointment) []appointmentObject {
	out := []appointmentObject{}
	for _, a := range all {
		o := appointmentObject{Number: a.Number, Task: s.r.taskID(a.Task), What: a.Hold.What, State: stateNames[a.State], Booked: a.Booked,
			At: s.r.moment(a.At), Over: s.r.moment(a.Over), Failed: s.r.said(a.Failed), Signed: s.r.said(a.Signed), Waits: s.ties(a.Waits, false)}
		for _, at := range a.Later {
			o.Later = append(o.Later, s.r.moment(at))
		}
		out = append(out, o)
	}
	return out
}
