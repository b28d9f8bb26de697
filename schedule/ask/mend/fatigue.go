package mend

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/worktime"
	"build.example/turflast/schedule/safety"
)

// tires says whether a programme makes hours of use that go over guidance on fatigue
// where the hours without them don't. Both are of the same plan but for what was done to
// it. A week that is over guidance as it is says nothing against an hour more of it; a
// shift or a rest does.
func tires(before *worktime.Set, after network.Case) bool {
	guide := safety.GuidanceFor(after.Plan.Site.Region, after.Plan.Site.Location)
	for i := range after.Plan.Crews {
		c := schedule.CrewID(i)
		if before.Crews[i] == after.Hours.Crews[i] {
			continue
		}
		was, now := before.AtWork(c, 1), after.Hours.AtWork(c, 1)
		if !uses(after, c, was) {
			continue
		}
		line := worked(after, c)
		found := safety.Find(present(was, line, after), after.Plan.Site.Location, guide)
		for _, f := range safety.Find(present(now, line, after), after.Plan.Site.Location, guide) {
			same := func(o safety.Finding) bool {
				week := f.Kind == safety.LongWeek || f.Kind == safety.NoDayOff
				return o.Kind == f.Kind && o.From == f.From && (week || o.Size == f.Size)
			}
			if !slices.ContainsFunc(found, same) {
				return true
			}
		}
	}
	return false
}

// uses says whether a crew works in a programme when it wasn't there before.
func uses(c network.Case, crew schedule.CrewID, was *calendars.Calendar) bool {
	for a := range c.Plan.Activities() {
		for _, s := range workOf(c, a) {
			if needs(c.Plan, a, crew) && was.Between(s.Start, s.End) < s.Minutes() {
				return true
			}
		}
	}
	return false
}

// needs says whether an activity needs a crew.
func needs(p *schedule.Plan, a schedule.Activity, crew schedule.CrewID) bool {
	return slices.ContainsFunc(p.CrewOf(a), func(n schedule.CrewNeed) bool { return n.Crew == crew })
}

// workOf lists the stretches in which an activity is worked on.
func workOf(c network.Case, a schedule.Activity) []calendars.Span {
	d := c.Programme.Of(a)
	if !d.Start.IsReal() || !d.Finish.IsReal() || c.Programme.LeavesOut(a) || d.Finish <= d.Start {
		return nil
	}
	if t, ok := c.Plan.Task(a); ok {
		return c.Programme.Tasks[t].Work
	}
	return []calendars.Span{{Start: d.Start, End: d.Finish}}
}

// worked are the dates on which a crew has work.
func worked(c network.Case, crew schedule.CrewID) map[calendars.Date]bool {
	on := make(map[calendars.Date]bool)
	loc := c.Plan.Site.Location
	for a := range c.Plan.Activities() {
		if !needs(c.Plan, a, crew) {
			continue
		}
		for _, s := range workOf(c, a) {
			for d := calendars.DateIn(s.Start, loc); d <= calendars.DateIn(s.End-1, loc); d++ {
				on[d] = true
			}
		}
	}
	return on
}

// present are the hours of a crew on dates on which it has work.
func present(hours *calendars.Calendar, on map[calendars.Date]bool, c network.Case) (out []calendars.Span) {
	for s := range hours.Openings(c.Hours.Line.Start, c.Hours.Line.End) {
		if on[calendars.DateIn(s.Start, c.Plan.Site.Location)] {
			out = append(out, s)
		}
	}
	return out
}
