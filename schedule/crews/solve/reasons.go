package solve

import (
	"slices"

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

// reasoned sets the chain and what fixes the start of every activity: what it waits for,
// and whose hours hold it after that. It returns whether it could; halted, there is neither.
func (a *assembly) reasoned() bool {
	if a.unasked {
		return false
	}
	for i := range a.Plan.Activities() {
		if a.Programme.Of(i).Why = a.why(int32(i)); a.halt.Over() {
			break
		}
	}
	a.chain()
	if !a.halt.Over() {
		return true
	}
	for i := range a.Plan.Activities() {
		a.Programme.Of(i).Why, a.Programme.Of(i).OnChain = nil, false
	}
	a.Programme.Chain = nil
	return false
}

func (a *assembly) why(number int32) []schedule.Reason {
	k := a.Number[number]
	of := a.Activity(number)
	if a.t.Start[k] == calendars.Never || a.Programme.LeavesOut(of) || a.HasNoPlace(of) {
		return nil
	}
	was, begun := a.begun(number)
	if begun && a.Nodes[k].Fixed {
		return a.kept(was)
	}
	fixed := a.fixes(number)
	if begun {
		// The start has happened; what follows says what holds the rest.
		if len(fixed) == 0 || fixed[0].Kind == schedule.ByLog || fixed[0].Kind == schedule.ByNow {
			return a.kept(was)
		}
		return a.kept(append([]schedule.Reason{was}, a.shut(number, fixed)...)...)
	}
	return a.kept(a.shut(number, fixed)...)
}

// shut adds to what fixes a start whose hours hold it after that.
func (a *assembly) shut(number int32, fixed []schedule.Reason) []schedule.Reason {
	from := calendars.Past
	for i := range fixed {
		switch r := &fixed[i]; {
		case r.Finishes, r.Kind == schedule.ByChoice, r.Kind == schedule.ByClosedHours, r.Kind == schedule.ByUnbroken:
			return fixed
		}
		from = max(from, fixed[i].Until)
	}
	if len(fixed) == 0 || from >= a.t.Start[a.Number[number]] {
		return fixed
	}
	return append(fixed, a.closed(number, from)...)
}

// kept copies reasons into a slice that many share.
func (a *assembly) kept(list ...schedule.Reason) []schedule.Reason {
	if cap(a.list)-len(a.list) < len(list) {
		a.list = make([]schedule.Reason, 0, 256+len(list))
	}
	at := len(a.list)
	a.list = append(a.list, list...)
	return a.list[at:len(a.list):len(a.list)]
}

// fixes lists what fixes the start of a node: all of it taken away, it could start
// sooner, everything before it standing as it does; any of it left, it couldn't.
// What goes is an activity with all that it holds and all that follows it, or one
// moment. Links and moments come before shared resources, and those that hold it
// longest first; among equals the order is links, deliveries, rules, ways in,
// longest waits, givens, own dates, openings. Where nobody is open before the start,
// hours are in the list. Where nothing fixes a start of a crew programme, the reason is
// ByChoice. The list is valid until the next call.
func (a *assembly) fixes(number int32) []schedule.Reason {
	k, out := a.Number[number], a.tight[:0]
	bars, c := a.bars(number), &a.gone
	c.bars, c.nodes = c.bars[:0], c.nodes[:0]
	for i := tightest(bars, c); i >= 0; i = tightest(bars, c) {
		out = append(out, a.reasonOf(number, &bars[i]))
		a.clear(c, bars, i)
	}
	links, cleared := len(out), len(c.nodes)
	for {
		start, end, need, holder := a.first(k, bars, c)
		if a.halt.Over() {
			return nil
		}
		if start < a.t.Start[k] && len(out) == 0 {
			r := nothing(schedule.ByChoice)
			r.Event, r.Until = start, start
			out = append(out, r)
		}
		if start < a.t.Start[k] {
			break
		}
		if end == calendars.Past {
			return a.openedThen(number, bars, out)
		}
		out = append(out, a.sharedReason(need, holder, end))
		if holder == network.None {
			break // it isn't there, whoever else goes
		}
		c.nodes = append(c.nodes, int32(holder))
	}
	out = a.fewest(k, bars, c, out, links, cleared)
	a.tight = out
	return out
}

// openedThen lists what fixes a start that nobody is open before: the hours, and of
// what else holds it that which ends as they begin.
func (a *assembly) openedThen(number int32, bars []bar, out []schedule.Reason) []schedule.Reason {
	start, from := a.t.Start[a.Number[number]], a.Line.Start
	for i := range bars {
		if b := &bars[i]; !b.finishes && b.until < start {
			from = max(from, b.until)
		}
	}
	out = slices.DeleteFunc(out, func(r schedule.Reason) bool { return r.Finishes || r.Until < start })
	out = append(out, a.closed(number, from)...)
	a.tight = out
	return out
}

// fewest leaves out holders of shared resources, reasons from links on and nodes from
// cleared on, that needn't go for the node to start sooner.
func (a *assembly) fewest(
	k int32, bars []bar, c *cleared, out []schedule.Reason, links, cleared int,
) []schedule.Reason {
	for i := links; i < len(out) && len(out)-links > 1 && len(c.nodes)-cleared == len(out)-links && !a.halt.Over(); {
		at := cleared + i - links
		node := c.nodes[at]
		c.nodes = slices.Delete(c.nodes, at, at+1)
		if start, _, _, _ := a.first(k, bars, c); start < a.t.Start[k] {
			out = slices.Delete(out, i, i+1)
			continue
		}
		c.nodes = slices.Insert(c.nodes, at, node)
		i++
	}
	return out
}

// tightest is, of the tight bars that are left, the one that holds a node longest, of
// equals the first; -1 when there is none.
func tightest(bars []bar, c *cleared) int {
	best := -1
	for i := range bars {
		b := &bars[i]
		if !b.tight || slices.Contains(c.bars, i) {
			continue
		}
		if best < 0 || !bars[best].finishes && !b.finishes && bars[best].until < b.until {
			best = i
		}
	}
	return best
}

// clear takes a bar away, with all others of its activity and what that holds.
func (a *assembly) clear(c *cleared, bars []bar, i int) {
	c.bars = append(c.bars, i)
	of := bars[i].of
	if of == schedule.Nothing {
		return
	}
	for j := range bars {
		if j != i && bars[j].of == of {
			c.bars = append(c.bars, j)
		}
	}
	c.nodes = append(c.nodes, int32(a.Node(of)))
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
		for _, g := range p.Deliveries[d].Givens {
			at(schedule.ByGiven, p.Givens[g].From).Given = g
		}
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
