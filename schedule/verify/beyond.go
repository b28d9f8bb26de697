package verify

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// After the hand-over a build gets what nobody has booked: see each function. What
// the plan dates there holds all the same.

// madeUp are the ranges of every date after the hand-over that hours without any in
// the week don't name: those of the named date that is open longest.
func madeUp(h calendars.Hours) []calendars.Range {
	if slices.ContainsFunc(h.Weekly[:], func(day []calendars.Range) bool { return len(day) > 0 }) {
		return nil
	}
	var longest []calendars.Range
	best := calendars.Minutes(0)
	for _, named := range h.On {
		open := calendars.Minutes(0)
		for _, r := range named.Ranges {
			open += r.To - r.From
		}
		if open > best {
			best, longest = open, named.Ranges
		}
	}
	return longest
}

// lateHeads is how many of a crew are there after the hand-over unless a date says
// otherwise: those of the week; of a crew that only dates have, the fewest of them;
// and as many as any one activity can't do without.
func (h *hours) lateHeads(id schedule.CrewID) int {
	n := h.p.Crews[id].People
	if n == 0 {
		fewest := 1 << 30
		for _, on := range h.p.Crews[id].PeopleOn {
			if on.People > 0 && on.People < fewest {
				fewest = on.People
			}
		}
		if fewest < 1<<30 {
			n = fewest
		}
	}
	needs := func(list []schedule.CrewNeed) {
		for _, need := range list {
			if need.Crew == id && need.Least > n {
				n = need.Least
			}
		}
	}
	for i := range h.p.Tasks {
		needs(h.p.Tasks[i].Crew)
	}
	for i := range h.p.Deliveries {
		needs(h.p.Deliveries[i].Unload.Crew)
	}
	return n
}

// late is all time from the hand-over on: a machine that was ours in slots is there
// in all of it.
func (h *hours) late() calendars.Span {
	return calendars.Span{Start: h.p.Site.Handover, End: calendars.Never}
}

// farther are the hours of site and places for a year beyond a moment.
func (c *checker) farther(than calendars.Instant) hours {
	far := hours{p: c.p, holidays: c.hours.holidays}
	far.clock = newClock(c.p.Site.Location,
		calendars.Span{Start: than, End: max(than, c.p.Site.Handover).Plus(52 * calendars.Week)})
	far.site = far.siteHours()
	return far
}

// appointment is when somebody comes to sign work that finishes at a moment and
// stays until the plan's progress or longer. When the dated appointments are used
// up, that is at the first open minute of a day of the site that begins at or after
// the hand-over.
func (c *checker) appointment(hold *schedule.HoldPoint, finish calendars.Instant) calendars.Instant {
	from := max(finish, c.p.Now().Plus(-hold.Takes))
	for _, at := range hold.Appointments {
		if at >= from {
			return at
		}
	}
	from = max(from, c.p.Site.Handover, hold.Appointments[len(hold.Appointments)-1]+1)
	far := c.farther(from)
	for i := range far.clock.days {
		midnight, next := far.clock.at(i, 0), far.clock.at(i, 1440)
		k := far.site.from(midnight)
		if k == len(far.site) {
			break
		}
		if first := max(midnight, far.site[k].Start); first >= from && first < next {
			return first
		}
	}
	return calendars.Never
}
