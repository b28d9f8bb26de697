package solve

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/critical"
)

// nothing is a reason of a kind that refers to nothing yet.
func nothing(k schedule.ReasonKind) schedule.Reason {
	return schedule.Reason{
		Kind: k, Other: schedule.Nothing, Given: schedule.None,
		Rule: schedule.None, Zone: schedule.None, Crew: schedule.None, Machine: schedule.None,
	}
}

// reasons sets what fixes the start of every activity: what it waits for, and
// whose hours hold it after that.
func (a *assembly) reasons() {
	for i := range a.Plan.Activities() {
		a.Programme.Of(i).Why = a.why(int32(i))
	}
}

func (a *assembly) why(number int32) []schedule.Reason {
	k := a.Number[number]
	if a.t.Start[k] == calendars.Never {
		return nil
	}
	drivers := a.drivers(number)
	if len(drivers) == 0 {
		return nil // a crew programme may start it later than it must
	}
	driver := drivers[0]
	out := a.room(driver)
	if was, begun := a.begun(number); begun {
		// The start has happened; what follows says what holds the rest.
		out[0] = was
		if driver.Kind == schedule.ByLog || driver.Kind == schedule.ByNow {
			return out
		}
		out = append(out, driver)
	}
	if !driver.Finishes && driver.Until < a.t.Start[k] {
		out = append(out, a.closed(number, driver.Until))
	}
	return out
}

// room is a list of one reason with capacity for two, cut from a slice that many
// share.
func (a *assembly) room(r schedule.Reason) []schedule.Reason {
	if cap(a.list)-len(a.list) < 2 {
		a.list = make([]schedule.Reason, 0, 256)
	}
	at := len(a.list)
	a.list = a.list[:at+2]
	a.list[at] = r
	return a.list[at : at+1 : at+2]
}

// drivers lists the reasons each of which alone would put the start of a node
// where it is, those that hold it longest first. Among equals the order is shared
// resource, links, deliveries, rules, ways in, longest waits, givens, own dates,
// openings. The list may be empty in a crew programme, which may start a node
// later than it must. It is valid until the next call.
func (a *assembly) drivers(number int32) []schedule.Reason {
	k := a.Number[number]
	tight := a.tight[:0]
	if a.hands != nil {
		if r, held := a.shared(k); held {
			tight = append(tight, r)
		}
	}
	for _, r := range a.candidates(number) {
		if a.alone(k, r.Until, r.Finishes) != a.t.Start[k] {
			continue
		}
		at := len(tight)
		for at > 0 && !tight[at-1].Finishes && !r.Finishes && tight[at-1].Until < r.Until {
			at--
		}
		tight = append(tight, schedule.Reason{})
		copy(tight[at+1:], tight[at:])
		tight[at] = r
	}
	a.tight = tight
	return tight
}

// candidates lists the reasons that may fix the start of a node.
func (a *assembly) candidates(number int32) []schedule.Reason {
	k := a.Number[number]
	all := a.scratch[:0]
	place := a.Nodes[k].Place
	for _, arc := range a.Into(number) {
		if a.alone(k, a.until(arc, place), a.Arcs[arc].Kind.ToFinish()) == a.t.Start[k] {
			all = append(all, a.arcReason(number, arc))
		}
	}
	for i := range a.Withins {
		if w := &a.Withins[i]; w.From == k {
			all = append(all, a.withinReason(w))
		}
	}
	a.scratch = a.ownReasons(all, number)
	return a.scratch
}

// alone is the start that a node would have if nothing but one moment held its
// start or, with finishes, its finish.
func (a *assembly) alone(k int32, until calendars.Instant, finishes bool) calendars.Instant {
	from := until
	if finishes {
		from = calendars.Past
	} else {
		until = calendars.Past
	}
	start, _ := critical.Place(a.Network, &a.Nodes[k], from, until)
	return start
}

var byOrigin = [...]schedule.ReasonKind{
	network.FromLink: schedule.ByLink, network.FromDelivery: schedule.ByDelivery,
	network.FromRule: schedule.ByRule, network.FromWayIn: schedule.ByWayIn,
}

func (a *assembly) arcReason(number, arc int32) schedule.Reason {
	from, origin := a.Arcs[arc].From, a.Origins[arc]
	r := nothing(byOrigin[origin.Kind])
	r.Rule, r.Zone = origin.Rule, origin.Zone
	if a.Began(from) == schedule.None && a.Nodes[a.Number[from]].Joint {
		from, arc = a.behindJoint(from)
	}
	r.Other = a.Activity(from)
	if began := a.Began(from); began != schedule.None {
		r.Other = began.Activity()
	}
	a.fill(&r, arc, a.Nodes[a.Number[number]].Place)
	return r
}

// behindJoint returns the arc into a joint that fixes when the joint is reached,
// and the number of the node that it comes from.
func (a *assembly) behindJoint(joint int32) (from, arc int32) {
	reached := a.t.Start[a.Number[joint]]
	for _, arc := range a.Into(joint) {
		if a.until(arc, 0) == reached {
			return a.Arcs[arc].From, arc
		}
	}
	panic("solve: a joint that nothing reaches")
}

// until is the moment from which an arc allows its follower's event.
func (a *assembly) until(arc, place int32) calendars.Instant {
	x := &a.Arcs[arc]
	p := a.Number[x.From]
	end := network.End{Node: p, Kind: x.Kind, Wait: x.Wait}
	return critical.Waited(a.Network, &a.Nodes[p], &end, a.Calendars[place],
		a.t.Start[p], a.t.Finish[p], a.t.Done[p])
}

// fill adds to a reason what an arc says: its kind, event, wait and moment.
func (a *assembly) fill(r *schedule.Reason, arc, place int32) {
	x := &a.Arcs[arc]
	p := a.Number[x.From]
	node := &a.Nodes[p]
	r.Link, r.Wait, r.Finishes = x.Kind, x.Wait, x.Kind.ToFinish()
	r.Until = a.until(arc, place)
	r.Event = a.t.Start[p]
	if !x.Kind.FromFinish() {
		return
	}
	r.Event = a.t.Finish[p]
	if r.Wait.Kind == schedule.OwnCure && node.Cure > 0 {
		r.Wait = schedule.Wait{Kind: schedule.Cure, Time: node.Cure}
	}
	if node.Hold != network.None {
		r.Hold = critical.Signed(a.Network, node, r.Event) == r.Until && r.Until > r.Event
	}
}

func (a *assembly) withinReason(w *network.Within) schedule.Reason {
	r := nothing(schedule.ByWithin)
	r.Other = a.At(w.To)
	r.Event = a.t.Start[w.To]
	if w.Kind.ToFinish() {
		r.Event = a.t.Finish[w.To]
	}
	r.Link, r.Finishes = w.Kind, w.Kind.FromFinish()
	r.Wait = schedule.Wait{Kind: schedule.Cure, Time: w.Most}
	r.Until = r.Event.Plus(-w.Most)
	return r
}

// begun returns the reason that an activity began when it did; ok is false when it
// hasn't begun.
func (a *assembly) begun(number int32) (r schedule.Reason, ok bool) {
	r = nothing(schedule.ByLog)
	of := a.Activity(number)
	if !a.Plan.Begun(of) {
		return r, false
	}
	was := a.Plan.Progress.When(of)
	r.Event, r.Until = was.Start, max(was.Start, was.End)
	return r, true
}

// ownReasons adds the moments before which a task or an unloading may not start:
// its own, or its actual start once it has begun, and now.
func (a *assembly) ownReasons(out []schedule.Reason, number int32) []schedule.Reason {
	was, begun := a.begun(number)
	if begun {
		out = append(out, was)
	} else {
		out = a.moments(out, number)
	}
	if now := a.Plan.Now(); now != calendars.Past {
		r := nothing(schedule.ByNow)
		r.Event, r.Until = now, now
		out = append(out, r)
	}
	return out
}

// moments adds a task's or an unloading's own moments before which it may not
// start.
func (a *assembly) moments(out []schedule.Reason, number int32) []schedule.Reason {
	p := a.Plan
	of := a.Activity(number)
	at := func(k schedule.ReasonKind, t calendars.Instant) *schedule.Reason {
		out = append(out, nothing(k))
		r := &out[len(out)-1]
		r.Event, r.Until = t, t
		return r
	}
	if d, ok := p.Delivery(of); ok {
		at(schedule.ByArrival, p.Deliveries[d].Arrives).Other = of
		at(schedule.ByOpening, p.Site.Opens)
		return out
	}
	t := &p.Tasks[of]
	for _, g := range t.Givens {
		at(schedule.ByGiven, p.Givens[g].From).Given = g
	}
	if t.NotBefore != 0 {
		at(schedule.ByNotBefore, t.NotBefore)
	}
	opens := p.Site.Opens
	if z := t.Zones[0]; p.Zones[z].OffSite {
		opens = p.Zones[z].From
		at(schedule.ByOpening, opens).Zone = z
		return out
	}
	at(schedule.ByOpening, opens)
	return out
}
