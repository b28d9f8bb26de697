package wording

import (
	"fmt"

	"build.example/turflast/calendars"
	"build.example/turflast/calendars/holidays"
)

// CheckHolidays ends a list of holidays.
const CheckHolidays = "Check the official list before you book; " +
	"holidays_add and holidays_drop in a plan correct it."

// HolidaysIn is the title of a list of holidays.
func HolidaysIn(region holidays.Region, year int) string {
	return fmt.Sprintf("Public holidays in %s (%s), %d", region.Name, region.Code, year)
}

// Holiday returns the name of a holiday, with the hour it begins at if it isn't a whole
// day, and the source of its date.
func Holiday(d *holidays.Day) (name, source string) {
	name, source = d.Name, d.Source
	if d.From > 0 {
		name += ", from " + calendars.FormatClock(d.From)
	}
	if d.Provisional {
		source += "; provisional"
	}
	return name, source
}

// HolidayNote words a note on what a list of holidays can't know.
func HolidayNote(note string) string { return "Note: " + note }
