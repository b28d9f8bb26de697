package holidays_test

import (
	"fmt"

	"build.example/turflast/calendars/holidays"
)

func ExampleOf() {
	days, err := holidays.Of("AU-SA", 2027)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, d := range days[len(days)-3:] {
		fmt.Printf("%s %s %02d:%02d %s\n", d.On.Weekday().String()[:3], d.On, d.From/60, d.From%60, d.Name)
	}
	// Output:
	// Mon 2027-12-27 00:00 Christmas Day (additional day)
	// Tue 2027-12-28 00:00 Proclamation Day (additional day)
	// Fri 2027-12-31 19:00 New Year's Eve
}
