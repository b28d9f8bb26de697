package report

import (
	"fmt"
	"io"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/sheets"
)

// Gate writes the gate list: of a date, or of the whole build day by day when on is
// nil. The error is the writer's.
func (s *Sheets) Gate(out io.Writer, on *calendars.Date) error {
	w := s.page(out)
	passes, what := s.book.Passes(), "gate list"
	if on != nil {
		passes, what = s.book.Gate(*on), "gate list · "+s.r.words.Day(*on)
	}
	s.head(w, what)
	if gate := s.r.plan.Site.Gate; gate != nil && gate.AtOnce > 0 {
		w.paragraph("", count(gate.AtOnce, "lorry", "lorries")+" at a time.")
	}
	if on != nil {
		w.paragraph("", s.gateOpen(*on))
	}
	if len(passes) == 0 {
		w.line("")
		w.paragraph("", "Nothing comes or goes.")
	}
	var day calendars.Date
	for _, p := range passes {
		if d := s.date(passTime(p)); on == nil && d != day {
			day = d
			w.heading(s.r.words.Day(d))
			w.paragraph("", s.gateOpen(d))
		}
		w.line("")
		s.pass(w, p, true)
	}
	return w.out.Flush()
}

// gateOpen says when the gate is open on a date.
func (s *Sheets) gateOpen(on calendars.Date) string {
	return "The gate is " + openWords(s.r.words, s.book.GateOpen(on), "closed", "open ") + "."
}

// passTime is when a lorry is dealt with.
func passTime(p sheets.Pass) calendars.Instant {
	if p.Slot.Start.IsReal() {
		return p.Slot.Start
	}
	return p.Arrives
}

func (s *Sheets) date(t calendars.Instant) calendars.Date {
	return calendars.DateIn(t, s.r.plan.Site.Location)
}

// pass is a lorry with its slot; full tells all of it.
func (s *Sheets) pass(w *page, p sheets.Pass, full bool) {
	d, words := &s.r.plan.Deliveries[p.Delivery], s.r.words
	slot := "no slot"
	if p.Slot.Start.IsReal() {
		slot = words.Time(p.Slot.Start) + "-" + words.Time(p.Slot.End)
	}
	label := fmt.Sprintf("%-11s %3d  ", slot, p.Number)
	s.beside(w, label, s.passHead(p, d))
	margin := s.indent()
	w.hanging(margin, "", s.comes(p, d))
	if !full {
		return
	}
	if p.State == sheets.Ticked {
		return
	}
	if users := s.numbers(p.Users, p.Slot.Start); users != "" {
		w.hanging(margin, "", "For "+users+".")
	}
	if late := words.Late(s.r.prog, p.Delivery); late != "" && p.State == sheets.Ahead {
		w.hanging(margin, "", late)
	}
	for _, b := range s.r.prog.Breaks {
		if b.Stock == p.Delivery || b.Activity == s.r.plan.Unload(p.Delivery) {
			s.broken(w, words.Break(b))
		}
	}
}

// passHead names a lorry and says whether it comes in or goes out.
func (s *Sheets) passHead(p sheets.Pass, d *schedule.Delivery) string {
	text := s.name(s.r.plan.Unload(p.Delivery))
	if d.Out {
		text += " (out)"
	} else {
		text += " (in)"
	}
	switch {
	case p.State == sheets.Ticked:
		text = tickedMark + " " + text
	case s.r.prog.Unloads[p.Delivery].OnChain:
		text += " " + chainMark
	}
	return text
}

// comes says when a lorry comes, who deals with it, how long it waits, and how long
// its load keeps.
func (s *Sheets) comes(p sheets.Pass, d *schedule.Delivery) string {
	words := s.r.words
	text := words.LorrySoFar(s.r.prog, p.Delivery, passTime(p))
	if p.State == sheets.Ahead {
		text = fmt.Sprintf("Comes %s, waits until %s", words.Then(p.Arrives, passTime(p)), words.Then(p.Leave, p.Arrives))
		if standing := s.standing(p); standing != "" {
			text += "; " + standing
		}
		text += "."
	}
	if team := words.UnloadTeam(p.Delivery); team != "" {
		text += " " + team + "."
	}
	if p.Keep != 0 && p.State != sheets.Ticked {
		text += fmt.Sprintf(" Keeps %s, until %s.", words.Clock(d.Keep), words.Moment(p.Keep))
	}
	return text
}

// standing says what is amiss with a lorry that hasn't come, as a clause.
func (s *Sheets) standing(p sheets.Pass) string {
	switch {
	case p.Refused:
		return "it was refused at the gate"
	case p.Overdue != 0:
		return "it is overdue: booked for " + s.r.words.Then(p.Overdue, p.Arrives)
	}
	return ""
}

// numbers names tasks with their numbers and starts.
func (s *Sheets) numbers(tasks []schedule.TaskID, beside calendars.Instant) string {
	const most = 3
	var said []string
	for i, t := range tasks {
		if i == most {
			said = append(said, fmt.Sprintf("%d more", len(tasks)-most))
			break
		}
		said = append(said, fmt.Sprintf("%s (%d), %s", s.r.words.Task(t), s.book.Numbers.Of(t.Activity()), s.r.words.Then(s.r.prog.Tasks[t].Start, beside)))
	}
	return strings.Join(said, "; ")
}

// Appointments writes who must come when to sign something off, and what others owe.
// The error is the writer's.
func (s *Sheets) Appointments(out io.Writer) error {
	w := s.page(out)
	s.head(w, "appointments and sign-offs")
	all := s.book.Appointments()
	if len(all) == 0 {
		w.line("")
		w.paragraph("", "The plan has no hold points.")
	}
	var booked, any []sheets.Appointment
	for _, a := range all {
		if a.Booked {
			booked = append(booked, a)
		} else {
			any = append(any, a)
		}
	}
	for _, part := range []struct {
		title string
		list  []sheets.Appointment
	}{{"By appointment", booked}, {"Whenever the work is finished: ask them to come", any}} {
		if len(part.list) > 0 {
			w.heading(part.title)
		}
		for i, a := range part.list {
			if i > 0 {
				w.line("")
			}
			s.appointment(w, a, true)
		}
	}
	s.promises(w)
	return w.out.Flush()
}

// appointment is one sign-off; full gives its date, what waits for it and when else
// they could come.
func (s *Sheets) appointment(w *page, a sheets.Appointment, full bool) {
	words := s.r.words
	label := words.Time(a.At)
	if full {
		label = words.Moment(a.At)
	}
	mark := "◌ "
	if a.Signed != 0 {
		mark = "● "
	}
	label += fmt.Sprintf(" %3d  ", a.Number)
	s.beside(w, label, mark+a.Hold.What)
	margin := s.indent()
	if !full {
		w.hanging(margin, "", words.Task(a.Task)+s.signed(a)+".")
		return
	}
	w.hanging(margin, "", words.Task(a.Task)+", "+words.Where(a.Task)+s.signed(a)+".")
	if a.Signed != 0 {
		return
	}
	if a.Failed != 0 {
		w.hanging(margin, "", "It failed "+words.Moment(a.Failed)+".")
	}
	if a.Booked {
		w.hanging(margin, "", s.later(a))
	}
	var waits []schedule.TaskID
	for _, tie := range a.Waits {
		if t, ok := s.r.plan.Task(tie.Activity); ok {
			waits = append(waits, t)
		}
	}
	if text := s.numbers(waits, a.At); text != "" {
		w.hanging(margin, "", "Then: "+text+".")
	}
}

func (s *Sheets) signed(a sheets.Appointment) string {
	switch {
	case a.Signed != 0:
		return ", signed " + s.r.words.Moment(a.Signed)
	case a.Over.IsReal() && a.Over > a.At:
		return ", over " + s.r.words.Then(a.Over, a.At)
	}
	return ""
}

// later says when else they could come.
func (s *Sheets) later(a sheets.Appointment) string {
	var said []string
	for _, at := range a.Later {
		said = append(said, s.r.words.Moment(at))
	}
	if len(said) == 0 {
		return "There is no later appointment."
	}
	return "Later appointments: " + strings.Join(said, ", ") + "."
}

// promises are the givens, which others owe.
func (s *Sheets) promises(w *page) {
	all := s.book.Promises()
	if len(all) == 0 {
		return
	}
	w.heading("From others")
	for _, p := range all {
		text := s.r.plan.Givens[p.Given].What
		if p.First != schedule.None {
			text += ": first for " + s.numbers([]schedule.TaskID{p.First}, p.From)
		}
		s.beside(w, s.r.words.Moment(p.From)+"  ", text+".")
	}
}
