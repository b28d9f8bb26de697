package report

import (
	"fmt"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/show/wording"
)

// Gate is the gate list of a date, or of the whole build day by day if on is nil.
func (s *Sheets) Gate(on *calendars.Date) *page.Document {
	w := &page.Document{}
	passes, what := s.book.Passes(), "gate list"
	if on != nil {
		passes, what = s.book.Gate(*on), "gate list · "+s.r.words.Day(*on)
	}
	s.head(w, what)
	if gate := s.r.of.Plan.Site.Gate; gate != nil && gate.AtOnce > 0 {
		w.Say(wording.LorriesAtOnce(gate.AtOnce))
	}
	if on != nil {
		w.Say(s.r.words.GateOpen(s.book.GateOpen(*on)))
	}
	if len(passes) == 0 {
		w.Space()
		w.Say(wording.NothingPasses)
	}
	var day calendars.Date
	for _, p := range passes {
		if d := s.date(passTime(p)); on == nil && d != day {
			day = d
			w.Heading(s.r.words.Day(d))
			w.Say(s.r.words.GateOpen(s.book.GateOpen(d)))
		}
		w.Space()
		s.pass(w, p, true)
	}
	return w
}

// passTime is when a lorry is unloaded or loaded, or else when it arrives.
func passTime(p sheets.Pass) calendars.Instant {
	if p.Slot.Start.IsReal() {
		return p.Slot.Start
	}
	return p.Arrives
}

func (s *Sheets) date(t calendars.Instant) calendars.Date {
	return calendars.DateIn(t, s.r.of.Plan.Site.Location)
}

// pass adds a lorry with its slot. Full also adds the tasks that it is for, how late it
// may come, and the dates it breaks.
func (s *Sheets) pass(w *page.Document, p sheets.Pass, full bool) {
	unload, words, slot := s.r.of.Plan.Unload(p.Delivery), s.r.words, "no slot"
	if p.Slot.Start.IsReal() {
		slot = words.Times(p.Slot)
	}
	way := " (in)"
	if s.r.of.Plan.Deliveries[p.Delivery].Out {
		way = " (out)"
	}
	label := fmt.Sprintf("%-11s %3d  ", slot, p.Number)
	if full {
		w.Add(page.Item{Lead: label, Text: s.toTick(unload, way)})
	} else {
		w.Add(page.Item{Lead: label, Text: s.named(unload, way)})
	}
	w.Under(underLine, "", words.Comes(s.book, &p, passTime(p)))
	if !full || p.State == sheets.Ticked {
		return
	}
	w.Under(underLine, "", words.UsedBy(s.book, &p))
	if late := words.Late(s.r.of.Programme, p.Delivery); s.book.Lead && late != "" && p.State == sheets.Ahead {
		w.Under(underLine, "", late)
	}
	for _, b := range s.r.of.Programme.Breaks {
		if b.Stock == p.Delivery || b.Activity == unload {
			w.Broken(underLine, words.Break(b))
		}
	}
}

// Appointments lists who must come when to sign something off, and what others owe.
func (s *Sheets) Appointments() *page.Document {
	w := &page.Document{}
	s.head(w, "appointments and sign-offs")
	all := s.book.Appointments()
	if len(all) == 0 {
		w.Space()
		w.Say(wording.NoHoldPoints)
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

// appointment adds one sign-off. Full also adds its date, where it is, what waits for it
// and when else somebody could come.
func (s *Sheets) appointment(w *page.Document, a sheets.Appointment, full bool) {
	words := s.r.words
	label := words.Time(a.At)
	if full {
		label = words.Moment(a.At)
	}
	label += fmt.Sprintf(" %3d  ", a.Number)
	w.Add(page.Item{Lead: label, Text: page.As(page.Plain, wording.HoldMark(a.Signed != 0)+" "+a.Hold.What)})
	w.Under(underLine, "", words.SignsOff(&a, full))
	if !full || a.Signed != 0 {
		return
	}
	for _, text := range []string{words.FailedOn(&a), words.LaterAppointments(&a), words.WaitFor(s.book, &a)} {
		w.Under(underLine, "", text)
	}
}

// promises adds the givens, which others owe.
func (s *Sheets) promises(w *page.Document) {
	all := s.book.Promises()
	if len(all) == 0 {
		return
	}
	w.Heading("From others")
	for _, p := range all {
		text := s.r.words.Promised(s.book, &p)
		w.Add(page.Item{Lead: s.r.words.Moment(p.From) + "  ", Text: page.As(page.Plain, text)})
	}
}
