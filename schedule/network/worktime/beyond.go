package worktime

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// What a late build gets after the hand-over though nobody has booked it. Weekly
// hours and heads run on by themselves, and what is dated after the hand-over holds
// there too; the rest is made up here. Before the opening nothing is.

// beyond is the time line after the hand-over.
func (b builder) beyond() calendars.Span {
	return calendars.Span{Start: b.plan.Site.Handover, End: b.line.End}
}

// upTo is the time line up to the hand-over.
func (b builder) upTo() calendars.Span {
	return calendars.Span{Start: b.line.Start, End: b.plan.Site.Handover}
}

// openings are those of hours over the time line. After the hand-over a date that
// they don't name has the ranges of madeUp, if there are any.
func (b builder) openings(h calendars.Hours, madeUp []calendars.Range, from calendars.HolidayFrom) []calendars.Span {
	loc := b.plan.Site.Location
	if len(madeUp) == 0 {
		return h.Openings(loc, b.line, from)
	}
	open := h.Openings(loc, b.upTo(), from)
	for d := range h.Weekly {
		h.Weekly[d] = madeUp
	}
	return append(open, h.Openings(loc, b.beyond(), from)...)
}

// fullest are the ranges of the dated day with the most open minutes, the first of
// equals; none for hours that have any in the week.
func fullest(h calendars.Hours) []calendars.Range {
	for _, ranges := range h.Weekly {
		if len(ranges) > 0 {
			return nil
		}
	}
	var most []calendars.Range
	for _, on := range h.On {
		if minutes(on.Ranges) > minutes(most) {
			most = on.Ranges
		}
	}
	return most
}

func minutes(ranges []calendars.Range) (sum calendars.Minutes) {
	for _, r := range ranges {
		sum += r.To - r.From
	}
	return sum
}

// runsOn is how many people of a crew there are after the hand-over on dates that
// don't say: those of every week, or without any the fewest that a date has above
// none, and never fewer than one activity needs.
func (b builder) runsOn(id schedule.CrewID) int {
	c := &b.plan.Crews[id]
	people := c.People
	if people == 0 {
		for _, on := range c.PeopleOn {
			if on.People > 0 && (people == 0 || on.People < people) {
				people = on.People
			}
		}
	}
	for a := range b.plan.Activities() {
		for _, need := range b.plan.CrewOf(a) {
			if need.Crew == id {
				people = max(people, need.Least)
			}
		}
	}
	return people
}

// SignOffs are the appointments of a hold point: those that are dated, and after
// the hand-over and the last of them the first open minute of each day of the site.
func (s *Set) SignOffs(dated []calendars.Instant) []calendars.Instant {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.signOffs == nil {
		s.signOffs = s.mornings()
	}
	from := 0
	if n := len(dated); n > 0 {
		from, _ = slices.BinarySearch(s.signOffs, dated[n-1]+1)
	}
	return slices.Concat(dated, s.signOffs[from:])
}

// mornings are the first open minutes of the site's days that begin at or after the
// hand-over.
func (s *Set) mornings() []calendars.Instant {
	out := make([]calendars.Instant, 0, Run/calendars.Day+1)
	loc := s.plan.Site.Location
	for d := calendars.DateIn(s.plan.Site.Handover, loc); ; d++ {
		midnight, _ := calendars.At(loc, d, 0)
		if midnight >= s.Line.End {
			return out
		}
		next, _ := calendars.At(loc, d+1, 0)
		if first := s.Site.Next(midnight); first < next && first >= s.plan.Site.Handover {
			out = append(out, first)
		}
	}
}
