package verify

import (
	"slices"
	"time"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// hours say when each place, crew and machine is available over the days of a
// programme.
type hours struct {
	p        *schedule.Plan
	clock    clock
	holidays map[calendars.Date]calendars.Minutes // the minute from which a date is closed

	site, gate open
	loud       open     // meaningless when the plan has no loud hours
	places     []open   // by zone; the site's on site
	crews      [][]team // by crew
	ours       []open   // by machine; nil when it is there in all hours
	away       []open   // by machine: when it is away from those hours
}

// team is the heads of a crew at work over a span; none at work leaves no team.
type team struct {
	span  calendars.Span
	heads int
}

func hoursOf(p *schedule.Plan, s calendars.Span) hours {
	h := hours{p: p, clock: newClock(p.Site.Location, s), holidays: map[calendars.Date]calendars.Minutes{}}
	for _, day := range p.Site.Holidays {
		if from, found := h.holidays[day.On]; !found || day.From < from {
			h.holidays[day.On] = day.From
		}
	}
	h.site = h.siteHours()
	h.gate = h.site
	if p.Site.Gate != nil && p.Site.Gate.Hours != nil {
		h.gate = h.own(*p.Site.Gate.Hours, true).without(p.Site.Hours.Closed)
	}
	if p.Site.Loud != nil {
		h.loud = h.build(*p.Site.Loud, nil, nil, false)
	}
	for z := range p.Zones {
		h.places = append(h.places, h.placeOf(&p.Zones[z]))
	}
	for i := range p.Crews {
		h.crews = append(h.crews, h.teams(schedule.CrewID(i)))
	}
	for i := range p.Machines {
		h.ours = append(h.ours, join(append(slices.Clone(p.Machines[i].Ours), h.late())))
		h.away = append(h.away, join(slices.Clone(p.Machines[i].Away)))
	}
	return h
}

// gateShuts is the end of the opening of the gate to which a lorry that comes at a
// moment belongs: the one that holds it, or the next. Breaks of an hour or less
// are part of an opening, and none begins before the site opens.
func (h *hours) gateShuts(arrives calendars.Instant) calendars.Instant {
	arrives = max(arrives, h.p.Site.Opens)
	i := h.gate.from(arrives)
	if i == len(h.gate) {
		return calendars.Never
	}
	for i+1 < len(h.gate) && h.gate[i+1].Start-h.gate[i].End <= 60 {
		i++
	}
	return h.gate[i].End
}

func (h *hours) placeOf(z *schedule.Zone) open {
	if !z.OffSite {
		return h.site
	}
	return h.own(z.Hours, false)
}

func (h *hours) siteHours() open { return h.own(h.p.Site.Hours, true) }

// own are hours that somebody keeps for themselves.
func (h *hours) own(of calendars.Hours, keepsHolidays bool) open {
	return h.build(of.Weekly, of.On, madeUp(of), keepsHolidays).without(of.Closed)
}

// build steps through the days. A date that is named has its own ranges, even
// on a holiday; a holiday closes any other date from its minute on. After the
// hand-over a date that isn't named has the ranges made up as well.
func (h *hours) build(
	weekly calendars.WeekHours, named []calendars.DayHours, late []calendars.Range, keepsHolidays bool,
) open {
	var spans open
	for i := range h.clock.days {
		date := h.clock.first + calendars.Date(i)
		ranges, more, until := weekly[weekday(date)], late, calendars.Minutes(1440)
		if own := slices.IndexFunc(named, func(n calendars.DayHours) bool { return n.On == date }); own >= 0 {
			ranges, more = named[own].Ranges, nil
		} else if from, found := h.holidays[date]; found && keepsHolidays {
			until = from
		}
		for _, r := range ranges {
			if to := min(r.To, until); r.From < to {
				spans = append(spans, calendars.Span{Start: h.clock.at(i, r.From), End: h.clock.at(i, to)})
			}
		}
		for _, r := range more {
			from := max(h.clock.at(i, r.From), h.p.Site.Handover)
			spans = append(spans, calendars.Span{Start: from, End: h.clock.at(i, min(r.To, until))})
		}
	}
	return join(spans)
}

func weekday(d calendars.Date) time.Weekday {
	return time.Unix(int64(d)*86400, 0).UTC().Weekday()
}

// crewHours are a crew's own hours, or without any the site's with the crew's
// own dates and closures on top.
func (h *hours) crewHours(c *schedule.Crew) open {
	if c.Hours != nil {
		return h.own(*c.Hours, true)
	}
	if len(c.HoursOn) == 0 {
		return h.site.without(c.Closed)
	}
	site := h.p.Site.Hours
	named := slices.Concat(c.HoursOn, site.On)
	return h.build(site.Weekly, named, madeUp(site), true).without(site.Closed).without(c.Closed)
}

// teams cuts a crew's hours wherever its heads may change and counts those at
// work in each piece.
func (h *hours) teams(id schedule.CrewID) []team {
	c := &h.p.Crews[id]
	people, less := h.peopleOn(c), h.dutiesOf(id)
	for _, a := range c.Away {
		n := a.People
		if a.All {
			n = 1 << 30
		}
		less = append(less, team{a.Span, n})
	}
	late, cuts := h.lateHeads(id), []calendars.Instant{h.p.Site.Handover}
	for _, change := range slices.Concat(people, less) {
		cuts = append(cuts, change.span.Start, change.span.End)
	}
	slices.Sort(cuts)
	var out []team
	for _, s := range h.crewHours(c) {
		for s.Start < s.End {
			end := s.End
			if i, _ := slices.BinarySearch(cuts, s.Start+1); i < len(cuts) {
				end = min(end, cuts[i])
			}
			usual := c.People
			if h.late().Holds(s.Start) {
				usual = late
			}
			if n := headsAt(s.Start, usual, people, less); n > 0 {
				out = append(out, team{calendars.Span{Start: s.Start, End: end}, n})
			}
			s.Start = end
		}
	}
	return out
}

// headsAt is how many of a crew of n are at work at t.
func headsAt(t calendars.Instant, n int, people, less []team) int {
	for _, on := range people {
		if on.span.Holds(t) {
			n = on.heads
		}
	}
	for _, l := range less {
		if l.span.Holds(t) {
			n -= l.heads
		}
	}
	return n
}

// dutiesOf lists the heads that daily duties take off a crew.
func (h *hours) dutiesOf(id schedule.CrewID) []team {
	var out []team
	for _, duty := range h.p.Duties {
		for _, need := range duty.Crew {
			if need.Crew != id {
				continue
			}
			for i := range h.clock.days {
				if date := h.clock.first + calendars.Date(i); date >= duty.From && date <= duty.To {
					s := calendars.Span{Start: h.clock.at(i, duty.At.From), End: h.clock.at(i, duty.At.To)}
					out = append(out, team{s, need.Most})
				}
			}
		}
	}
	return out
}

// peopleOn lists the dates on which a crew's headcount is another.
func (h *hours) peopleOn(c *schedule.Crew) []team {
	var out []team
	for _, on := range c.PeopleOn {
		if i := int(on.On - h.clock.first); i >= 0 && i < len(h.clock.days) {
			out = append(out, team{calendars.Span{Start: h.clock.at(i, 0), End: h.clock.at(i, 1440)}, on.People})
		}
	}
	return out
}

// atWork is the part of o in which a crew has n heads or more at work.
func (h *hours) atWork(o open, crew schedule.CrewID, n int) open {
	if len(o) == 0 {
		return nil
	}
	teams := h.crews[crew]
	i, _ := slices.BinarySearchFunc(teams, o[0].Start,
		func(t team, at calendars.Instant) int { return int(t.span.End) - int(at) - 1 })
	var there open
	for ; i < len(teams) && teams[i].span.Start < o[len(o)-1].End; i++ {
		if teams[i].heads >= n {
			there = there.with(teams[i].span)
		}
	}
	return o.meet(there)
}

// worked is the part of a span in which work can be done at a place by these
// heads of each crew with these machines.
func (h *hours) worked(place open, s calendars.Span, crew []schedule.CrewNeed,
	heads []int, machines []schedule.MachineNeed) open {
	o := open{s}.meet(place)
	for k, need := range crew {
		o = h.atWork(o, need.Crew, heads[k])
	}
	for _, need := range machines {
		if len(h.p.Machines[need.Machine].Ours) > 0 {
			o = o.meet(h.ours[need.Machine])
		}
		o = o.less(h.away[need.Machine])
	}
	return o
}

// windy is the time in which work that must be calm stands still: the windy days, and the
// windy hours of the log.
func (h *hours) windy() open {
	spans := open(slices.Clone(h.p.Site.WindyFor))
	for _, d := range h.p.Site.WindyOn {
		if i := int(d - h.clock.first); i >= 0 && i < len(h.clock.days) {
			spans = append(spans, calendars.Span{Start: h.clock.at(i, 0), End: h.clock.at(i, 1440)})
		}
	}
	return join(spans)
}

// harsh is the time in which work that must be mild stands still: the frost and the heat of
// the log.
func (h *hours) harsh() open {
	var spans open
	for _, x := range h.p.Site.Harsh {
		spans = append(spans, x.Span)
	}
	return join(spans)
}

// wet is the time in which a task that must be dry stands still at its place: the
// wet days, the next morning from its first open minute until the place has
// dried, for which the task's own word counts before the site's, and the wet hours
// of the log.
func (h *hours) wet(place open, t *schedule.Task) open {
	spans, dries := open(slices.Clone(h.p.Site.WetFor)), calendars.Minutes(0)
	switch {
	case t.Dries != nil:
		dries = *t.Dries
	case h.p.Site.Wet != nil:
		dries = h.p.Site.Wet.Dries
	}
	for _, d := range h.p.Site.WetOn {
		i := int(d - h.clock.first)
		if i+1 < 0 || i >= len(h.clock.days) {
			continue
		}
		if i >= 0 {
			spans = append(spans, calendars.Span{Start: h.clock.at(i, 0), End: h.clock.at(i, 1440)})
		}
		if i+1 >= len(h.clock.days) || dries == 0 {
			continue
		}
		morning, night := h.clock.at(i+1, 0), h.clock.at(i+1, 1440)
		if k := place.from(morning); k < len(place) && place[k].Start < night {
			first := max(morning, place[k].Start)
			spans = append(spans, calendars.Span{Start: first, End: first.Plus(dries)})
		}
	}
	return join(spans)
}
