package planfile

import (
	"fmt"
	"slices"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/safety"
)

// finding is one kind of fatigue in the hours of a crew, or of several.
type finding struct {
	kind  safety.Kind
	worst calendars.Minutes // the longest shift or week, the shortest rest
	first calendars.Date    // where it first shows
	crews []string
}

// meets merges the finding of the same kind of a second crew.
func (f *finding) meets(other finding) {
	f.first = min(f.first, other.first)
	f.crews = append(f.crews, other.crews...)
	if f.kind == safety.ShortRest {
		f.worst = min(f.worst, other.worst)
	} else {
		f.worst = max(f.worst, other.worst)
	}
}

// warnFatigue warns of the hours of crews that published guidance advises
// against: once for each crew with hours of its own and each kind, once for all
// crews that keep the site's.
func (r *reader) warnFatigue() {
	loc := r.plan.Site.Location
	g := safety.GuidanceFor(r.plan.Site.Region, loc)
	var shared []finding
	for i := range r.plan.Crews {
		c := &r.plan.Crews[i]
		for _, f := range worstOf(safety.Find(r.crewOpenings(schedule.CrewID(i)), loc, g)) {
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

func (r *reader) warnOf(f finding, g safety.Guidance, at schedule.Pos) {
	day := dayText(f.first)
	var text, hint string
	switch f.kind {
	case safety.LongShift:
		text = fmt.Sprintf("shifts of up to %s, first on %s", calendars.WorkText(f.worst), day)
		hint = "guidance is at most 12 h (" + safety.ShiftSource + ")"
	case safety.ShortRest:
		text = fmt.Sprintf("as little as %s between shifts, first before %s", calendars.WorkText(f.worst), day)
		hint = fmt.Sprintf("guidance is at least %s (%s)", calendars.WorkText(g.Rest), g.Source)
	case safety.NoDayOff:
		text = fmt.Sprintf("more than %d days straight, first from %s", safety.MostDays, day)
		hint = fmt.Sprintf("guidance is a day off in seven (%s)", g.Source)
	case safety.LongWeek:
		text = fmt.Sprintf("up to %s in seven days, first from %s", calendars.WorkText(f.worst), day)
		hint = fmt.Sprintf("guidance is at most %s (%s)", calendars.WorkText(g.Week), g.Source)
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
	k, found := slices.BinarySearchFunc(r.plan.Site.Holidays, d,
		func(h schedule.Holiday, d calendars.Date) int { return int(h.On) - int(d) })
	if !found {
		return calendars.Day
	}
	return r.plan.Site.Holidays[k].From
}

// worstOf sums up the findings of a crew: the worst of each kind, and where the
// kind first shows.
func worstOf(all []safety.Finding) []finding {
	var found []finding
	for _, f := range all {
		one := finding{kind: f.Kind, worst: f.Size, first: f.From}
		if k := slices.IndexFunc(found, func(g finding) bool { return g.kind == f.Kind }); k >= 0 {
			found[k].meets(one)
		} else {
			found = append(found, one)
		}
	}
	return found
}

// dayText is a date as people say it: Tue 4 May.
func dayText(d calendars.Date) string {
	_, month, day := d.Civil()
	return fmt.Sprintf("%s %d %s", d.Weekday().String()[:3], day, month.String()[:3])
}
