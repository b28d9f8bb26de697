package use

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
)

// Day is the people who come to the site on a date: to its zones and its gate, not to places
// off site.
type Day struct {
	Date   calendars.Date
	Crews  []int // by CrewID: the most of a crew that are at work at a time
	All    int   // the sum of these: so many people come
	AtOnce int   // the most of all crews together at a time
}

// OnSite counts the people on site day by day, for badges and for welfare, from the first day
// on which anybody works there to the last. Work, unloading and daily duties count; who a
// crew has and doesn't need stays away.
func OnSite(c network.Case) []Day {
	all := onSite(c)
	if len(all) == 0 {
		return nil
	}
	loc := c.Plan.Site.Location
	days := map[calendars.Date][]use{}
	for _, u := range all {
		for d := calendars.DateIn(u.span.Start, loc); d <= calendars.DateIn(u.span.End-1, loc); d++ {
			days[d] = append(days[d], u)
		}
	}
	var out []Day
	for d, today := range days {
		day := Day{Date: d, Crews: make([]int, len(c.Plan.Crews))}
		span := calendars.Span{Start: at(d, 0, c.Plan), End: at(d+1, 0, c.Plan)}
		for crew := range c.Plan.Crews {
			day.Crews[crew] = mostAtOnce(today, span, schedule.CrewID(crew))
			day.All += day.Crews[crew]
		}
		day.AtOnce = mostAtOnce(today, span, schedule.None)
		out = append(out, day)
	}
	slices.SortFunc(out, func(a, b Day) int { return cmp.Compare(a.Date, b.Date) })
	return out
}

// onSite lists what the programme takes of crews on site.
func onSite(c network.Case) []use {
	out := append(onTasks(c), onDuty(c.Plan)...)
	for i := range c.Plan.Deliveries {
		u := &c.Programme.Unloads[i]
		for _, need := range c.Plan.Deliveries[i].Unload.Crew {
			if u.Start.IsReal() {
				out = append(out, use{span: calendars.Span{Start: u.Start, End: u.Finish}, n: need.Least, crew: need.Crew})
			}
		}
	}
	return slices.DeleteFunc(out, func(u use) bool { return u.span.Start >= u.span.End || u.n == 0 })
}

func onTasks(c network.Case) (out []use) {
	for i := range c.Plan.Tasks {
		t, d := &c.Plan.Tasks[i], &c.Programme.Tasks[i]
		if d.Dropped || !d.Start.IsReal() || c.Plan.OffSite(t) {
			continue
		}
		for k, need := range t.Crew {
			for _, s := range d.Work {
				out = append(out, use{span: s, n: d.Heads[k], crew: need.Crew})
			}
		}
	}
	return out
}

func onDuty(p *schedule.Plan) (out []use) {
	for i := range p.Duties {
		duty := &p.Duties[i]
		for d := duty.From; d <= duty.To; d++ {
			s := calendars.Span{Start: at(d, duty.At.From, p), End: at(d, duty.At.To, p)}
			for _, need := range duty.Crew {
				out = append(out, use{span: s, n: need.Least, crew: need.Crew})
			}
		}
	}
	return out
}

// mostAtOnce is the most people of a crew, or of all for None, at a time within a span.
func mostAtOnce(all []use, in calendars.Span, crew schedule.CrewID) int {
	type step struct {
		at calendars.Instant
		by int
	}
	var steps []step
	for _, u := range all {
		if crew == schedule.None || u.crew == crew {
			steps = append(steps, step{max(u.span.Start, in.Start), u.n}, step{min(u.span.End, in.End), -u.n})
		}
	}
	// Who leaves at a moment makes room for who comes then.
	slices.SortFunc(steps, func(a, b step) int { return cmp.Or(cmp.Compare(a.at, b.at), cmp.Compare(a.by, b.by)) })
	now, most := 0, 0
	for _, s := range steps {
		now += s.by
		most = max(most, now)
	}
	return most
}
