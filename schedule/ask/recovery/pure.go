package recovery

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/timecost"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/critical"
)

// pure returns an error if a node that moves can't be counted in the one calendar.
func (x *timeCost) pure(i int) error {
	if !x.moves[i] {
		return nil
	}
	n := &x.m.Nodes[i]
	name := x.name(i)
	switch {
	case n.Fixed:
		return mixed("%s has happened, and can't be made shorter", name)
	case n.Unbroken:
		return mixed("%s must be done in one, whatever the hours", name)
	case n.Cure > 0:
		return mixed("%s cures on the clock, not in working time", name)
	case n.Work > 0 && !x.same(n.Calendar):
		return mixed("%s has other hours than %s", name, x.first())
	}
	for k := range x.m.Withins {
		if w := &x.m.Withins[k]; int(w.From) == i || int(w.To) == i {
			return mixed("%s has a longest wait, which runs on the clock", name)
		}
	}
	for _, e := range x.m.InOther.Of(i) {
		if err := x.pureLink(i, &e); err != nil {
			return err
		}
	}
	return x.pureHold(n, name)
}

// pureLink returns an error if a link of a node can't be counted in the one calendar.
func (x *timeCost) pureLink(i int, e *network.End) error {
	name, other := x.name(i), x.name(int(e.Node))
	switch {
	case e.Kind.ToFinish() && x.price[i] != nil:
		return mixed("the finish of %s waits for another task, so that it can't be made shorter alone", name)
	case !x.moves[e.Node]:
	case e.Wait.Kind == schedule.Cure && e.Wait.Time > 0:
		return mixed("%s waits for %s on the clock, not in working time", name, other)
	case e.Wait.Kind == schedule.Lag && !x.same(x.m.Nodes[i].Place):
		return mixed("%s counts its wait for %s in other hours than %s", name, other, x.first())
	}
	return nil
}

func (x *timeCost) pureHold(n *network.Node, name string) error {
	if n.Hold == network.None {
		return nil
	}
	h := &x.m.Holds[n.Hold]
	switch {
	case len(h.Appointments) > 0:
		return mixed("%s is signed by appointment, not when it is done", name)
	case h.Takes > 0 && (h.OnTheClock || !x.same(n.Place)), h.From != calendars.Past, h.Least != calendars.Past:
		return mixed("%s is signed in other hours than %s", name, x.first())
	}
	return nil
}

// first returns the name of the task whose hours are the one calendar.
func (x *timeCost) first() string { return x.m.Plan.Tasks[x.prices.Tasks[0].Task].Name }

// same says whether a calendar has the same open times as the one calendar.
func (x *timeCost) same(index int32) bool {
	c := x.m.Calendars[index]
	same, known := x.known[c]
	if !known {
		line := x.m.Line
		same = slices.Equal(slices.Collect(c.Openings(x.base, line.End)), slices.Collect(x.clock.Openings(x.base, line.End)))
		x.known[c] = same
	}
	return same
}

// lay lays out events and arcs. A task without a price has one event: its finish is
// its start and its work, as it never waits in between.
func (x *timeCost) lay() error {
	n := x.m.Network
	x.begin, x.end = make([]int, len(n.Nodes)), make([]int, len(n.Nodes))
	x.net.Events, x.net.Finish = 2, 1
	for i := range n.Nodes {
		if !x.moves[i] {
			continue
		}
		x.begin[i], x.end[i] = x.net.Events, x.net.Events
		x.net.Events++
		x.after(0, x.begin[i], x.rank(n.Nodes[i].Earliest))
		if p := x.price[i]; p != nil {
			x.end[i] = x.net.Events
			x.net.Events++
			x.net.Arcs = append(x.net.Arcs, timecost.Arc{
				From: x.begin[i], To: x.end[i], Normal: int64(n.Nodes[i].Work), Shortest: int64(p.Shortest), Price: int64(p.Hour),
			})
		}
		x.arcs(i)
	}
	last := false
	for a := range x.m.Plan.Activities() {
		if !x.m.Plan.Required(a) || x.m.HasNoPlace(a) {
			continue
		}
		k := x.m.Node(a)
		if last = last || x.moves[k]; x.moves[k] {
			x.after(x.end[k], x.net.Finish, x.rest(k)+x.hold(k))
		} else {
			x.after(0, x.net.Finish, x.rank(x.t.Done[k]))
		}
	}
	if !last {
		return mixed("no required work waits for a task with a price")
	}
	return nil
}

// after holds event to at least wait minutes after event from.
func (x *timeCost) after(from, to int, wait int64) {
	x.net.Arcs = append(x.net.Arcs, timecost.Arc{From: from, To: to, Normal: wait, Shortest: wait})
}

// rest returns the work that lies between a node's last event and its finish.
func (x *timeCost) rest(i int) int64 {
	if x.price[i] != nil {
		return 0
	}
	return int64(x.m.Nodes[i].Work)
}

// hold returns how many minutes after its finish a node is signed.
func (x *timeCost) hold(i int) int64 {
	if h := x.m.Nodes[i].Hold; h != network.None {
		return int64(x.m.Holds[h].Takes)
	}
	return 0
}

// arcs adds the arcs that hold a node that moves.
func (x *timeCost) arcs(i int) {
	n := x.m.Network
	for _, p := range n.In.Of(i) {
		if x.moves[p] {
			x.after(x.end[p], x.begin[i], x.rest(int(p))+x.hold(int(p)))
		} else {
			x.after(0, x.begin[i], x.rank(x.t.Done[p]))
		}
	}
	ends := n.InOther.Of(i)
	for k := range ends {
		e := &ends[k]
		p := int(e.Node)
		toFinish := int64(0)
		if e.Kind.ToFinish() {
			toFinish = x.rest(i)
		}
		if !x.moves[p] {
			at := critical.Waited(n, &n.Nodes[p], e, n.Calendars[n.Nodes[i].Place], x.t.Start[p], x.t.Finish[p], x.t.Done[p])
			x.after(0, x.begin[i], x.rank(at)-toFinish)
			continue
		}
		from, wait := x.begin[p], int64(0)
		if e.Kind.FromFinish() {
			from, wait = x.end[p], x.rest(p)
		}
		if e.Kind.FromFinish() && e.Wait.Kind == schedule.OwnCure {
			wait += x.hold(p)
		} else {
			wait += max(int64(e.Wait.Time), x.held(p, e))
		}
		x.after(from, x.begin[i], wait-toFinish)
	}
}

// held returns the least wait that a hold point requires of a link with a wait of its
// own; without a hold point, less than any wait.
func (x *timeCost) held(p int, e *network.End) int64 {
	if e.Kind.FromFinish() && x.m.Nodes[p].Hold != network.None {
		return x.hold(p)
	}
	return -1 << 40
}
