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

// Ahead writes the look-ahead: what is worked on in so many days from a date on, and
// what must be there or be signed before it begins. The error is the writer's.
func (s *Sheets) Ahead(from calendars.Date, days int) *page.Document {
	w := &page.Document{}
	s.head(w, fmt.Sprintf("%s ahead from %s", wording.Count(days, "day", "days"), s.r.words.Day(from)))
	since, _ := calendars.At(s.r.of.Plan.Site.Location, from, 0)
	for on := from; on < from+calendars.Date(days); on++ {
		s.aheadDay(w, s.book.Of(on, sheets.Everyone), since)
	}
	return w
}

func (s *Sheets) aheadDay(w *page.Document, d *sheets.Day, since calendars.Instant) {
	w.Heading(s.r.words.Day(d.On) + s.r.openOn(d.On))
	if who := s.crews(d.On); who != "" {
		w.Say("At work: " + who + ".")
	}
	if len(d.Lines)+len(d.Gate)+len(d.SignOff) == 0 {
		w.Say("No work on this day.")
	}
	for _, l := range d.Lines {
		label := fmt.Sprintf("%s-%s %3d  ", s.r.words.Time(l.Span.Start), s.r.words.Time(l.Span.End), l.Number)
		text := s.name(l.Activity)
		switch {
		case sheets.StateOf(s.r.of.Plan, l.Activity) == sheets.Ticked:
			text = tickedMark + " " + text
		case s.r.of.Programme.Of(l.Activity).OnChain:
			text += " " + chainMark
		}
		w.Add(page.Item{Lead: label, Text: page.As(page.Plain, text+" · "+s.whereWho(l))})
		t, task := s.r.of.Plan.Task(l.Activity)
		if !l.First || !task || s.r.of.Plan.Started(t) {
			continue
		}
		if needs := s.needs(l, t, since); needs != "" {
			w.Under(len(label), "", "Needs "+needs+".")
		}
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

// crews lists who is at work on a date with work for them.
func (s *Sheets) crews(on calendars.Date) string {
	var said []string
	for c := range s.r.of.Plan.Crews {
		if d := s.book.Of(on, schedule.CrewID(c)); len(d.Lines) > 0 && d.Heads > 0 {
			said = append(said, fmt.Sprintf("%s %d", s.r.of.Plan.Crews[c].Name, d.Heads))
		}
	}
	return strings.Join(said, ", ")
}

// needs is what must be there or be signed before a line's task begins, and isn't
// yet: lorries, givens and sign-offs. While nothing is logged, what is due
// before a moment is taken to be there.
func (s *Sheets) needs(l sheets.Line, t schedule.TaskID, since calendars.Instant) string {
	var said []string
	add := func(due calendars.Instant, what, how string) {
		if s.r.of.Plan.Progress != nil || due >= since {
			said = append(said, what+", "+how+" "+s.r.words.Then(due, l.Span.Start))
		}
	}
	for _, d := range s.r.of.Plan.Tasks[t].Uses {
		if !s.r.of.Plan.Unloaded(d) {
			add(s.r.of.Programme.Unloads[d].Finish, fmt.Sprintf("%s (%d)", s.r.words.Delivery(d), s.book.Numbers.Of(s.r.of.Plan.Unload(d))), "unloaded")
		}
	}
	for _, g := range s.r.of.Plan.Tasks[t].Givens {
		if given := &s.r.of.Plan.Givens[g]; given.From > s.r.of.Plan.Now() {
			add(given.From, given.What, "from")
		}
	}
	for _, tie := range s.book.Before(l.Activity) {
		if tie.Hold && sheets.StateOf(s.r.of.Plan, tie.Activity) != sheets.Ticked {
			add(tie.Free, fmt.Sprintf("%s (%d)", s.r.of.Plan.Tasks[tie.Activity].Hold.What, s.book.Numbers.Of(tie.Activity)), "signed")
		}
	}
	return strings.Join(said, "; ")
}
