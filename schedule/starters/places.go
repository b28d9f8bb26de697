package starters

import (
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/calendars/holidays"
	"build.example/turflast/calendars/zones"
	"build.example/turflast/schedule"
)

// clocks are the time zone and the currency of regions, by the longest code that begins
// theirs. Of countries with several clocks it is the largest city's.
var clocks = map[string][2]string{
	"AU-ACT": {"Australia/Sydney", "AUD"}, "AU-NSW": {"Australia/Sydney", "AUD"},
	"AU-NT": {"Australia/Darwin", "AUD"}, "AU-QLD": {"Australia/Brisbane", "AUD"},
	"AU-SA": {"Australia/Adelaide", "AUD"}, "AU-TAS": {"Australia/Hobart", "AUD"},
	"AU-VIC": {"Australia/Melbourne", "AUD"}, "AU-WA": {"Australia/Perth", "AUD"},
	"CA": {"America/Toronto", "CAD"}, "DE": {"Europe/Berlin", "EUR"}, "FR": {"Europe/Paris", "EUR"},
	"GB": {"Europe/London", "GBP"}, "IE": {"Europe/Dublin", "EUR"}, "JP": {"Asia/Tokyo", "JPY"},
	"NL": {"Europe/Amsterdam", "EUR"}, "NZ": {"Pacific/Auckland", "NZD"}, "SG": {"Asia/Singapore", "SGD"},
	"US": {"America/New_York", "USD"},
}

// PlaceIn is the place of a region. The error is that of an unknown region, which names
// those near it.
func PlaceIn(region string) (Place, error) {
	if _, err := holidays.Of(region, holidays.First); err != nil {
		return Place{}, err
	}
	country, _, _ := strings.Cut(region, "-")
	clock, ok := clocks[region]
	if !ok {
		clock = clocks[country]
	}
	loc, err := zones.Load(clock[0])
	if err != nil {
		return Place{}, err
	}
	return Place{region, clock[0], clock[1], loc, closedIn(region)}, nil
}

// PlaceOf is the place of a plan.
func PlaceOf(p *schedule.Plan) Place {
	return Place{p.Site.Region, p.Site.Location.String(), p.Currency, p.Site.Location, closedIn(p.Site.Region)}
}

// halfDay is the minute of the day from which on a holiday leaves a day of work.
const halfDay = 17 * calendars.Hour

// closedIn says of a date whether it is a public holiday of a region; of none it never is.
func closedIn(region string) func(calendars.Date) bool {
	days := make(map[calendars.Date]bool)
	known := make(map[int]bool)
	return func(d calendars.Date) bool {
		year, _, _ := d.Civil()
		if !known[year] {
			known[year] = true
			list, _ := holidays.Of(region, year) // an unknown one has none
			for _, h := range list {
				days[h.On] = days[h.On] || h.From < halfDay
			}
		}
		return days[d]
	}
}
