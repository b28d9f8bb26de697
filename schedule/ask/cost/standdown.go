package cost

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
)

// Idle is a crew that is here on some days, none of which needs any of it.
type Idle struct {
	Crew    schedule.CrewID
	Days    Days              // and all of its days at work between
	Heads   int               // the most that are here at a time
	Minutes calendars.Minutes // person-minutes that they are here
	Worth   schedule.Money    // of those, at their rates
	// By is when they must be told not to come: their notice before they would, or without
	// one before the day after which the next weekday that is no holiday comes too late.
	By      calendars.Instant
	EndOfBy bool // By is the midnight at which the day ends on which they are told at the latest
}

// StandDown lists the crews that aren't needed on days of the window, in the order of the plan,
// each tried: the programme stands without them on those days. As at a moment it lists only
// those who can still be told.
func StandDown(c network.Case) []Idle {
	var days []Idle
	for i, work := range takenBy(c).crews {
		days = append(days, idleDays(c, schedule.CrewID(i), work)...)
	}
	if !stands(c, without(c.Plan, days)) {
		days = slices.DeleteFunc(days, func(x Idle) bool { return !stands(c, without(c.Plan, []Idle{x})) })
	}
	return joined(c, days)
}

// idleDays are the days on which a crew with some work is here and not needed, each by itself.
func idleDays(c network.Case, id schedule.CrewID, work []stretch) []Idle {
	var out []Idle
	p := c.Plan
	for d := p.Site.Figures().Date(p.Site.Opens); d <= p.Site.Figures().Date(p.Site.Handover); d++ {
		day := whole(p, d)
		needed := func(s stretch) bool { return s.Start < day.End && day.Start < s.End && s.n > 0 }
		if slices.ContainsFunc(work, needed) {
			continue
		}
		x := Idle{Crew: id, Days: Days{d, d}}
		here := calendars.Span{Start: max(day.Start, p.Site.Opens), End: min(day.End, p.Site.Handover)}
		x.count(c, here)
		if x.Heads == 0 {
			continue
		}
		if x.tell(c, here); p.Now() < x.By {
			out = append(out, x)
		}
	}
	return out
}

// count counts the people who are here in a span, and what their time is worth.
func (x *Idle) count(c network.Case, in calendars.Span) {
	crew, week := &c.Plan.Crews[x.Crew], c.Hours.Weekly(x.Crew)
	beyond := calendars.Minutes(0)
	for s, n := range c.Hours.Crews[x.Crew].Steps {
		s = calendars.Span{Start: max(s.Start, in.Start), End: min(s.End, in.End)}
		if s.Start >= s.End || n == 0 {
			continue
		}
		x.Heads = max(x.Heads, n)
		x.Minutes += calendars.Minutes(n) * s.Minutes()
		if week != nil && crew.Overtime > 0 {
			beyond += calendars.Minutes(n) * (s.Minutes() - week.Between(s.Start, s.End))
		}
	}
	x.Worth = crew.Rate.For(x.Minutes-beyond) + crew.Overtime.For(beyond)
}

// tell finds by when they must be told.
func (x *Idle) tell(c network.Case, here calendars.Span) {
	comes := c.Hours.AtWork(x.Crew, 1).Next(here.Start)
	if notice := c.Plan.Crews[x.Crew].Notice; notice != nil {
		x.By = comes.Plus(-*notice)
		return
	}
	told := x.Days.From - 1
	for c.Hours.NextWeekday(whole(c.Plan, told).Start) > whole(c.Plan, x.Days.From).Start {
		told--
	}
	x.By, x.EndOfBy = whole(c.Plan, told).End, true
}

// without is a plan without the crews on their days.
func without(p *schedule.Plan, days []Idle) *schedule.Plan {
	q := *p
	q.Crews = slices.Clone(q.Crews)
	for _, x := range days {
		crew := &q.Crews[x.Crew]
		crew.Away = append(slices.Clip(crew.Away), schedule.Away{
			Span: calendars.Span{Start: whole(p, x.Days.From).Start, End: whole(p, x.Days.To).End}, All: true})
	}
	return &q
}

// joined puts days of a crew together between which it isn't here.
func joined(c network.Case, days []Idle) []Idle {
	var out []Idle
	for _, x := range days {
		if k := len(out) - 1; k >= 0 && out[k].Crew == x.Crew {
			from, to := whole(c.Plan, out[k].Days.To).End, whole(c.Plan, x.Days.From).Start
			if c.Hours.AtWork(x.Crew, 1).Between(from, to) == 0 {
				out[k].Days.To = x.Days.To
				out[k].Heads = max(out[k].Heads, x.Heads)
				out[k].Minutes += x.Minutes
				out[k].Worth += x.Worth
				continue
			}
		}
		out = append(out, x)
	}
	return out
}
