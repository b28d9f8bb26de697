package progress

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/site/sitelog"
)

// people sets how many turned up: on a logged date, or for a logged part of one, a crew has as
// many people as the log said last, even if some were to be away.
func (b *build) people() {
	if len(b.State.People) == 0 {
		return
	}
	b.p.Crews = slices.Clone(b.p.Crews)
	for i := range b.p.Crews {
		c := &b.p.Crews[i]
		for k := range b.State.People {
			e := &b.State.People[k]
			switch {
			case e.Crew != c.ID:
			case e.WholeDay():
				peopleOn(c, e.Date, e.People)
				c.Away = awayBeside(c.Away, b.date(e.Date))
			default:
				b.partly(c, e)
			}
		}
	}
}

// peopleOn sets how many of a crew there are on a date.
func peopleOn(c *schedule.Crew, on calendars.Date, people int) {
	c.PeopleOn = slices.Clone(c.PeopleOn)
	k, said := slices.BinarySearchFunc(c.PeopleOn, on,
		func(p schedule.PeopleOn, d calendars.Date) int { return int(p.On - d) })
	if said {
		c.PeopleOn[k].People = people
	} else {
		c.PeopleOn = slices.Insert(c.PeopleOn, k, schedule.PeopleOn{On: on, People: people})
	}
}

// partly sets how many of a crew were there for a part of a date. In the rest of it they are as
// they were: where more came than there are otherwise, the date has as many, and those are away
// outside the part.
func (b *build) partly(c *schedule.Crew, e *sitelog.Event) {
	usual, part, day := c.People, b.about(e), b.date(e.Date)
	for _, on := range c.PeopleOn {
		if on.On == e.Date {
			usual = on.People
		}
	}
	away := awayBeside(c.Away, part)
	add := func(from, until calendars.Instant, people int) {
		if people > 0 && from < until {
			away = append(away, schedule.Away{Span: calendars.Span{Start: from, End: until}, People: people})
		}
	}
	if more := e.People - usual; more > 0 {
		peopleOn(c, e.Date, e.People)
		add(day.Start, part.Start, more)
		add(part.End, day.End, more)
	}
	add(part.Start, part.End, usual-e.People)
	c.Away = away
}

// awayBeside returns absences without what of them lies within a span.
func awayBeside(all []schedule.Away, in calendars.Span) (out []schedule.Away) {
	for _, a := range all {
		before := calendars.Span{Start: a.Span.Start, End: min(a.Span.End, in.Start)}
		after := calendars.Span{Start: max(a.Span.Start, in.End), End: a.Span.End}
		for _, part := range [...]calendars.Span{before, after} {
			if part.Start < part.End {
				a.Span = part
				out = append(out, a)
			}
		}
	}
	return out
}

// worked returns the time in which all of a task's heads worked on it, and the time beside that
// in which the fewest that it allows did: when fewer than its heads were there, by the log.
func (b *build) worked(t *schedule.Task, heads []int, within calendars.Span,
	pauses []calendars.Span) (full, few []calendars.Span) {
	full = Worked(b.hours.Task(t, heads), within, pauses)
	least := make([]int, len(t.Crew))
	for k, need := range t.Crew {
		least[k] = need.Least
	}
	if slices.Equal(least, heads) {
		return full, nil
	}
	own := b.hours.Task(t, least)
	var beside []calendars.Closure
	for _, s := range full {
		beside = append(beside, calendars.Closure{Span: s})
	}
	for _, short := range b.short(t, heads) {
		part := Worked(own, calendars.Span{Start: max(within.Start, short.Start), End: min(within.End, short.End)}, pauses)
		few = append(few, calendars.Without(part, beside)...)
	}
	return full, few
}

// short lists the times for which fewer were there than a task's heads, apart from each other.
func (b *build) short(t *schedule.Task, heads []int) []calendars.Span {
	var out []calendars.Span
	for i := range b.State.People {
		e := &b.State.People[i]
		k := slices.IndexFunc(t.Crew, func(n schedule.CrewNeed) bool { return b.p.Crews[n.Crew].ID == e.Crew })
		if k >= 0 && e.People < heads[k] {
			out = append(out, b.about(e))
		}
	}
	return joined(out)
}
