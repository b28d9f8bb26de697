package beyond

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// people adds those at work beyond the heads that a crew has, by the week or dated.
func (f *finder) people(id schedule.CrewID) {
	uses := f.uses(func(a schedule.Activity) (n int, throughout bool) {
		t, task := f.Plan.Task(a)
		for k, need := range f.Plan.CrewOf(a) {
			switch {
			case need.Crew != id:
			case task && k < len(f.Programme.Tasks[t].Heads):
				n += f.Programme.Tasks[t].Heads[k]
			default:
				n += need.Least
			}
		}
		return n, false
	})
	f.short(Need{Kind: People, Crew: id, Machine: schedule.None, Zone: schedule.None}, uses, f.there(id))
}

// there are the heads that a crew has after the line, whenever it is open: in hours
// without a week only on the dates that they name. The hours of a crew that keeps the
// site's are the site's to get.
func (f *finder) there(id schedule.CrewID) *calendars.Profile {
	c, line := &f.Plan.Crews[id], f.line()
	open := []calendars.Span{line}
	if c.Hours != nil && datedOnly(*c.Hours) {
		open = c.Hours.Openings(f.Plan.Site.Location, line, nil)
	}
	var changes []calendars.Change
	for _, s := range open {
		changes = append(changes, calendars.Change{Span: s, By: c.People})
		for _, on := range c.PeopleOn {
			day := f.at(on.On, calendars.Range{From: 0, To: calendars.Day})
			if day = (calendars.Span{Start: max(day.Start, s.Start), End: min(day.End, s.End)}); day.Start < day.End {
				changes = append(changes, calendars.Change{Span: day, By: on.People - c.People})
			}
		}
	}
	for _, away := range c.Away {
		n := away.People
		if away.All {
			n = everyone
		}
		changes = append(changes, calendars.Change{Span: away.Span, By: -n})
	}
	for _, duty := range f.Plan.Duties {
		for _, need := range duty.Crew {
			for d := duty.From; need.Crew == id && d <= duty.To; d++ {
				changes = append(changes, calendars.Change{Span: f.at(d, duty.At), By: -need.Least})
			}
		}
	}
	return calendars.NewProfile(changes)
}

// everyone is more heads than any crew has.
const everyone = 1 << 20

// line is the time in which needs are looked for.
func (f *finder) line() calendars.Span { return calendars.Span{Start: f.from, End: f.Hours.Line.End} }

// at is a range of a date as a span.
func (f *finder) at(d calendars.Date, r calendars.Range) calendars.Span {
	from, _ := calendars.At(f.Plan.Site.Location, d, r.From)
	to, _ := calendars.At(f.Plan.Site.Location, d, r.To)
	return calendars.Span{Start: from, End: to}
}

// datedOnly says whether hours have dates and nothing in the week, so that they would
// end with the last date.
func datedOnly(h calendars.Hours) bool {
	for _, day := range h.Weekly {
		if len(day) > 0 {
			return false
		}
	}
	return len(h.On) > 0
}

// places adds the hours worked in which site, gate or a place off site has no hours.
func (f *finder) places() {
	site := &f.Plan.Site
	if site.Gate != nil && site.Gate.Hours != nil {
		f.closed(Need{Kind: GateOpen, Zone: schedule.None}, *site.Gate.Hours, f.unloads)
	}
	f.closed(Need{Kind: SiteOpen, Zone: schedule.None}, site.Hours, func(a schedule.Activity) bool {
		t, task := f.Plan.Task(a)
		return task && !f.Plan.OffSite(&f.Plan.Tasks[t]) || !task && (site.Gate == nil || site.Gate.Hours == nil)
	})
	for z := range f.Plan.Zones {
		if f.Plan.Zones[z].OffSite {
			f.closed(Need{Kind: PlaceOpen, Zone: schedule.ZoneID(z)}, f.Plan.Zones[z].Hours, func(a schedule.Activity) bool {
				t, task := f.Plan.Task(a)
				return task && f.Plan.Tasks[t].Zones[0] == schedule.ZoneID(z)
			})
		}
	}
}

func (f *finder) unloads(a schedule.Activity) bool {
	_, lorry := f.Plan.Delivery(a)
	return lorry
}

// closed adds a need for each stretch worked by those who keep the hours, outside them,
// if nothing in the week makes them run on.
func (f *finder) closed(need Need, h calendars.Hours, keeps func(schedule.Activity) bool) {
	if !datedOnly(h) {
		return
	}
	uses := f.uses(func(a schedule.Activity) (int, bool) {
		if keeps(a) {
			return 1, false
		}
		return 0, false
	})
	var all []calendars.Span
	for _, u := range uses {
		all = append(all, u.spans...)
	}
	var open []calendars.Closure
	for _, s := range h.Openings(f.Plan.Site.Location, f.line(), nil) {
		open = append(open, calendars.Closure{Span: s})
	}
	need.Crew, need.Machine = schedule.None, schedule.None
	for s := range calendars.New(all).Openings(calendars.Past, calendars.Never) {
		for _, part := range calendars.Without([]calendars.Span{s}, open) {
			need.Span, need.Work = part, users(uses, part)
			f.found = append(f.found, need)
		}
	}
}

// signOffs adds the appointments of hold points that come after the last that the plan
// dates.
func (f *finder) signOffs() {
	for i := range f.Plan.Tasks {
		hold, d := f.Plan.Tasks[i].Hold, &f.Programme.Tasks[i]
		if hold == nil || len(hold.Appointments) == 0 || !d.Signed.IsReal() || d.Signed < f.from {
			continue
		}
		over := f.Plan.Progress != nil && f.Plan.Progress.Tasks[i].Signed != 0
		at := d.Signed.Plus(-hold.Takes)
		if over || at <= hold.Appointments[len(hold.Appointments)-1] {
			continue
		}
		f.found = append(f.found, Need{
			Kind: SignOff, Zone: schedule.None, Crew: schedule.None, Machine: schedule.None,
			Span: calendars.Span{Start: at, End: d.Signed}, Work: []schedule.Activity{schedule.TaskID(i).Activity()},
		})
	}
}
