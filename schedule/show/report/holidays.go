package report

import (
	"bufio"
	"fmt"
	"io"

	"build.example/turflast/calendars"
	"build.example/turflast/calendars/holidays"
)

// Holidays writes the public holidays of a region in a year, each with the
// source of its date, and what the list can't know. The error is the writer's.
func Holidays(out io.Writer, region holidays.Region, year int, days []holidays.Day) error {
	w := &page{out: bufio.NewWriter(out)}
	w.paragraph("", fmt.Sprintf("Public holidays in %s (%s), %d", region.Name, region.Code, year))
	margin := len("  Mon  3 May  ")
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
		w.hanging(margin, fmt.Sprintf("  %s %2d %s", d.On.Weekday().String()[:3], day, month.String()[:3]), name)
		w.hanging(margin+2, "", source)
	}
	for _, note := range holidays.Notes(region.Code) {
		w.paragraph("", "Note: "+note)
	}
	w.paragraph("", "Check the official list before you book; holidays_add and holidays_drop in a plan correct it.")
	return w.out.Flush()
}
