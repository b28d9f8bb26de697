package report

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/wording"
)

// Arrange is what to order, book, move, call off and give back, and whom to ask to come, by
// the last date for it, as at a moment.
func (s *Sheets) Arrange(now calendars.Instant) *page.Document {
	w := &page.Document{}
	s.head(w, "what to order, book, call off and give back")
	all := s.book.Errands(now)
	if len(all) == 0 {
		w.Space()
		w.Say(wording.NoErrands)
	}
	var table *page.Table
	for i := range all {
		e := &all[i]
		if i == 0 || e.Past != all[i-1].Past {
			title := "In time"
			if e.Past {
				title = "Date past"
			}
			w.Heading(title)
			table = w.Table(0, page.Column{Room: len("Wed 4 Nov 2026"), Gap: 2}, page.Column{Room: len("ask to come"), Gap: 2},
				page.Column{Gap: 2}, page.Column{})
			table.Name, table.Heads = title, 1
			table.Row(wording.ByDate, "", "what", "when")
		}
		what, when := s.r.words.Errand(e)
		table.Row(s.r.words.Day(e.By), wording.Deed(e.Deed), what, when)
		if table.As(page.Strong, 1); e.Past {
			table.As(page.Late, 0)
		}
	}
	return w
}
