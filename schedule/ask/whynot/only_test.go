package whynot_test

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/whynot"
	"build.example/turflast/schedule/network/worktime"
)

// twin is a plan being changed so that only some facts hold, all said as its file could
// say it. It is not ok when a plan can't say that.
type twin struct {
	p     schedule.Plan
	was   *schedule.Plan
	facts []whynot.Fact
	ok    bool
}

// only is a plan in which nothing but facts hold, and all is to be done by a moment.
func only(was *schedule.Plan, facts []whynot.Fact, by calendars.Instant) (*schedule.Plan, bool) {
	x := &twin{p: *was, was: was, facts: facts, ok: true}
	x.p.Site.Handover, x.p.Site.Aim = min(by, was.Site.Handover), 0
	x.p.Tasks, x.p.Deliveries = slices.Clone(was.Tasks), slices.Clone(was.Deliveries)
	x.p.Crews, x.p.Machines = slices.Clone(was.Crews), slices.Clone(was.Machines)
	x.p.Zones, x.p.Rules, x.p.Duties = slices.Clone(was.Zones), slices.Clone(was.Rules), slices.Clone(was.Duties)
	x.apart()
	x.hours()
	x.crews(by)
	x.links()
	for t := range x.p.Tasks {
		x.task(schedule.TaskID(t))
	}
	for d := range x.p.Deliveries {
		x.delivery(schedule.DeliveryID(d))
	}
	x.room()
	x.own()
	return &x.p, x.ok
}

func (x *twin) has(kind whynot.Kind, same func(*whynot.Fact) bool) bool {
	return slices.ContainsFunc(x.facts, func(f whynot.Fact) bool { return f.Kind == kind && (same == nil || same(&f)) })
}

func (x *twin) about(kind whynot.Kind, a schedule.Activity) bool {
	return x.has(kind, func(f *whynot.Fact) bool { return f.Activity == a })
}

func (x *twin) apart() {
	x.ok = x.ok && !x.has(whynot.Alone, nil)
	for t := range x.p.Tasks {
		x.p.Tasks[t].Apart, x.p.Tasks[t].Clears, x.p.Tasks[t].Closes.Timed = nil, nil, false
	}
	for r := range x.p.Rules {
		if x.p.Rules[r].Kind == schedule.Apart {
			x.p.Rules[r].First, x.p.Rules[r].Then = nil, nil
		}
	}
}

func always() calendars.Hours {
	var h calendars.Hours
	for d := range h.Weekly {
		h.Weekly[d] = []calendars.Range{{From: 0, To: calendars.Day}}
	}
	return h
}

func (x *twin) hours() {
	s, opened := &x.p.Site, false
	if !x.has(whynot.SiteHours, nil) {
		x.ok = x.ok && len(s.Holidays) == 0 && (s.Gate == nil || s.Gate.Hours == nil || len(s.Hours.Closed) == 0)
		for c := range x.p.Crews {
			x.ok = x.ok && x.p.Crews[c].HoursOn == nil && x.p.Crews[c].Closed == nil
		}
		s.Hours, opened = always(), true
	}
	if s.Gate != nil && s.Gate.Hours != nil && !x.has(whynot.GateHours, nil) {
		x.ok = x.ok && len(s.Hours.Closed) == 0 && len(s.Holidays) == 0
		gate, hours := *s.Gate, always()
		gate.Hours = &hours
		s.Gate = &gate
	}
	if !x.has(whynot.LoudHours, nil) {
		s.Loud = nil
	}
	for z := range x.p.Zones {
		if x.p.Zones[z].OffSite && !x.has(whynot.ZoneHours, func(f *whynot.Fact) bool { return int(f.Zone) == z }) {
			x.p.Zones[z].Hours, opened = always(), true
		}
	}
	for m := range x.p.Machines {
		if !x.has(whynot.MachineHours, func(f *whynot.Fact) bool { return int(f.Machine) == m }) {
			x.p.Machines[m].Ours = nil
		}
	}
	for t := range x.was.Tasks {
		for _, l := range x.was.Tasks[t].After { // these run in the hours of places, which stay
			x.ok = x.ok && (!opened || l.Wait.Kind != schedule.Lag || l.Wait.Time == 0)
		}
		h := x.was.Tasks[t].Hold
		x.ok = x.ok && (!opened || h == nil || h.Takes == 0 || h.OnTheClock || h.Appointments != nil)
	}
}

func (x *twin) crews(by calendars.Instant) {
	hours := worktime.New(x.was)
	for c := range x.p.Crews {
		// Heads made up after the line depend on what all activities need.
		x.ok = x.ok && (by <= x.was.Site.Handover || x.was.Crews[c].People > 0)
		kept := x.has(whynot.CrewHours, func(f *whynot.Fact) bool { return int(f.Crew) == c })
		if kept || !hours.Varies(schedule.CrewID(c)) {
			continue
		}
		own, crew := always(), &x.p.Crews[c]
		crew.Hours, crew.HoursOn, crew.Closed, crew.Away, crew.PeopleOn = &own, nil, nil, nil, nil
		crew.People = hours.Crews[c].Max()
		x.ok = x.ok && len(x.p.Site.Holidays) == 0
		for d := range x.p.Duties {
			x.p.Duties[d].Crew = slices.DeleteFunc(slices.Clone(x.p.Duties[d].Crew),
				func(n schedule.CrewNeed) bool { return int(n.Crew) == c })
		}
	}
}

func (x *twin) links() {
	for r := range x.p.Rules {
		x.p.Rules[r].After = 0
	}
	held := 0
	for t := range x.p.Tasks {
		x.p.Tasks[t].After = x.after(x.p.Tasks[t].After, schedule.Activity(t), &held)
	}
	for d := range x.p.Deliveries {
		x.p.Deliveries[d].After = x.after(x.p.Deliveries[d].After, x.p.Unload(schedule.DeliveryID(d)), &held)
	}
	for _, f := range x.facts {
		if f.Kind == whynot.Wait {
			held--
		}
	}
	x.ok = x.ok && held == 0 // else a wait is a rule's
}

func (x *twin) after(links []schedule.Link, a schedule.Activity, held *int) (out []schedule.Link) {
	for _, l := range links {
		between := func(f *whynot.Fact) bool { return f.Activity == a && f.First == l.From.Activity() }
		switch {
		case l.Wait.Kind == schedule.OwnCure || l.Wait.Time <= 0:
		case x.has(whynot.Wait, between):
			*held++
		default:
			l.Wait = schedule.Wait{Kind: schedule.Cure}
		}
		if x.idle(a) || x.idle(l.From.Activity()) || !x.has(whynot.Within, between) {
			l.HasWithin, l.Within = false, 0
		}
		if x.idle(a) && l.Kind.ToFinish() && x.startsOthers(a) {
			continue
		}
		out = append(out, l)
	}
	return out
}

// idle says whether work of an activity is left away.
func (x *twin) idle(a schedule.Activity) bool {
	takes := true // every unloading does
	if t, task := x.was.Task(a); task {
		takes = x.was.Tasks[t].Effort.Time(1) > 0
	}
	return takes && !x.about(whynot.Work, a)
}

func (x *twin) startsOthers(a schedule.Activity) bool {
	return slices.ContainsFunc(x.was.Tasks, func(t schedule.Task) bool {
		return slices.ContainsFunc(t.After, func(l schedule.Link) bool {
			return l.From.Activity() == a && !l.Kind.FromFinish()
		})
	})
}

func (x *twin) task(id schedule.TaskID) {
	t, a := &x.p.Tasks[id], id.Activity()
	t.By = 0
	if !x.about(whynot.Cure, a) {
		t.Cure = 0
	}
	if !x.about(whynot.SignOff, a) {
		t.Hold = nil
	}
	if !x.about(whynot.Start, a) {
		t.NotBefore, t.Givens = 0, nil
	}
	if !x.about(whynot.Work, a) {
		t.Effort, t.Crew, t.Machines, t.Unbroken = schedule.Effort{}, nil, nil, false
	}
}

func (x *twin) delivery(id schedule.DeliveryID) {
	d, a := &x.p.Deliveries[id], x.p.Unload(id)
	if !x.about(whynot.Start, a) {
		d.Arrives, d.Movable, d.Givens = x.p.Site.Opens, nil, nil
	}
	if !x.about(whynot.Work, a) {
		d.Unload = schedule.Unload{}
	}
}

func (x *twin) room() {
	for z := range x.p.Zones {
		if x.has(whynot.Room, func(f *whynot.Fact) bool { return int(f.Zone) == z }) {
			continue
		}
		x.p.Zones[z].People = 0
		for _, t := range x.was.Tasks { // with more room there are other sizes to choose
			x.ok = x.ok && (x.was.Zones[z].People == 0 ||
				!slices.ContainsFunc(t.Crew, func(n schedule.CrewNeed) bool { return n.Least < n.Most }))
		}
	}
	if g := x.p.Site.Gate; g != nil && !x.has(whynot.GatePlaces, nil) {
		gate := *g
		gate.AtOnce = 9
		x.p.Site.Gate = &gate
	}
}

// own gives each activity crews and machines of its own where how many there are doesn't
// hold.
func (x *twin) own() {
	crew := func(needs []schedule.CrewNeed) (out []schedule.CrewNeed) {
		for _, n := range needs {
			if !x.has(whynot.People, func(f *whynot.Fact) bool { return f.Crew == n.Crew }) {
				n.Crew = x.copyOf(n.Crew)
			}
			out = append(out, n)
		}
		return out
	}
	machines := func(needs []schedule.MachineNeed) (out []schedule.MachineNeed) {
		for _, n := range needs {
			if !x.has(whynot.Machines, func(f *whynot.Fact) bool { return f.Machine == n.Machine }) {
				x.p.Machines = append(x.p.Machines, x.p.Machines[n.Machine])
				n.Machine = schedule.MachineID(len(x.p.Machines) - 1)
			}
			out = append(out, n)
		}
		return out
	}
	for t := range x.p.Tasks {
		x.p.Tasks[t].Crew, x.p.Tasks[t].Machines = crew(x.p.Tasks[t].Crew), machines(x.p.Tasks[t].Machines)
	}
	for d := range x.p.Deliveries {
		u := &x.p.Deliveries[d].Unload
		u.Crew, u.Machines = crew(u.Crew), machines(u.Machines)
	}
}

func (x *twin) copyOf(c schedule.CrewID) schedule.CrewID {
	x.p.Crews = append(x.p.Crews, x.p.Crews[c])
	id := schedule.CrewID(len(x.p.Crews) - 1)
	for d := range x.p.Duties {
		for _, n := range slices.Clone(x.p.Duties[d].Crew) {
			if n.Crew == c {
				n.Crew = id
				x.p.Duties[d].Crew = append(slices.Clone(x.p.Duties[d].Crew), n)
			}
		}
	}
	return id
}
