package report

import (
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/safety"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/wording"
)

// WholeBuild is all that one crew does, day by day, for a subcontractor who wants to know
// when to send whom.
func (s *Sheets) WholeBuild(crew schedule.CrewID) *page.Document {
	w := &page.Document{}
	s.head(w, s.r.of.Plan.Crews[crew].Name+" · the whole build")
	first, last := s.book.Days()
	var hazards []string
	said := false
	for on := first; on <= last; on++ {
		d := s.book.Of(on, crew)
		if len(d.Lines) == 0 {
			continue
		}
		said = true
		hazards = append(hazards, d.Hazards...)
		w.Heading(s.r.words.Day(on) + " · " + s.r.words.AtWork(d.Heads, d.Open))
		s.lines(w, d)
		for _, x := range d.Duties {
			w.Mark("- ", s.r.words.Duty(&x))
		}
		s.tiredHours(w, d)
	}
	if !said {
		w.Say(wording.NoWorkForCrew)
	}
	s.careFor(w, safety.Cautions(hazards))
	return w
}
