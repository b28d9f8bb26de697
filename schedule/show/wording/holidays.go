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

// Holiday names a holiday, with its hour where it doesn't take the whole day, and says
// where its date is from.
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

// HolidayNote is what a list can't know.
func HolidayNote(note string) string { return "Note: " + note }
