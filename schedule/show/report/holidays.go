package report

import (
	"fmt"

	"build.example/turflast/calendars/holidays"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/wording"
)

// Holidays lists the public holidays of a region in a year, each with the source of its
// date, and what the list can't know.
func Holidays(region holidays.Region, year int, days []holidays.Day) *page.Document {
	w := &page.Document{}
	w.Say(wording.HolidaysIn(region, year))
	table := w.Table(2, page.Column{Room: 3, Gap: 1}, page.Column{Room: 2, Gap: 1, Right: true},
		page.Column{Room: 3, Gap: 2}, page.Column{})
	for _, d := range days {
		_, month, day := d.On.Civil()
		name, source := wording.Holiday(&d)
		table.Row(d.On.Weekday().String()[:3], fmt.Sprint(day), month.String()[:3], name)
		table.Note(page.Plain, source)
	}
	for _, note := range holidays.Notes(region.Code) {
		w.Say(wording.HolidayNote(note))
	}
	w.Say(wording.CheckHolidays)
	return w
}
