package report

import (
	"fmt"
	"slices"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/safety"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/show/wording"
)

// briefColumns are those of a run sheet with a line for each task: times, number, box, name,
// where, and heads.
var briefColumns = []page.Column{
	{Room: len("07:00-10:00"), Gap: 1}, {Room: 3, Gap: 1, Right: true}, {Room: len("[ ]"), Gap: 1},
	{Gap: 1, Cut: true}, {Room: 22, Gap: 1, Cut: true}, {Room: 2, Right: true},
}

// Brief is the run sheet of a day with a line for each task, of one crew or crew by crew, and
// the cautions in one.
func (s *Sheets) Brief(d *sheets.Day) *page.Document {
	w := &page.Document{}
	s.asked(w, d)
	what := s.r.words.Day(d.On) + s.r.words.SiteOn(d.On)
	if d.Crew != sheets.Everyone {
		what = s.r.words.Day(d.On) + " · " + s.r.of.Plan.Crews[d.Crew].Name
	}
	s.head(w, what)
	s.failed(w, d)
	told := make(map[schedule.Activity]bool)
	for c := range s.r.of.Plan.Crews {
		if id := schedule.CrewID(c); d.Crew == sheets.Everyone || d.Crew == id {
			s.briefCrew(w, s.book.Of(d.On, id), told)
		}
	}
	rest := sheets.Day{Crew: sheets.Everyone, Lines: slices.DeleteFunc(slices.Clone(d.Lines), func(l sheets.Line) bool {
		return told[l.Activity]
	})}
	if len(rest.Lines) > 0 {
		w.Heading(wording.NoCrew)
		s.briefLines(w, &rest)
	}
	if len(d.Lines)+len(d.Begun) == 0 {
		w.Say(wording.NoWork)
	}
	s.duties(w, d)
	w.Space()
	w.Say(s.r.words.CareInBrief(d.Hazards, safety.Deference))
	toSign(w, 0, wording.CheckedBy)
	return w
}

// briefCrew adds the lines of one crew, and notes what they are about.
func (s *Sheets) briefCrew(w *page.Document, d *sheets.Day, told map[schedule.Activity]bool) {
	if len(d.Lines)+len(d.Begun) == 0 {
		return
	}
	w.Heading(s.r.of.Plan.Crews[d.Crew].Name + " · " + s.r.words.AtWork(d.Heads, d.Open))
	s.briefLines(w, d)
	for _, l := range d.Lines {
		told[l.Activity] = true
	}
}

// briefLines adds the work of a day, what is begun and has no line first.
func (s *Sheets) briefLines(w *page.Document, d *sheets.Day) {
	table := w.Table(0, briefColumns...)
	add := func(times string, a schedule.Activity) {
		box, name, heads := page.Text{page.ToTick()}, s.name(a), ""
		role := page.Plain
		if sheets.StateOf(s.r.of.Plan, a) == sheets.Ticked {
			box, role = page.As(page.Quiet, markTicked), page.Quiet
		}
		if n := s.book.HeadsOf(a, d.Crew); n > 0 {
			heads = fmt.Sprint(n)
		}
		where := "Gate"
		if t, task := s.r.of.Plan.Task(a); task {
			where = s.r.words.Where(t)
			if s.unsigned(t) {
				name = wording.HoldMark(false) + " " + name
			}
		}
		var row page.Row
		for i, text := range []string{times, fmt.Sprint(s.book.Number(a)), "", name, where, heads} {
			cell := page.Cell{Text: page.As(role, text)}
			if i == 2 {
				cell.Text = box
			}
			row.Cells = append(row.Cells, cell)
		}
		table.Rows = append(table.Rows, row)
	}
	for _, t := range d.Begun {
		add("begun", t.Activity())
	}
	for _, l := range d.Lines {
		add(s.r.words.Times(l.Span), l.Activity)
	}
}
