package report

import (
	"io"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/show/wording"
)

// Desk is what is still to be settled at the desk, overdue first, as at a moment.
func (s *Sheets) Desk(now calendars.Instant) *page.Document {
	w := &page.Document{}
	s.head(w, "desk list")
	plan := s.r.of.Plan
	all := s.deskList(now)
	if len(all) == 0 {
		w.Space()
		if len(plan.Desk) == 0 {
			w.Say(wording.NoDeskKept)
		} else {
			w.Say(wording.NoDesk)
		}
	}
	underTitles(w, all, deskTitle, func(d sheets.Desk) { s.deskItem(w, d, s.date(now)) })
	return w
}

// deskTitle is the heading that an item stands under.
func deskTitle(d sheets.Desk) string {
	switch {
	case d.Past:
		return "Overdue"
	case d.By == 0:
		return "Without a date"
	}
	return "To settle"
}

// deskItem adds an item as seen from a date, with the id by which the log ticks it.
func (s *Sheets) deskItem(w *page.Document, d sheets.Desk, today calendars.Date) {
	item := &s.r.of.Plan.Desk[d.Item]
	text := item.What
	if kind := wording.DeskKind(item.Kind); kind != "" {
		text = kind + ": " + text
	}
	w.Add(page.Item{Text: []page.Span{{Text: text, Role: page.Strong}, {Text: " · " + item.ID}}})
	due := s.r.words.DeskDue(d, today)
	if d.Past {
		w.Broken(2, due)
		return
	}
	w.Under(2, "", due)
}

// deskList is what [Sheets.DeskJSON] writes.
type deskList struct {
	Format  string `json:"format" const:"turflast.desk"`
	Version int    `json:"version" const:"1"`
	sheetObject
	At   calendars.Instant `json:"at" doc:"the moment it is of"`
	Desk []deskLine        `json:"desk" doc:"what is still to be settled, by date"`
}

// deskLine is an item of the desk list.
type deskLine struct {
	Item  string                `json:"item" doc:"its id"`
	What  string                `json:"what" doc:"what is to be settled"`
	Kind  string                `json:"kind" doc:"what it is: a quote, a sample and so on"`
	Who   string                `json:"who,omitempty" doc:"who sees to it"`
	By    calendars.Date        `json:"by,omitempty" doc:"the last date for it; none when nothing dates it"`
	Past  bool                  `json:"past,omitempty" doc:"that date is over"`
	Holds []schedule.DeliveryID `json:"holds" doc:"the deliveries that aren't ordered before it"`
}

// deskList is what is still to be settled as at a moment.
func (s *Sheets) deskList(now calendars.Instant) []sheets.Desk {
	return sheets.DeskList(s.r.of.Plan, s.r.of.Programme, now)
}

func (s *Sheets) deskLines(items []sheets.Desk) []deskLine {
	return each(items, func(d sheets.Desk) deskLine {
		item := &s.r.of.Plan.Desk[d.Item]
		return deskLine{item.ID, item.What, item.Kind, item.Who, d.By, d.Past, d.Holds}
	})
}

// DeskJSON writes what is still to be settled as at a moment as one JSON object. The error is
// the writer's.
func (s *Sheets) DeskJSON(out io.Writer, now calendars.Instant) error {
	return s.r.write(out, deskList{sheetObject: s.top(), At: now, Desk: s.deskLines(s.deskList(now))})
}

// DeskTable writes what is still to be settled as at a moment as a table. The error is the
// writer's.
func (s *Sheets) DeskTable(out io.Writer, now calendars.Instant) error {
	return s.r.table(out, s.deskLines(s.deskList(now)))
}
