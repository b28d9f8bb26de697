package report

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/sheets"
	view "build.example/turflast/schedule/show/window"
	"build.example/turflast/schedule/show/wording"
)

// Beside is a programme with changes, to stand beside the one as it is on a client's page.
type Beside struct {
	Name    string
	Changes []string
	Of      *Sheets
	Sure    string // how sure that is, in words
}

// Client is the page for a client: when all is done and how sure that is, what is built when,
// when somebody comes to sign, what others provide; beside it, if that isn't nil, the same with
// changes.
func (s *Sheets) Client(sure string, with *Beside) *page.Document {
	w := &page.Document{}
	w.Title(s.r.of.Plan.Garden, wording.ClientTitle)
	w.In(page.Strong, s.r.words.Promise(s.r.of.Programme))
	w.Say(sure)
	if with != nil {
		w.Heading(with.Name)
		for _, c := range with.Changes {
			w.Mark("- ", c)
		}
		w.In(page.Strong, with.Of.r.words.Promise(with.Of.r.of.Programme))
		w.Say(with.Sure)
	}
	w.Heading(wording.ClientBuilt)
	s.built(w, with)
	w.Heading(wording.ClientCome)
	s.comes(w, with)
	s.promises(w)
	return w
}

// built adds when each zone is done.
func (s *Sheets) built(w *page.Document, with *Beside) {
	columns := []page.Column{{Gap: 2}, {Room: momentWidth, Gap: 2}}
	t := besideTable(w, wording.ClientBuilt, with, columns, wording.ClientZone, wording.ClientDone)
	t.Sides = true
	for _, z := range view.Order(s.r.of.Plan) {
		all := inZone(view.WhatIsBuilt(s.r.of), z)
		if len(all) == 0 {
			continue
		}
		other, done := "", s.r.words.Moment(lastOf(all))
		if with != nil {
			other = s.r.words.Moment(lastOf(inZone(view.WhatIsBuilt(with.Of.r.of), z)))
		}
		besideRow(t, with, other, done, s.r.of.Plan.Zones[z].Name, done)
	}
}

// Built says in words what is built in each zone on which days.
func (s *Sheets) Built() *page.Document {
	w := &page.Document{}
	w.Title(s.r.of.Plan.Garden, wording.ClientWords)
	t := w.Table(0, page.Column{Gap: 2, Most: 24}, page.Column{})
	t.Name, t.Heads, t.Sides = wording.ClientWords, 1, true
	t.Row(wording.ClientZone, wording.ClientWhat)
	for _, z := range view.Order(s.r.of.Plan) {
		if all := inZone(view.WhatIsBuilt(s.r.of), z); len(all) > 0 {
			t.Row(s.r.of.Plan.Zones[z].Name, s.r.words.Stages(all))
		}
	}
	return w
}

func inZone(all []view.Built, z schedule.ZoneID) []view.Built {
	return slices.DeleteFunc(all, func(b view.Built) bool { return b.Zone != z })
}

// lastOf is when all of some work is done; Never without any.
func lastOf(all []view.Built) calendars.Instant {
	if len(all) == 0 {
		return calendars.Never
	}
	return slices.MaxFunc(all, func(a, b view.Built) int { return cmp.Compare(a.Span.End, b.Span.End) }).Span.End
}

// besideTable adds a table with a column more for the build with changes, if there is one.
func besideTable(w *page.Document, name string, with *Beside, columns []page.Column, heads ...string) *page.Table {
	if with != nil {
		columns, heads = append(columns, page.Column{Room: momentWidth}), append(heads, with.Name)
	}
	t := w.Table(0, columns...)
	t.Name, t.Heads = name, 1
	t.Row(heads...)
	return t
}

// besideRow adds a row of such a table; what differs with the changes stands out.
func besideRow(t *page.Table, with *Beside, other, own string, cells ...string) {
	if with == nil {
		t.Row(cells...)
		return
	}
	t.Row(append(cells, other)...)
	if other != own {
		t.As(page.Strong, len(cells))
	}
}

// comes adds the sign-offs that are still to come.
func (s *Sheets) comes(w *page.Document, with *Beside) {
	all := slices.DeleteFunc(s.book.Appointments(), func(a sheets.Appointment) bool { return a.Signed != 0 })
	if len(all) == 0 {
		w.Say(wording.NobodySigns)
		return
	}
	columns := []page.Column{{Room: momentWidth, Gap: 2}, {Gap: 2}, {Gap: 2}}
	t := besideTable(w, wording.ClientCome, with, columns, wording.ClientWhen, wording.ClientSigns, wording.ClientZone)
	for _, a := range all {
		other := ""
		if with != nil {
			other = with.Of.signedAt(a.Task)
		}
		own := s.r.words.Moment(a.At)
		besideRow(t, with, other, own, own, a.Hold.What, s.r.words.Where(a.Task))
	}
}

// signedAt says when somebody comes to sign a task off.
func (s *Sheets) signedAt(t schedule.TaskID) string {
	for _, a := range s.book.Appointments() {
		if a.Task == t {
			return s.r.words.Moment(a.At)
		}
	}
	return wording.NotDone
}
