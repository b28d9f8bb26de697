package safety

import (
	"slices"
	"strings"
	"time"

	"build.example/turflast/calendars"
)

// shiftBreak is the length from which a break ends a shift. The guidance speaks
// of shifts and does not say, so this is our own reading.
const shiftBreak = 4 * calendars.Hour

// MostShift is the longest shift that guidance advises, and MostDays the most days
// straight.
//
// Sources: Safe Work Australia, guide for managing the risk of fatigue at
// work, 2013 (figures from memory): shifts of at most 12 h, at least 10 h
// between shifts, at most 50 h a week. Working Time Regulations 1998 (UK) and
// Directive 2003/88/EC (from memory): 11 h of rest in 24, a day off in 7, 48 h
// a week on average.
const (
	MostShift = 12 * calendars.Hour
	MostDays  = 6
)

// Guidance holds the figures that differ by country, and their source.
type Guidance struct {
	Rest   calendars.Minutes // the least between shifts
	Week   calendars.Minutes // the most in seven days
	Source string
}

// ShiftSource is where [MostShift] comes from.
const ShiftSource = "Safe Work Australia, fatigue guide, 2013"

// GuidanceFor is the guidance for a site: by the country of its holidays, else by its clock.
func GuidanceFor(region string, clock *time.Location) Guidance {
	country, _, _ := strings.Cut(region, "-")
	zone := clock.String()
	switch {
	case country == "GB" || country == "" && zone == "Europe/London":
		return Guidance{11 * calendars.Hour, 48 * calendars.Hour, "Working Time Regulations 1998"}
	case slices.Contains([]string{"IE", "FR", "DE", "NL"}, country) || country == "" && strings.HasPrefix(zone, "Europe/"):
		return Guidance{11 * calendars.Hour, 48 * calendars.Hour, "Directive 2003/88/EC"}
	}
	return Guidance{10 * calendars.Hour, 50 * calendars.Hour, ShiftSource}
}

// Kind is a kind of fatigue.
type Kind uint8

// The kinds of fatigue.
const (
	LongShift Kind = iota
	ShortRest
	NoDayOff
	LongWeek
)

// Finding is something in hours of work that guidance advises against.
type Finding struct {
	Kind     Kind
	Size     calendars.Minutes // the length of the shift, the rest or the week; of NoDayOff zero
	From, To calendars.Date    // the first and last date of it; of ShortRest both the date of the shift that follows
}

// Find lists what guidance advises against in sorted hours of work, with dates
// as the clocks of loc show them: each long shift and short rest, each day
// without a day off in the seven before it, and each day from which seven days
// add up to too much. The findings are in order of kind, then of time.
func Find(open []calendars.Span, loc *time.Location, g Guidance) []Finding {
	var found []Finding
	shifts := shiftsOf(open)
	for i, s := range shifts {
		on := calendars.DateIn(s.Start, loc)
		if s.Minutes() > MostShift {
			found = append(found, Finding{LongShift, s.Minutes(), on, on})
		}
		if i == 0 {
			continue
		}
		if rest := calendars.Minutes(s.Start - shifts[i-1].End); rest < g.Rest {
			found = append(found, Finding{ShortRest, rest, on, on})
		}
	}
	days, worked := workedDays(open, loc)
	straight := 0
	for i := range days {
		if straight++; i > 0 && days[i] != days[i-1]+1 {
			straight = 1
		}
		if straight > MostDays {
			found = append(found, Finding{NoDayOff, 0, days[i-MostDays], days[i]})
		}
		if week, last := weekFrom(days[i:], worked[i:]); week > g.Week {
			found = append(found, Finding{LongWeek, week, days[i], last})
		}
	}
	return found
}

// weekFrom is the time worked in the seven days from the first day on, and the
// last of these days with any work.
func weekFrom(days []calendars.Date, worked []calendars.Minutes) (week calendars.Minutes, last calendars.Date) {
	for j := 0; j < len(days) && days[j] < days[0]+7; j++ {
		week += worked[j]
		last = days[j]
	}
	return week, last
}

// shiftsOf joins openings with no more than a break between them.
func shiftsOf(open []calendars.Span) []calendars.Span {
	var shifts []calendars.Span
	for _, o := range open {
		if n := len(shifts); n > 0 && calendars.Minutes(o.Start-shifts[n-1].End) < shiftBreak {
			shifts[n-1].End = o.End
		} else {
			shifts = append(shifts, o)
		}
	}
	return shifts
}

// workedDays are the dates on which openings start, rising, and the time open
// from then on.
func workedDays(open []calendars.Span, loc *time.Location) (days []calendars.Date, worked []calendars.Minutes) {
	for _, o := range open {
		d := calendars.DateIn(o.Start, loc)
		if n := len(days); n > 0 && days[n-1] == d {
			worked[n-1] += o.Minutes()
		} else {
			days, worked = append(days, d), append(worked, o.Minutes())
		}
	}
	return days, worked
}
