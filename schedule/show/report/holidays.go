package report

import (
	"fmt"

	"build.example/turflast/calendars"
	"build.example/turflast/calendars/holidays"
	"build.example/turflast/schedule/show/page"
)

// Holidays writes the public holidays of a region in a year, each with the
// source of its date, and what the list can't know. The error is the writer's.
func Holidays(region holidays.Region, year int, days []holidays.Day) *page.Document {
	w := &page.Document{}
	w.Say(fmt.Sprintf("Public holidays in %s (%s), %d", region.Name, region.Code, year))
	table := w.Table(2, page.Column{Room: 3, Gap: 1}, page.Column{Room: 2, Gap: 1, Right: true}, page.Column{Room: 3, Gap: 2}, page.Column{})
	for _, d := range days {
		_, month, day := d.On.Civil()
		name := d.Name
		if d.From > 0 {
			name += fmt.Sprintf(", from %02d:%02d", d.From/calendars.Hour, d.From%calendars.Hour)
		}
		source := d.Source
		if d.Provisional {
			source += "; provisional"
		}
		table.Row(d.On.Weekday().String()[:3], fmt.Sprint(day), month.String()[:3], name)
		table.Note(page.Plain, source)
	}
	for _, note := range holidays.Notes(region.Code) {
		w.Say("Note: " + note)
	}
	w.Say("Check the official list before you book; holidays_add and holidays_drop in a plan correct it.")
	return w
}
