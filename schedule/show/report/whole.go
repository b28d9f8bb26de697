package report

import (
	"cmp"
	"slices"
	"strconv"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	view "build.example/turflast/schedule/show/window"
	"build.example/turflast/schedule/show/wording"
)

// Whole is all that the wall chart shows, in words: a table for each zone as one walks in, then
// the lorries; with slips, how far each may slip.
func (s *Sheets) Whole(slips bool) *page.Document {
	w := &page.Document{}
	w.Title(s.r.of.Plan.Garden, wording.WholeTitle)
	for _, z := range view.Order(s.r.of.Plan) {
		var all []schedule.Activity
		for i := range s.r.of.Plan.Tasks {
			if slices.Contains(s.r.of.Plan.Tasks[i].Zones, z) {
				all = append(all, schedule.Activity(i))
			}
		}
		s.wholeTable(w, s.r.of.Plan.Zones[z].Name, all, slips)
	}
	var lorries []schedule.Activity
	for i := range s.r.of.Plan.Deliveries {
		lorries = append(lorries, s.r.of.Plan.Unload(schedule.DeliveryID(i)))
	}
	s.wholeTable(w, wording.WholeGate, lorries, slips)
	return w
}

func (s *Sheets) wholeTable(w *page.Document, name string, all []schedule.Activity, slips bool) {
	g := s.r.of.Programme
	all = slices.DeleteFunc(all, func(a schedule.Activity) bool { return !g.Of(a).Start.IsReal() || g.LeavesOut(a) })
	if len(all) == 0 {
		return
	}
	slices.SortStableFunc(all, func(a, b schedule.Activity) int { return cmp.Compare(g.Of(a).Start, g.Of(b).Start) })
	w.Heading(name)
	moment := page.Column{Room: momentWidth, Gap: 2}
	columns := []page.Column{{Room: 3, Gap: 2, Right: true}, {Gap: 2}, moment, moment}
	heads := []string{wording.WholeNumber, wording.WholeWhat, wording.WholeFrom, wording.WholeTo}
	if slips {
		columns, heads = append(columns, page.Column{Room: floatWidth, Right: true}), append(heads, wording.WholeSlip)
	}
	t := w.Table(0, columns...)
	t.Name, t.Heads = name, 1
	t.Row(heads...)
	for _, a := range all {
		d := g.Of(a)
		cells := []string{strconv.Itoa(s.book.Number(a)), "", s.r.words.Moment(d.Start), s.r.words.Then(d.Finish, d.Start)}
		if slips {
			slip := ""
			if m, known := view.Slip(s.r.of, a); known {
				slip = wording.Slip(m)
			}
			cells = append(cells, slip)
		}
		t.Row(cells...)
		t.Rows[len(t.Rows)-1].Cells[1].Text = s.named(a, "")
	}
}

// Index is the top of the page that lists all others.
func (s *Sheets) Index() *page.Document {
	w := &page.Document{}
	s.head(w, wording.AllPages)
	return w
}
