package report

import (
	"strconv"

	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/use"
	"build.example/turflast/schedule/show/wording"
)

// People is the people of the build: how many of each crew come to the site on each day and
// how many in all, then heads and machines by half day.
func (s *Sheets) People() *page.Document {
	w := &page.Document{}
	s.head(w, "people")
	days := use.OnSite(s.r.of)
	if len(days) == 0 {
		w.Say(wording.NobodyThere)
	} else {
		s.onSite(w, days)
	}
	w.Heading("People and machines by half day")
	w.Add(s.r.Heads().Blocks...)
	return w
}

func (s *Sheets) onSite(w *page.Document, days []use.Day) {
	all, atOnce := 0, 0
	for _, d := range days {
		all, atOnce = max(all, d.All), max(atOnce, d.AtOnce)
	}
	w.Say(s.r.words.Badges(all, atOnce))
	w.Space()
	columns := []page.Column{{Room: len("Fri 30 Apr 2027"), Gap: 1}}
	heads := []string{wording.OnSiteDay}
	for i := range s.r.of.Plan.Crews {
		columns = append(columns, page.Column{Gap: 1, Right: true})
		heads = append(heads, s.r.of.Plan.Crews[i].Name)
	}
	sum := page.Column{Room: len("come in all"), Gap: 1, Right: true}
	table := w.Table(0, append(columns, sum, sum)...)
	table.Name, table.Heads, table.Sides = wording.OnSiteName, 1, true
	table.Row(append(heads, wording.OnSiteAll, wording.OnSiteMost)...)
	for _, d := range days {
		cells := []string{s.r.words.Day(d.Date)}
		for _, n := range d.Crews {
			cell := ""
			if n > 0 {
				cell = strconv.Itoa(n)
			}
			cells = append(cells, cell)
		}
		table.Row(append(cells, strconv.Itoa(d.All), strconv.Itoa(d.AtOnce))...)
		table.As(page.Strong, len(cells))
	}
}
