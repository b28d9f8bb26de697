package starters

import (
	"time"

	"build.example/turflast/calendars"
)

// usualWeek are the hours of a site of which nobody says any: 45 h a week.
var usualWeek = func() (week calendars.WeekHours) {
	for d := time.Monday; d <= time.Friday; d++ {
		week[d] = []calendars.Range{{From: 7*calendars.Hour + 30, To: 12 * calendars.Hour},
			{From: 12*calendars.Hour + 30, To: 17 * calendars.Hour}}
	}
	return week
}()

// hoursSaid says whether somebody gave the hours of the site.
func (g *Garden) hoursSaid() bool { return calendars.FormatWeek(g.Hours) != "" }

// week are the hours of the site: as given, or guessed.
func (g *Garden) week() calendars.WeekHours {
	if g.hoursSaid() {
		return g.Hours
	}
	return usualWeek
}

// gateCloses is how long before the site the gate shuts, where the day is long enough.
const gateCloses = 30

// gateOf is when the gate opens and shuts on a day with some hours: without a break at noon.
func gateOf(day []calendars.Range) (opens, shuts calendars.Minutes) {
	opens, shuts = day[0].From, day[len(day)-1].To
	if shuts-opens > 2*calendars.Hour {
		shuts -= gateCloses
	}
	return opens, shuts
}

// gate is when the gate opens and shuts on a date on which the site works; as in a usual week
// on others.
func (g *Garden) gate(d calendars.Date) (opens, shuts calendars.Minutes) {
	day := g.week()[d.Weekday()]
	if len(day) == 0 {
		day = usualWeek[time.Monday]
	}
	return gateOf(day)
}

// gateWeek are the hours of the gate.
func (g *Garden) gateWeek() (week calendars.WeekHours) {
	for d, day := range g.week() {
		if len(day) > 0 {
			opens, shuts := gateOf(day)
			week[d] = []calendars.Range{{From: opens, To: shuts}}
		}
	}
	return week
}

// Begins is the time of day of an opening that is given by its date alone: when the site
// first opens in a week.
func (g *Garden) Begins() calendars.Minutes {
	first := calendars.Day
	for _, day := range g.week() {
		if len(day) > 0 {
			first = min(first, day[0].From)
		}
	}
	return first
}

// Ends is the time of day of a hand-over that is given by its date alone: an hour before the
// site shuts on the day of the week on which it shuts last.
func (g *Garden) Ends() (last calendars.Minutes) {
	for _, day := range g.week() {
		if len(day) > 0 {
			last = max(last, day[len(day)-1].To)
		}
	}
	return max(last-calendars.Hour, g.Begins()+1)
}

// watering is when plants are watered on every day of work: in the first hour of the day that
// begins last, or as much of it as all days have.
func (g *Garden) watering() calendars.Range {
	at := calendars.Range{To: calendars.Day}
	for _, day := range g.week() {
		if len(day) > 0 && day[0].From > at.From {
			at = calendars.Range{From: day[0].From, To: min(day[0].To, day[0].From+calendars.Hour)}
		}
	}
	return at
}
