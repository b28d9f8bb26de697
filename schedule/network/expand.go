package network

import (
	"fmt"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network/worktime"
)

// Model is a plan as a network. Nodes are numbered tasks first, then unloadings,
// then joints. Its Precedence has no arcs of tasks left out and none to events
// that are past.
type Model struct {
	*Network
	Precedence
	Hours  *worktime.Set
	Heads  [][]int // by TaskID and Task.Crew: people at work on it
	Limits []Limit // longest waits that run from what has happened
	// NoPlace marks the activities that no calendar gives a place, or nil; Blocked says
	// why. Their nodes take no time and their arcs hold nothing.
	NoPlace []bool
	Blocked []schedule.Blocked
	began   map[int32]schedule.TaskID
}

// HasNoPlace says whether no calendar gives an activity a place.
func (m *Model) HasNoPlace(a schedule.Activity) bool { return m.noPlace(int32(a)) }

func (m *Model) noPlace(number int32) bool { return int(number) < len(m.NoPlace) && m.NoPlace[number] }

// Node is the place in Nodes of an activity.
func (m *Model) Node(a schedule.Activity) int { return int(m.Number[a]) }

// At is the activity at a place in Nodes, or Nothing for a joint.
func (m *Model) At(node int32) schedule.Activity { return m.Activity(m.Spec[node]) }

// RingError is the fault of a plan whose links, rules and ways in run in rings.
type RingError struct {
	Rings [][]RingStep
}

// RingStep is one arc of a ring: what must come first, and what made it.
type RingStep struct {
	Activity schedule.Activity
	Origin   Origin
}

// Error says how many rings there are.
func (e *RingError) Error() string { return fmt.Sprintf("%d rings of links", len(e.Rings)) }

// Choice is what a crew programme decides besides dates.
type Choice struct {
	Heads   [][]int // by TaskID and Task.Crew; nil: what the logic programme takes
	Dropped []bool  // optional tasks left out, with their links; nil: none
	NoPlace []bool  // activities that have no place; nil: none
}

// Expand makes the network of a plan with the chosen heads and without the dropped
// tasks, whose nodes stay but have no work and no arcs. The error is a [*RingError].
// Time is linear in tasks, links and rules, except for dropping implied links, which
// takes tasks times links / 64.
func Expand(p *schedule.Plan, hours *worktime.Set, choice Choice) (*Model, error) {
	m := &Model{Precedence: Precedence{Plan: p}, Hours: hours, NoPlace: choice.NoPlace}
	x := &expansion{m: m, choice: choice, calendar: make(map[*calendars.Calendar]int32)}
	x.spec.Line = hours.Line
	x.nodes()
	o := orders{p: p, arc: x.arc, joint: x.joint}
	if choice.Dropped != nil || choice.NoPlace != nil {
		o.leftOut = func(t schedule.TaskID) bool { return x.dropped(int32(t)) || m.HasNoPlace(t.Activity()) }
	}
	o.all()
	m.index(len(x.spec.Nodes))
	x.spec.Arcs = m.Arcs
	reduce(x.spec, &m.outOf, x.optional())
	n, err := Build(x.spec)
	if err != nil {
		return nil, m.ringError(err)
	}
	m.Network = n
	return m, nil
}

// Rebooked is the model of p, a plan that differs from the model's only in
// arrivals.
func (m *Model) Rebooked(p *schedule.Plan) *Model {
	q, n := *m, *m.Network
	q.Plan, q.Network = p, &n
	n.Nodes = append([]Node(nil), n.Nodes...)
	for i := range p.Deliveries {
		if q.HasNoPlace(p.Unload(schedule.DeliveryID(i))) {
			continue
		}
		node := &n.Nodes[q.Node(p.Unload(schedule.DeliveryID(i)))]
		setArrival(p, q.Hours, schedule.DeliveryID(i), node)
		standUnloading(p, schedule.DeliveryID(i), node)
	}
	for i := range p.Tasks {
		if !p.Finished(schedule.TaskID(i)) && !q.HasNoPlace(schedule.Activity(i)) {
			n.Nodes[q.Node(schedule.Activity(i))].LatestFinish = LatestFinish(p, &p.Tasks[i])
		}
	}
	return &q
}

type expansion struct {
	m        *Model
	choice   Choice
	spec     Spec
	calendar map[*calendars.Calendar]int32
	starts   map[schedule.TaskID]int32 // the node of each actual start
}

func (x *expansion) index(c *calendars.Calendar) int32 {
	i, known := x.calendar[c]
	if !known {
		i = int32(len(x.spec.Calendars))
		x.spec.Calendars = append(x.spec.Calendars, c)
		x.calendar[c] = i
	}
	return i
}

func (x *expansion) nodes() {
	m, p, hours := x.m, x.m.Plan, x.m.Hours
	x.spec.Nodes = make([]Node, 0, len(p.Tasks)+len(p.Deliveries)+len(p.Stages))
	x.m.Heads = make([][]int, len(p.Tasks))
	required := p.RequiredOfEach()
	for i := range p.Tasks {
		x.m.Heads[i] = x.heads(schedule.TaskID(i))
		if x.dropped(int32(i)) || m.HasNoPlace(schedule.Activity(i)) {
			x.idle()
			continue
		}
		x.spec.Nodes = append(x.spec.Nodes, x.taskNode(schedule.TaskID(i), x.m.Heads[i]))
	}
	for i := range p.Deliveries {
		if m.HasNoPlace(p.Unload(schedule.DeliveryID(i))) {
			x.idle()
			continue
		}
		d := &p.Deliveries[i]
		n := Node{
			Work: d.Unload.Takes, Unbroken: true, Hold: None,
			Calendar: x.index(hours.Unload(d)), Place: x.index(hours.Site),
			LatestFinish: calendars.Never, LatestDone: calendars.Never,
			Optional: !required[p.Unload(schedule.DeliveryID(i))],
		}
		if !n.Optional { // a lorry for optional work alone may come after the hand-over
			n.LatestDone = p.Site.Handover
		}
		setArrival(p, hours, schedule.DeliveryID(i), &n)
		standUnloading(p, schedule.DeliveryID(i), &n)
		x.spec.Nodes = append(x.spec.Nodes, n)
	}
}

// idle adds the node of an activity that takes no part.
func (x *expansion) idle() {
	x.spec.Nodes = append(x.spec.Nodes, Node{
		Hold: None, Earliest: x.m.Plan.Site.Opens, Calendar: x.index(x.m.Hours.Site), Place: x.index(x.m.Hours.Site),
		LatestStart: calendars.Never, LatestFinish: calendars.Never, LatestDone: calendars.Never,
	})
}

func (x *expansion) heads(t schedule.TaskID) []int {
	if x.choice.Heads != nil {
		return x.choice.Heads[t]
	}
	return x.m.Hours.Heads(&x.m.Plan.Tasks[t])
}

// dropped says whether a node number belongs to a task left out.
func (x *expansion) dropped(number int32) bool {
	return int(number) < len(x.choice.Dropped) && x.choice.Dropped[number]
}

// setArrival sets the earliest and latest start of an unloading's node from its
// booked arrival: a lorry that isn't begun in the opening of the gate in which it
// comes is sent away.
func setArrival(p *schedule.Plan, hours *worktime.Set, d schedule.DeliveryID, n *Node) {
	arrives := p.Deliveries[d].Arrives
	n.Earliest = max(arrives, Admitted(p, d))
	n.LatestStart = hours.GateShuts(arrives)
}

func (x *expansion) taskNode(id schedule.TaskID, heads []int) Node {
	p, all := x.m.Plan, 0
	t := &p.Tasks[id]
	for _, h := range heads {
		all += h
	}
	zone := &p.Zones[t.Zones[0]]
	n := Node{
		Work: p.Rest(id).Time(all), Unbroken: t.Unbroken, Cure: t.Cure, Hold: None,
		Calendar: x.index(x.m.Hours.Task(t, heads)), Place: x.index(x.m.Hours.Places[t.Zones[0]]),
		Earliest: p.Site.Opens, LatestStart: calendars.Never,
		LatestFinish: LatestFinish(p, t), LatestDone: p.Site.Handover,
		Optional: !p.Required(id.Activity()),
	}
	if zone.OffSite {
		n.Earliest = zone.From
	}
	n.Earliest = max(n.Earliest, t.NotBefore)
	for _, g := range t.Givens {
		n.Earliest = max(n.Earliest, p.Givens[g].From)
	}
	if t.Hold != nil {
		n.Hold = int32(len(x.spec.Holds))
		h := Hold{Takes: t.Hold.Takes, OnTheClock: t.Hold.OnTheClock, From: calendars.Past, Least: calendars.Past}
		if len(t.Hold.Appointments) > 0 {
			h.Appointments = x.m.Hours.SignOffs(t.Hold.Appointments)
		}
		x.spec.Holds = append(x.spec.Holds, h)
	}
	x.stand(id, &n)
	return n
}

// Admitted is the moment before which nothing of a delivery is unloaded, whenever its
// lorry comes: the site opens, and what others owe it is there.
func Admitted(p *schedule.Plan, d schedule.DeliveryID) calendars.Instant {
	from := p.Site.Opens
	for _, g := range p.Deliveries[d].Givens {
		from = max(from, p.Givens[g].From)
	}
	return from
}

// LatestFinish is the latest finish that a task's own date and the keeps of the
// deliveries it uses allow; Never for no limit.
func LatestFinish(p *schedule.Plan, t *schedule.Task) calendars.Instant {
	latest := calendars.Never
	if t.By != 0 {
		latest = t.By
	}
	for _, d := range t.Uses {
		if s := &p.Deliveries[d]; s.Keep > 0 {
			latest = min(latest, s.KeepsUntil(s.Arrives))
		}
	}
	return latest
}

func (x *expansion) optional() []bool {
	out := make([]bool, len(x.spec.Nodes))
	for i := range x.m.Plan.Tasks {
		out[i] = x.m.Plan.Tasks[i].Optional
	}
	return out
}

// arc adds an arc, unless a task at one of its ends is left out or the event that
// it holds is past. One at an activity without a place is idle.
func (x *expansion) arc(a Arc, from Origin) {
	if x.dropped(a.From) || x.dropped(a.To) {
		return
	}
	if a.Idle = x.m.noPlace(a.From) || x.m.noPlace(a.To); a.Idle || x.past(&a) {
		x.m.add(a, from)
	}
}

// joint adds a joint's node and gives its number.
func (x *expansion) joint() int32 {
	x.spec.Nodes = append(x.spec.Nodes, Node{
		Joint: true, Hold: None, Earliest: calendars.Past,
		LatestStart: calendars.Never, LatestFinish: calendars.Never, LatestDone: calendars.Never,
	})
	return int32(len(x.spec.Nodes) - 1)
}

// ringError turns a [*Cycle] into a [*RingError] that names the activities on each
// ring, without joints. It returns any other error as it is.
func (x *Precedence) ringError(err error) error {
	cycle, ok := err.(*Cycle)
	if !ok {
		return err
	}
	out := &RingError{}
	for _, ring := range cycle.Rings {
		var steps []RingStep
		for _, a := range ring {
			if first := x.Activity(x.Arcs[a].From); first != schedule.Nothing {
				steps = append(steps, RingStep{first, x.Origins[a]})
			}
		}
		out.Rings = append(out.Rings, steps)
	}
	return out
}
