package pasted

import (
	"time"

	"build.example/turflast/calendars"
)

// usual are the hours of a site of which nobody says any.
var usual = weekdays(calendars.Range{From: 8 * calendars.Hour, To: 12 * calendars.Hour},
	calendars.Range{From: 12*calendars.Hour + 30, To: 16*calendars.Hour + 30})

func weekdays(hours ...calendars.Range) (week calendars.WeekHours) {
	for d := time.Monday; d <= time.Friday; d++ {
		week[d] = hours
	}
	return week
}

// said says whether the hours of the site are said.
func (o *Options) said() bool { return calendars.FormatWeek(o.Hours) != "" }

// week are the hours of the site: as said, or guessed.
func (o *Options) week() calendars.WeekHours {
	if o.said() {
		return o.Hours
	}
	return usual
}

// Begins and Ends are the times of day of dates that are said without any: when the site
// opens first and shuts last in a week.
func (o *Options) Begins() calendars.Minutes {
	first := calendars.Day
	for _, day := range o.week() {
		for _, r := range day {
			first = min(first, r.From)
		}
	}
	return first
}

// Ends is when the site shuts last in a week.
func (o *Options) Ends() (last calendars.Minutes) {
	for _, day := range o.week() {
		for _, r := range day {
			last = max(last, r.To)
		}
	}
	return last
}

// day is how long a day of work is: the longest of the week.
func (o *Options) day() (longest calendars.Minutes) {
	for _, day := range o.week() {
		longest = max(longest, open(day))
	}
	return longest
}

// open is how long a day with some hours is.
func open(day []calendars.Range) (sum calendars.Minutes) {
	for _, r := range day {
		sum += r.To - r.From
	}
	return sum
}
