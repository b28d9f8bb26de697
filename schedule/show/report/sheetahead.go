package report

import (
	"fmt"
	"slices"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/show/wording"
)

// Ahead is the look-ahead: what is worked on in the days from a date on, and what must
// be there or be signed before it begins.
func (s *Sheets) Ahead(from calendars.Date, days int) *page.Document {
	w := &page.Document{}
	s.head(w, s.r.words.DaysAhead(days, from))
	since, _ := calendars.At(s.r.of.Plan.Site.Location, from, 0)
	for on := from; on < from+calendars.Date(days); on++ {
		s.aheadDay(w, s.book.Of(on, sheets.Everyone), since)
	}
	s.aheadDesk(w, from, days)
	return w
}

// aheadDesk adds to the lead's copy what is to be settled at the desk in the days from a date
// on, and what is overdue then.
func (s *Sheets) aheadDesk(w *page.Document, from calendars.Date, days int) {
	if !s.book.Lead {
		return
	}
	said := ""
	for _, d := range s.deskAhead(from, days) {
		if title := "At the desk: " + strings.ToLower(deskTitle(d)); title != said {
			w.Heading(title)
			said = title
		} else {
			w.Space()
		}
		s.deskItem(w, d, from)
	}
}

// deskAhead is what is to be settled at the desk in the days from a date on, and what is
// overdue then.
func (s *Sheets) deskAhead(from calendars.Date, days int) []sheets.Desk {
	since, _ := calendars.At(s.r.of.Plan.Site.Location, from, 0)
	later := func(d sheets.Desk) bool { return d.By == 0 || d.By >= from+calendars.Date(days) }
	return slices.DeleteFunc(s.deskList(since), later)
}

func (s *Sheets) aheadDay(w *page.Document, d *sheets.Day, since calendars.Instant) {
	w.Heading(s.r.words.Day(d.On) + s.r.words.SiteOn(d.On))
	w.Say(s.r.words.CrewsAtWork(s.book, d.On))
	if s.date(since) == d.On { // once for the days ahead
		s.failed(w, d)
		s.begun(w, d, make(map[schedule.Activity]string))
	}
	if len(d.Begun)+len(d.Lines)+len(d.Gate)+len(d.SignOff) == 0 {
		w.Say(wording.NoWork)
	}
	for _, l := range d.Lines {
		label := fmt.Sprintf("%s %3d  ", s.r.words.Times(l.Span), l.Number)
		w.Add(page.Item{Lead: label, Text: append(s.named(l.Activity, ""), page.Span{Text: " · " + s.whereWho(l)})})
		t, task := s.r.of.Plan.Task(l.Activity)
		if !l.First || !task || s.r.of.Plan.Started(t) {
			continue
		}
		w.Under(len(label), "", s.r.words.Needs(s.book, l, t, since))
	}
	for _, a := range d.SignOff {
		s.appointment(w, a, false)
	}
	s.tired(w, d)
}

func (s *Sheets) whereWho(l sheets.Line) string {
	where, who := "gate", ""
	if t, ok := s.r.of.Plan.Task(l.Activity); ok {
		where, who = s.r.words.Where(t), s.r.words.Team(t, s.r.of.Programme.Tasks[t].Heads)
	} else if d, ok := s.r.of.Plan.Delivery(l.Activity); ok {
		who = s.r.words.UnloadTeam(d)
	}
	if who == "" {
		return where
	}
	return where + " · " + who
}
