package report

import (
	"cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/shape"
	"build.example/turflast/schedule/show/sheets"
)

func (s *Sheets) top() sheetObject {
	p := s.r.of.Plan
	return sheetObject{
		Garden: p.Garden, Timezone: p.Site.Location.String(), AsAt: s.r.asAt(), Sentence: s.r.words.Margin(s.r.of.Programme),
		Issued: s.Issued, Said: s.Said, Breaks: each(s.r.of.Programme.Breaks, s.r.words.Break),
	}
}

func (s *Sheets) dayObject(d *sheets.Day) day {
	o := day{
		On: d.On, Crew: schedule.None, Open: d.Open, Lines: each(d.Lines, s.lineObject), Gate: each(d.Gate, s.passObject),
		Asked:        append(s.r.words.Undone(d.Undone), s.r.words.Questions(s.book, d.Asked)...),
		Appointments: each(d.SignOff, s.appointmentObject),
		Next:         d.Next, Hazards: d.Hazards,
	}
	s.addPeople(&o, d)
	s.addOpen(&o, d)
	for _, e := range s.book.WeatherOn(d.On) {
		o.Weather = append(o.Weather, weatherLogged{string(e.What), e.About(s.r.of.Plan.Site.Location)})
	}
	return o
}

// addPeople adds whose sheet it is, who is free, the duties, and what fatigue guidance says.
func (s *Sheets) addPeople(o *day, d *sheets.Day) {
	if d.Crew != sheets.Everyone {
		o.Crew, o.Heads = d.Crew, &d.Heads
	}
	for c := range s.r.of.Plan.Crews {
		if id := schedule.CrewID(c); d.Crew == sheets.Everyone || d.Crew == id {
			for _, x := range s.book.Free(d.On, id) {
				o.Free = append(o.Free, free{id, x.Heads, x.Span})
			}
		}
	}
	for _, x := range d.Duties {
		said := duty{Duty: x.Duty.ID, Crew: x.Crew, Heads: x.Who, Span: x.Span}
		if x.Done != nil {
			said.Done, said.By = x.Done.At, cmp.Or(x.Done.Who, x.Done.By)
		}
		o.Duties = append(o.Duties, said)
	}
	for _, t := range d.Tired {
		o.Tired = append(o.Tired, tired{t.Crew, t.Finding.Kind, s.r.words.Tired(t)})
	}
}

// addOpen adds what isn't settled: accidents, sign-offs that failed, conditions, work that was
// cancelled, work that is begun.
func (s *Sheets) addOpen(o *day, d *sheets.Day) {
	if s.book.Lead && d.Crew == sheets.Everyone {
		for _, a := range s.book.Accidents() {
			o.Accidents = append(o.Accidents, accident{a.ID, a.At, s.r.words.OpenAccident(&a)})
		}
	}
	for _, t := range d.Failed {
		was := &s.r.of.Plan.Progress.Tasks[t]
		o.Failed = append(o.Failed, failedSignOff{s.book.Number(t.Activity()), t, was.Failed, was.Wrong,
			s.r.words.FailedHead(s.book, t)})
	}
	for _, c := range d.Terms {
		o.Terms = append(o.Terms, condition{c.Of, c.Work, s.r.of.Plan.Tasks[c.Work].By, s.r.words.OnCondition(s.book, c)})
	}
	for _, g := range d.Gone {
		o.Gone = append(o.Gone, cancelledTask{g.Number, g.ID, g.At, s.r.words.Gone(g.Number, g.Cancelled)})
	}
	from, _ := calendars.At(s.r.of.Plan.Site.Location, d.On, 0)
	for _, t := range d.Begun {
		o.Begun = append(o.Begun, begunWork{s.book.Number(t.Activity()), t, s.r.of.Plan.Progress.Tasks[t].Start,
			s.r.words.StillBegun(s.r.of.Programme, t, from)})
	}
}

func (s *Sheets) lineObject(l sheets.Line) line {
	task, lorry := s.r.pair(l.Activity)
	dates := s.r.of.Programme.Of(l.Activity)
	o := line{
		Number: l.Number, Task: task, Delivery: lorry, Name: s.r.words.Activity(l.Activity),
		State: sheets.StateOf(s.r.of.Plan, l.Activity), Span: l.Span,
		First: l.First, Last: l.Last, OnChain: dates.OnChain, MaySlip: shape.Float(dates.TotalFloat),
		Before: each(s.book.Before(l.Activity), s.before), After: each(s.book.After(l.Activity), s.after),
	}
	if s.r.of.Programme.Scope == schedule.Crews {
		o.MaySlip = shape.Float(dates.CrewFloat)
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
	task := &s.r.of.Plan.Tasks[id]
	o.Zones, o.Crew, o.Machines, o.Uses = t.Zones, t.Crew, t.Machines, task.Uses
	o.DoneWhen, o.Hazards = task.DoneWhen, task.Hazards
	if task.Hold != nil {
		o.HoldPoint = task.Hold.What
	}
}

func (s *Sheets) lorryLine(o *line, id schedule.DeliveryID) {
	d := &s.r.of.Plan.Deliveries[id]
	o.Crew, o.Machines = make(map[schedule.CrewID]int), machines(d.Unload.Machines)
	for _, n := range d.Unload.Crew {
		o.Crew[n.Crew] = n.Least
	}
}

// before is a tie to what a line waits for.
func (s *Sheets) before(t sheets.Tie) tie {
	o := s.after(t)
	o.Free = &t.Free
	return o
}

// after is a tie to what waits for a line.
func (s *Sheets) after(t sheets.Tie) tie {
	task, lorry := s.r.pair(t.Activity)
	o := tie{Number: s.book.Number(t.Activity), Task: task, Delivery: lorry, Link: t.Kind, At: t.At, Hold: t.Hold}
	if t.HasWithin {
		o.Within = &t.Within
	}
	return o
}

func (s *Sheets) passObject(p sheets.Pass) pass {
	d, u := &s.r.of.Plan.Deliveries[p.Delivery], &s.r.of.Programme.Unloads[p.Delivery]
	return pass{
		Number: p.Number, Delivery: p.Delivery, What: d.What, Out: d.Out, State: p.State, Arrives: p.Arrives,
		Slot: p.Slot, Leaves: p.Leave, Keep: p.Keep, Latest: u.LateArrival,
		Waiting: u.Waiting, Cost: d.WaitingCost(u.Waiting),
		Users: p.Users, Overdue: p.Overdue, Refused: p.Refused,
	}
}

func (s *Sheets) appointmentObject(a sheets.Appointment) appointment {
	return appointment{
		Number: a.Number, Task: a.Task, What: a.Hold.What, State: a.State, Booked: a.Booked, At: a.At, Over: a.Over,
		Later: a.Later, Failed: a.Failed, Signed: a.Signed, By: a.By, Waits: each(a.Waits, s.after),
	}
}
