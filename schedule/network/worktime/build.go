package worktime

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// builder turns hours into openings over the time line of a plan.
type builder struct {
	plan *schedule.Plan
	line calendars.Span
	like *Set // of a plan with the same site and line; nil for none
}

// kept returns the openings of hours that keep the public holidays.
func (b builder) kept(h calendars.Hours) []calendars.Span {
	return b.openings(h, fullest(h), b.holidayFrom())
}

// unkept returns the openings of hours that keep no public holidays.
func (b builder) unkept(h calendars.Hours) []calendars.Span {
	return b.openings(h, fullest(h), nil)
}

func (b builder) holidayFrom() calendars.HolidayFrom {
	from := make(map[calendars.Date]calendars.Minutes, len(b.plan.Site.Holidays))
	for _, h := range b.plan.Site.Holidays {
		m, named := from[h.On]
		if !named || h.From < m {
			from[h.On] = h.From
		}
	}
	return func(d calendars.Date) calendars.Minutes {
		if m, named := from[d]; named {
			return m
		}
		return calendars.Day
	}
}

// gateHours returns the gate's own hours, less the site's closures; own is false
// when the gate has none and keeps the site's calendar.
func (b builder) gateHours() (h calendars.Hours, own bool) {
	gate := b.plan.Site.Gate
	if gate == nil || gate.Hours == nil {
		return calendars.Hours{}, false
	}
	return gate.Hours.Over(nil, b.plan.Site.Hours.Closed), true
}

// crew returns a crew's heads at work over time: in its hours its people on the
// date, less those away or at daily duties, and none outside its hours.
func (b builder) crew(id schedule.CrewID, site []calendars.Span) *calendars.Profile {
	c := &b.plan.Crews[id]
	open := site
	switch {
	case c.Hours != nil:
		open = b.kept(*c.Hours)
	case len(c.HoursOn) > 0 || len(c.Closed) > 0:
		// It keeps the site's hours, so what is made up is the site's too.
		own := b.plan.Site.Hours.Over(c.HoursOn, c.Closed)
		open = b.openings(own, fullest(b.plan.Site.Hours), b.holidayFrom())
	}
	changes := make([]calendars.Change, 0, len(open)+len(c.Away)+1)
	changes = b.people(changes, within(open, b.upTo()), c, c.People)
	changes = b.people(changes, within(open, b.beyond()), c, b.runsOn(id))
	// Outside the hours absences make the sum negative, which counts as none.
	for _, a := range c.Away {
		people := a.People
		if a.All {
			people = everyone
		}
		changes = append(changes, calendars.Change{Span: a.Span, By: -people})
	}
	return calendars.NewProfile(b.duties(changes, id))
}

// people appends the heads of a crew in open spans: those of the date, or usual.
func (b builder) people(
	changes []calendars.Change, open []calendars.Span, c *schedule.Crew, usual int,
) []calendars.Change {
	for _, s := range open {
		changes = append(changes, calendars.Change{Span: s, By: usual})
	}
	for _, on := range c.PeopleOn {
		for _, s := range within(open, b.date(on.On)) {
			changes = append(changes, calendars.Change{Span: s, By: on.People - usual})
		}
	}
	return changes
}

// everyone is more heads than any crew has.
const everyone = 1 << 30

// duties appends the people that daily duties take from a crew.
func (b builder) duties(changes []calendars.Change, id schedule.CrewID) []calendars.Change {
	loc := b.plan.Site.Location
	for _, duty := range b.plan.Duties {
		for _, need := range duty.Crew {
			if need.Crew != id {
				continue
			}
			for d := duty.From; d <= duty.To; d++ {
				from, _ := calendars.At(loc, d, duty.At.From)
				to, _ := calendars.At(loc, d, duty.At.To)
				changes = append(changes, calendars.Change{Span: calendars.Span{Start: from, End: to}, By: -need.Least})
			}
		}
	}
	return changes
}

// date is the span of a civil date.
func (b builder) date(d calendars.Date) calendars.Span {
	from, _ := calendars.At(b.plan.Site.Location, d, 0)
	to, _ := calendars.At(b.plan.Site.Location, d+1, 0)
	return calendars.Span{Start: from, End: to}
}

// within returns the parts of sorted spans that lie within cut.
func within(open []calendars.Span, cut calendars.Span) []calendars.Span {
	var out []calendars.Span
	for _, s := range open {
		if s = (calendars.Span{Start: max(s.Start, cut.Start), End: min(s.End, cut.End)}); s.Start < s.End {
			out = append(out, s)
		}
	}
	return out
}

// machine returns how many machines of a kind are there over time; nil when all of
// them always are. After the hand-over all are, whatever was ours before.
func (b builder) machine(m *schedule.Machine) *calendars.Profile {
	ours := m.Ours
	if len(ours) == 0 {
		if len(m.Away) == 0 {
			return nil
		}
		ours = []calendars.Span{b.line}
	}
	ours = append(slices.Clip(ours), b.beyond())
	var changes []calendars.Change
	for s := range calendars.New(ours).Openings(b.line.Start, b.line.End) {
		changes = append(changes, calendars.Change{Span: s, By: m.Count})
	}
	for s := range calendars.New(m.Away).Openings(b.line.Start, b.line.End) {
		changes = append(changes, calendars.Change{Span: s, By: -m.Count})
	}
	return calendars.NewProfile(changes)
}

// calm returns the time in which work that must be calm may go on, all but windy days and
// the hours that the log calls windy; nil when there are none.
func (b builder) calm() *calendars.Calendar {
	var shut []calendars.Closure
	for _, on := range b.plan.Site.WindyOn {
		shut = append(shut, calendars.Closure{Span: b.date(on)})
	}
	for _, s := range b.plan.Site.WindyFor {
		shut = append(shut, calendars.Closure{Span: s})
	}
	if shut == nil {
		return nil
	}
	return calendars.New(calendars.Without([]calendars.Span{b.line}, shut))
}

// mild returns the time in which work that must be mild may go on, all but frost and heat; nil
// when there was none.
func (b builder) mild() *calendars.Calendar {
	if len(b.plan.Site.Harsh) == 0 {
		return nil
	}
	var shut []calendars.Closure
	for _, h := range b.plan.Site.Harsh {
		shut = append(shut, calendars.Closure{Span: h.Span})
	}
	return calendars.New(calendars.Without([]calendars.Span{b.line}, shut))
}

// dry returns the time in which work that must be dry may go on at a place. A wet
// day has none. On the day after, it begins when the drying time has passed on the
// clock since the place opened. Hours that the log calls wet have none.
func (b builder) dry(d drying) *calendars.Calendar {
	var shut []calendars.Closure
	for _, on := range b.plan.Site.WetOn {
		shut = append(shut, calendars.Closure{Span: b.date(on)})
		for s := range d.place.Openings(b.date(on+1).Start, b.date(on+1).End) {
			shut = append(shut, calendars.Closure{Span: calendars.Span{Start: s.Start, End: s.Start.Plus(d.wait)}})
			break
		}
	}
	for _, s := range b.plan.Site.WetFor {
		shut = append(shut, calendars.Closure{Span: s})
	}
	return calendars.New(calendars.Without([]calendars.Span{b.line}, shut))
}
