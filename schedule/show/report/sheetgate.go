package report

import (
	"fmt"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/show/wording"
)

// Gate writes the gate list: of a date, or of the whole build day by day when on is
// nil. The error is the writer's.
func (s *Sheets) Gate(on *calendars.Date) *page.Document {
	w := &page.Document{}
	passes, what := s.book.Passes(), "gate list"
	if on != nil {
		passes, what = s.book.Gate(*on), "gate list · "+s.r.words.Day(*on)
	}
	s.head(w, what)
	if gate := s.r.of.Plan.Site.Gate; gate != nil && gate.AtOnce > 0 {
		w.Say(wording.Count(gate.AtOnce, "lorry", "lorries") + " at a time.")
	}
	if on != nil {
		w.Say(s.gateOpen(*on))
	}
	if len(passes) == 0 {
		w.Space()
		w.Say("Nothing comes or goes.")
	}
	var day calendars.Date
	for _, p := range passes {
		if d := s.date(passTime(p)); on == nil && d != day {
			day = d
			w.Heading(s.r.words.Day(d))
			w.Say(s.gateOpen(d))
		}
		w.Space()
		s.pass(w, p, true)
	}
	return w
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
	return calendars.DateIn(t, s.r.of.Plan.Site.Location)
}

// pass is a lorry with its slot; full tells all of it.
func (s *Sheets) pass(w *page.Document, p sheets.Pass, full bool) {
	d, words := &s.r.of.Plan.Deliveries[p.Delivery], s.r.words
	slot := "no slot"
	if p.Slot.Start.IsReal() {
		slot = words.Time(p.Slot.Start) + "-" + words.Time(p.Slot.End)
	}
	label := fmt.Sprintf("%-11s %3d  ", slot, p.Number)
	w.Add(page.Item{Lead: label, Text: page.As(page.Plain, s.passHead(p, d))})
	w.Under(underLine, "", s.comes(p, d))
	if !full {
		return
	}
	if p.State == sheets.Ticked {
		return
	}
	if users := s.numbers(p.Users, p.Slot.Start); users != "" {
		w.Under(underLine, "", "For "+users+".")
	}
	if late := words.Late(s.r.of.Programme, p.Delivery); late != "" && p.State == sheets.Ahead {
		w.Under(underLine, "", late)
	}
	for _, b := range s.r.of.Programme.Breaks {
		if b.Stock == p.Delivery || b.Activity == s.r.of.Plan.Unload(p.Delivery) {
			w.Broken(underLine, words.Break(b))
		}
	}
}

// passHead names a lorry and says whether it comes in or goes out.
func (s *Sheets) passHead(p sheets.Pass, d *schedule.Delivery) string {
	text := s.name(s.r.of.Plan.Unload(p.Delivery))
	if d.Out {
		text += " (out)"
	} else {
		text += " (in)"
	}
	switch {
	case p.State == sheets.Ticked:
		text = tickedMark + " " + text
	case s.r.of.Programme.Unloads[p.Delivery].OnChain:
		text += " " + chainMark
	}
	return text
}

// comes says when a lorry comes, who deals with it, how long it waits, and how long
// its load keeps.
func (s *Sheets) comes(p sheets.Pass, d *schedule.Delivery) string {
	words := s.r.words
	text := words.LorrySoFar(s.r.of.Programme, p.Delivery, passTime(p))
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
		said = append(said, fmt.Sprintf("%s (%d), %s", s.r.words.Task(t), s.book.Numbers.Of(t.Activity()), s.r.words.Then(s.r.of.Programme.Tasks[t].Start, beside)))
	}
	return strings.Join(said, "; ")
}

// Appointments writes who must come when to sign something off, and what others owe.
// The error is the writer's.
func (s *Sheets) Appointments() *page.Document {
	w := &page.Document{}
	s.head(w, "appointments and sign-offs")
	all := s.book.Appointments()
	if len(all) == 0 {
		w.Space()
		w.Say("The plan has no hold points.")
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
			w.Heading(part.title)
		}
		for i, a := range part.list {
			if i > 0 {
				w.Space()
			}
			s.appointment(w, a, true)
		}
	}
	s.promises(w)
	return w
}

// appointment is one sign-off; full gives its date, what waits for it and when else
// they could come.
func (s *Sheets) appointment(w *page.Document, a sheets.Appointment, full bool) {
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
	w.Add(page.Item{Lead: label, Text: page.As(page.Plain, mark+a.Hold.What)})
	if !full {
		w.Under(underLine, "", words.Task(a.Task)+s.signed(a)+".")
		return
	}
	w.Under(underLine, "", words.Task(a.Task)+", "+words.Where(a.Task)+s.signed(a)+".")
	if a.Signed != 0 {
		return
	}
	if a.Failed != 0 {
		w.Under(underLine, "", "It failed "+words.Moment(a.Failed)+".")
	}
	if a.Booked {
		w.Under(underLine, "", s.later(a))
	}
	var waits []schedule.TaskID
	for _, tie := range a.Waits {
		if t, ok := s.r.of.Plan.Task(tie.Activity); ok {
			waits = append(waits, t)
		}
	}
	if text := s.numbers(waits, a.At); text != "" {
		w.Under(underLine, "", "Then: "+text+".")
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
func (s *Sheets) promises(w *page.Document) {
	all := s.book.Promises()
	if len(all) == 0 {
		return
	}
	w.Heading("From others")
	for _, p := range all {
		text := s.r.of.Plan.Givens[p.Given].What
		if p.First != schedule.None {
			text += ": first for " + s.numbers([]schedule.TaskID{p.First}, p.From)
		}
		w.Add(page.Item{Lead: s.r.words.Moment(p.From) + "  ", Text: page.As(page.Plain, text+".")})
	}
}
