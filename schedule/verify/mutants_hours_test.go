package verify_test

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// hourMutants start a task in a minute in which one thing that it needs is
// closed, and nothing that is checked before it.
func (x *subject) hourMutants(id schedule.TaskID) {
	if x.work(id) == 0 {
		return
	}
	tried := make(map[string]bool)
	from := x.p.Site.Opens
	if zone := &x.p.Zones[x.p.Tasks[id].Zones[0]]; zone.OffSite {
		from = zone.From
	}
	for t := from; t < x.p.Site.Handover.Plus(4*calendars.Day); t += 30 {
		kind, rule := x.whyClosed(id, t)
		if t >= x.p.Site.Handover && kind != "" {
			kind += " late"
		}
		if kind != "" && !tried[kind] {
			tried[kind] = true
			x.add(kind, rule, func(g *schedule.Programme) {
				d := &g.Tasks[id]
				d.Start, d.Finish = t, max(d.Finish, t+1)
			})
		}
	}
}

// whyClosed says what keeps a task from working in a minute, as a kind of
// mutant, and the rule that this breaks.
func (x *subject) whyClosed(id schedule.TaskID, t calendars.Instant) (kind, rule string) {
	task, hours := &x.p.Tasks[id], x.s.Hours()
	zone := &x.p.Zones[task.Zones[0]]
	if !hours.Places[task.Zones[0]].IsOpen(t) {
		if zone.OffSite {
			return x.whyPlaceClosed(zone.Hours, t, "place"), "place hours"
		}
		return x.whyPlaceClosed(x.p.Site.Hours, t, "site"), "site hours"
	}
	if task.Loud && hours.Loud != nil && !zone.OffSite && !hours.Loud.IsOpen(t) {
		return "loud hours", "loud hours"
	}
	for k, need := range task.Crew {
		if hours.Crews[need.Crew].At(t) < x.g.Tasks[id].Heads[k] {
			return x.whyCrewShort(&x.p.Crews[need.Crew], need.Crew, t), "crew hours"
		}
	}
	for _, need := range task.Machines {
		if m := hours.Machines[need.Machine]; m != nil && m.At(t) < need.Count {
			return "machine slot", "machine slots"
		}
	}
	return "", ""
}

// whyPlaceClosed tells closures, holidays and named dates from closed hours.
func (x *subject) whyPlaceClosed(h calendars.Hours, t calendars.Instant, who string) string {
	date := calendars.DateIn(t, x.p.Site.Location)
	minute := calendars.Minutes(t.In(x.p.Site.Location).Hour()*60 + t.In(x.p.Site.Location).Minute())
	inWeek := slices.ContainsFunc(h.Weekly[date.Weekday()],
		func(r calendars.Range) bool { return r.From <= minute && minute < r.To })
	_, named := h.Named(date)
	switch {
	case slices.ContainsFunc(h.Closed, func(c calendars.Closure) bool { return c.Span.Holds(t) }):
		return who + " closure"
	case named && inWeek:
		return "hours_on"
	case !named && inWeek && who == "site":
		return "holiday"
	}
	return who + " closed"
}

func (x *subject) whyCrewShort(c *schedule.Crew, id schedule.CrewID, t calendars.Instant) string {
	date := calendars.DateIn(t, x.p.Site.Location)
	switch {
	case x.s.Hours().Crews[id].At(t) == 0 && c.Hours != nil:
		return "crew closed"
	case slices.ContainsFunc(c.Away, func(a schedule.Away) bool { return a.Span.Holds(t) }):
		return "crew away"
	case slices.ContainsFunc(x.p.Duties, func(d schedule.Duty) bool {
		from, _ := calendars.At(x.p.Site.Location, date, d.At.From)
		to, _ := calendars.At(x.p.Site.Location, date, d.At.To)
		return d.Crew[0].Crew == id && d.From <= date && date <= d.To && from <= t && t < to
	}):
		return "duty"
	case slices.ContainsFunc(c.PeopleOn, func(p schedule.PeopleOn) bool { return p.On == date }):
		return "people_on"
	}
	return "crew closed"
}

// lorryMutants change the dates of a delivery.
func (x *subject) lorryMutants(id schedule.DeliveryID) {
	d, u, takes := &x.p.Deliveries[id], x.g.Unloads[id], x.p.Deliveries[id].Unload.Takes
	own := x.s.Hours().Unload(d)
	move := func(kind, rule string, start calendars.Instant) {
		if start != calendars.Past && start != calendars.Never {
			x.add(kind, rule, func(g *schedule.Programme) {
				u := &g.Unloads[id]
				u.Start, u.Finish = start, start.Plus(takes)
			})
		}
	}
	before := func(at calendars.Instant) calendars.Instant { return own.FitBack(at-1+calendars.Instant(takes), takes) }
	move("arrival", "arrival", before(d.Arrives))
	move("unloading opens", "opens", before(x.p.Site.Opens))
	for _, g := range d.Givens {
		move("delivery given", "given", before(x.p.Givens[g].From))
	}
	for _, l := range d.After {
		b := x.linkBound(x.s.Hours().Site, l)
		kind := "delivery after"
		if d.Out {
			kind = "collection after"
		}
		move(kind, b.rule, before(b.at))
	}
	kind := "booking"
	if d.Movable != nil {
		kind = "movable moved"
	}
	x.add(kind, "booking", func(g *schedule.Programme) { g.Unloads[id].Arrives-- })
	x.add("unloading time", "unloading time", func(g *schedule.Programme) { g.Unloads[id].Finish++ })
	x.closedGate(id, u.Start, move)
}

// closedGate unloads a lorry when the gate, a crew or a machine isn't there.
func (x *subject) closedGate(id schedule.DeliveryID, from calendars.Instant,
	move func(kind, rule string, start calendars.Instant)) {
	hours, unload := x.s.Hours(), &x.p.Deliveries[id].Unload
	tried := make(map[string]bool)
	once := func(kind, rule string, t calendars.Instant) {
		if !tried[kind] {
			tried[kind] = true
			move(kind, rule, t)
		}
	}
	for t := from; t < from.Plus(3*calendars.Day); t += 15 {
		if !hours.Gate.IsOpen(t) {
			kind := "gate closed"
			holds := func(c calendars.Closure) bool { return c.Span.Holds(t) }
			if g := x.p.Site.Gate; g != nil && g.Hours != nil && slices.ContainsFunc(g.Hours.Closed, holds) {
				kind = "gate closure"
			}
			once(kind, "gate hours", t)
		} else if !hours.Gate.IsOpen(t.Plus(unload.Takes) - 1) {
			once("unloading broken", "gate hours", t)
		}
		for _, need := range unload.Crew {
			if hours.Crews[need.Crew].At(t) < need.Least {
				once("unloading crew", "crew hours", t)
			}
		}
		for _, need := range unload.Machines {
			if m := hours.Machines[need.Machine]; m != nil && m.At(t) < need.Count {
				once("unloading machine", "machine slots", t)
			}
		}
	}
}
