package planfile

import (
	"fmt"
	"slices"
	"strings"

	"turflast/calendars"
	"turflast/schedule"
)

// Published guidance on fatigue. Breaks shorter than shiftBreak are part of a
// shift (our own reading: the guidance speaks of shifts and does not say).
//
// Sources: Safe Work Australia, guide for managing the risk of fatigue at
// work, 2013 (figures from memory): shifts of at most 12 h, at least 10 h
// between shifts, at most 50 h a week. Working Time Regulations 1998 (UK) and
// Directive 2003/88/EC (from memory): 11 h of rest in 24, a day off in 7, 48 h
// a week on average.
const (
	shiftBreak = 4 * calendars.Hour
	mostShift  = 12 * calendars.Hour
	mostDays   = 6
)

// guidance holds the figures that differ by country, and their source.
type guidance struct {
	rest, week calendars.Minutes
	source     string
}

const safeWork = "Safe Work Australia, fatigue guide, 2013"

func (r *reader) guidance() guidance {
	site := &r.plan.Site
	country, _, _ := strings.Cut(site.Region, "-")
	zone := site.Location.String()
	switch {
	case country == "GB" || country == "" && zone == "Europe/London":
		return guidance{11 * calendars.Hour, 48 * calendars.Hour, "Working Time Regulations 1998"}
	case slices.Contains([]string{"IE", "FR", "DE", "NL"}, country) || country == "" && strings.HasPrefix(zone, "Europe/"):
		return guidance{11 * calendars.Hour, 48 * calendars.Hour, "Directive 2003/88/EC"}
	}
	return guidance{10 * calendars.Hour, 50 * calendars.Hour, safeWork}
}

// The kinds of fatigue.
const (
	longShift = iota
	shortRest
	noDayOff
	longWeek
)

// finding is one kind of fatigue in the hours of a crew, or of several.
type finding struct {
	kind  int
	worst calendars.Minutes // the longest shift or week, the shortest rest
	first calendars.Date    // where it first shows
	crews []string
}

// meets adds what a second crew's hours show of the same kind.
func (f *finding) meets(other finding) {
	f.first = min(f.first, other.first)
	f.crews = append(f.crews, other.crews...)
	if f.kind == shortRest {
		f.worst = min(f.worst, other.worst)
	} else {
		f.worst = max(f.worst, other.worst)
	}
}

// warnFatigue warns of the hours of crews that published guidance advises
// against: once for each crew with hours of its own and each kind, once for all
// crews that keep the site's.
func (r *reader) warnFatigue() {
	g := r.guidance()
	var shared []finding
	for i := range r.plan.Crews {
		c := &r.plan.Crews[i]
		for _, f := range r.fatigue(r.crewOpenings(schedule.CrewID(i)), g) {
			f.crews = []string{c.ID}
			if c.Hours != nil {
				r.warnOf(f, g, c.Pos)
				continue
			}
			if k := slices.IndexFunc(shared, func(s finding) bool { return s.kind == f.kind }); k >= 0 {
				shared[k].meets(f)
			} else {
				shared = append(shared, f)
			}
		}
	}
	for _, f := range shared {
		r.warnOf(f, g, posOf(r.siteHoursAt))
	}
}

func (r *reader) warnOf(f finding, g guidance, at schedule.Pos) {
	day := dayText(f.first)
	var text, hint string
	switch f.kind {
	case longShift:
		text = fmt.Sprintf("shifts of up to %s, first on %s", length(f.worst), day)
		hint = "guidance is at most 12 h (" + safeWork + ")"
	case shortRest:
		text = fmt.Sprintf("as little as %s between shifts, first before %s", length(f.worst), day)
		hint = fmt.Sprintf("guidance is at least %s (%s)", length(g.rest), g.source)
	case noDayOff:
		text = fmt.Sprintf("more than %d days straight, first from %s", mostDays, day)
		hint = fmt.Sprintf("guidance is a day off in seven (%s)", g.source)
	case longWeek:
		text = fmt.Sprintf("up to %s in seven days, first from %s", length(f.worst), day)
		hint = fmt.Sprintf("guidance is at most %s (%s)", length(g.week), g.source)
	}
	kind := "crew"
	if len(f.crews) > 1 {
		kind = "crews"
	}
	r.warn(at, hint, "hours of %s %s: %s", kind, strings.Join(f.crews, ", "), text)
}

// crewOpenings is the time at which a crew can be at work in the plan.
func (r *reader) crewOpenings(id schedule.CrewID) []calendars.Span {
	site, c := &r.plan.Site, &r.plan.Crews[id]
	line := calendars.Span{Start: site.Opens, End: site.Handover}
	for i := range r.plan.Tasks {
		t := &r.plan.Tasks[i]
		if r.plan.OffSite(t) && slices.ContainsFunc(t.Crew, func(n schedule.CrewNeed) bool { return n.Crew == id }) {
			line.Start = min(line.Start, r.plan.Zones[t.Zones[0]].From)
		}
	}
	hours := site.Hours.Over(c.HoursOn, c.Closed)
	if c.Hours != nil {
		hours = *c.Hours
	}
	open := hours.Over(nil, r.absences(c, line)).Openings(site.Location, line, r.holidayFrom)
	return open
}

// absences lists the times in a line at which a crew has no people.
func (r *reader) absences(c *schedule.Crew, line calendars.Span) []calendars.Closure {
	var none []calendars.Closure
	for _, a := range c.Away {
		if a.All {
			none = append(none, calendars.Closure{Span: a.Span})
		}
	}
	loc := r.plan.Site.Location
	for d, last := calendars.DateIn(line.Start, loc), calendars.DateIn(line.End, loc); d <= last; d++ {
		heads := c.People
		if k := slices.IndexFunc(c.PeopleOn, func(p schedule.PeopleOn) bool { return p.On == d }); k >= 0 {
			heads = c.PeopleOn[k].People
		}
		if heads == 0 {
			none = append(none, calendars.Closure{Span: r.wholeDay(d)})
		}
	}
	return none
}

// holidayFrom is the minute from which a holiday closes a date; a day's length
// when none does.
func (r *reader) holidayFrom(d calendars.Date) calendars.Minutes {
	k, found := slices.BinarySearchFunc(r.plan.Site.Holidays, d, func(h schedule.Holiday, d calendars.Date) int { return int(h.On) - int(d) })
	if !found {
		return calendars.Day
	}
	return r.plan.Site.Holidays[k].From
}

// fatigue finds what guidance advises against in the openings of a crew.
func (r *reader) fatigue(open []calendars.Span, g guidance) []finding {
	var found []finding
	note := func(kind int, size calendars.Minutes, on calendars.Date) {
		f := finding{kind: kind, worst: size, first: on}
		if k := slices.IndexFunc(found, func(f finding) bool { return f.kind == kind }); k >= 0 {
			found[k].meets(f)
		} else {
			found = append(found, f)
		}
	}
	shifts := shiftsOf(open)
	for i, s := range shifts {
		on := calendars.DateIn(s.Start, r.plan.Site.Location)
		if s.Minutes() > mostShift {
			note(longShift, s.Minutes(), on)
		}
		if i == 0 {
			continue
		}
		if rest := calendars.Minutes(s.Start - shifts[i-1].End); rest < g.rest {
			note(shortRest, rest, on)
		}
	}
	days, worked := r.workedDays(open)
	straight := 0
	for i := range days {
		if straight++; i > 0 && days[i] != days[i-1]+1 {
			straight = 1
		}
		if straight > mostDays {
			note(noDayOff, 0, days[i-mostDays])
		}
		if week := weekFrom(days[i:], worked[i:]); week > g.week {
			note(longWeek, week, days[i])
		}
	}
	return found
}

// weekFrom is the time worked in the seven days from the first day on.
func weekFrom(days []calendars.Date, worked []calendars.Minutes) calendars.Minutes {
	week := calendars.Minutes(0)
	for j := 0; j < len(days) && days[j] < days[0]+7; j++ {
		week += worked[j]
	}
	return week
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
func (r *reader) workedDays(open []calendars.Span) (days []calendars.Date, worked []calendars.Minutes) {
	for _, o := range open {
		d := calendars.DateIn(o.Start, r.plan.Site.Location)
		if n := len(days); n > 0 && days[n-1] == d {
			worked[n-1] += o.Minutes()
		} else {
			days, worked = append(days, d), append(worked, o.Minutes())
		}
	}
	return days, worked
}

// dayText is a date as people say it: Tue 4 May.
func dayText(d calendars.Date) string {
	_, month, day := d.Civil()
	return fmt.Sprintf("%s %d %s", d.Weekday().String()[:3], day, month.String()[:3])
}

// length is a length of time as people say it: 3 h 20.
func length(m calendars.Minutes) string {
	switch h, rest := m/calendars.Hour, m%calendars.Hour; {
	case h == 0:
		return fmt.Sprintf("%d m", rest)
	case rest == 0:
		return fmt.Sprintf("%d h", h)
	default:
		return fmt.Sprintf("%d h %02d", h, rest)
	}
}
