package oracle

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// none stands for no slot at all.
const none = -1

// model is a plan as acts over slots: the tasks, then the unloadings.
type model struct {
	*hours
	acts  []act
	links []link
	pairs []pair
	there [][]int // by shared resource: how many there are in every slot
	used  [][]int // by shared resource: how many are in use while a programme is built
}

// act is a task or an unloading.
type act struct {
	hold    *schedule.HoldPoint // nil when there is none
	cure    int
	modes   []mode
	release int    // the first slot in which it may start
	open    []bool // of its place: what lags and sign-offs count
	stays   bool
}

// mode is a way to do an act.
type mode struct {
	heads  []int
	open   []bool // the slots in which it is worked
	finish []int  // by start; none where it can't start
	next   []int  // by slot: the first at or after it that has a finish, or none
	needs  []need
}

// need is what an act holds of something shared: in its worked slots, or from
// start to finish.
type need struct {
	of, n      int
	throughout bool
}

// link holds an act back. The event of to is no earlier than the event of from
// plus the wait, and, where that event is a finish, than its sign-off; with a
// longest wait it is no later than that after the event of from.
type link struct {
	from, to int
	kind     schedule.LinkKind
	lag      bool // the wait is open time of the follower's place
	wait     int
	within   int // or none
}

// pairKind says how two acts keep clear of each other.
type pairKind uint8

const (
	spans  pairKind = iota // their spans don't overlap
	worked                 // they aren't worked in the same slot, nor b in a pause of an a that stays
	closes                 // b isn't worked from the start of a until some time after its finish
)

type pair struct {
	a, b int
	kind pairKind
	long int // of closes: the time after the finish
}

// newModel cuts the time line into minutes, or into the widest steps that fit
// the plan.
func newModel(p *schedule.Plan, minutes bool) *model {
	m := &model{hours: newHours(p)}
	if minutes {
		m.hours = m.finer()
	}
	m.share()
	for i := range p.Tasks {
		m.acts = append(m.acts, m.taskAct(schedule.TaskID(i)))
	}
	for i := range p.Deliveries {
		m.acts = append(m.acts, m.unloadAct(schedule.DeliveryID(i)))
	}
	m.link()
	m.pair()
	for range m.there {
		m.used = append(m.used, make([]int, m.n))
	}
	return m
}

// unlimited is more than any plan needs.
const unlimited = 1 << 20

// share counts what is shared: crews, machines, the room of zones, the gate.
func (m *model) share() {
	constant := func(n int) {
		list := make([]int, m.n)
		for k := range list {
			list[k] = n
		}
		m.there = append(m.there, list)
	}
	m.there = append(m.there, m.crews...)
	for i := range m.p.Machines {
		constant(m.p.Machines[i].Count)
	}
	for i := range m.p.Zones {
		if n := m.p.Zones[i].People; n > 0 {
			constant(n)
		} else {
			constant(unlimited)
		}
	}
	if g := m.p.Site.Gate; g != nil {
		constant(g.AtOnce)
	} else {
		constant(unlimited)
	}
}

func (m *model) machine(id schedule.MachineID) int { return len(m.p.Crews) + int(id) }

func (m *model) room(id schedule.ZoneID) int {
	return len(m.p.Crews) + len(m.p.Machines) + int(id)
}

func (m *model) gatePlace() int { return len(m.there) - 1 }

func (m *model) unloading(d schedule.DeliveryID) int { return int(m.p.Unload(d)) }

// delivery is what an act unloads; nil when it is a task.
func (m *model) delivery(i int) *schedule.Delivery {
	if d, ok := m.p.Delivery(schedule.Activity(i)); ok {
		return &m.p.Deliveries[d]
	}
	return nil
}

func (m *model) taskAct(id schedule.TaskID) act {
	t := &m.p.Tasks[id]
	a := act{hold: t.Hold, cure: m.long(t.Cure), open: m.places[t.Zones[0]], stays: t.Stays}
	first := m.p.Site.Opens
	if m.p.OffSite(t) {
		first = m.p.Zones[t.Zones[0]].From
	}
	if t.NotBefore != 0 {
		first = max(first, t.NotBefore)
	}
	for _, g := range t.Givens {
		first = max(first, m.p.Givens[g].From)
	}
	a.release = m.of(first)
	for _, heads := range headChoices(m.p, t) {
		way := mode{heads: heads, open: m.taskHours(t, heads)}
		work := m.long(workOf(t, heads))
		m.times(&way, work, t.Unbroken)
		if work > 0 {
			way.needs = m.taskNeeds(t, heads)
		}
		a.modes = append(a.modes, way)
	}
	return a
}

func (m *model) taskNeeds(t *schedule.Task, heads []int) []need {
	var out []need
	for i, c := range t.Crew {
		out = append(out, need{of: int(c.Crew), n: heads[i]})
	}
	for _, c := range t.Machines {
		out = append(out, need{m.machine(c.Machine), c.Count, t.Stays})
	}
	return append(out, m.roomNeeds(roomOf(m.p, t.Zones, heads, t.Machines), t.Stays)...)
}

// roomNeeds are needs of the room of zones.
func (m *model) roomNeeds(room []int, stays bool) (out []need) {
	for z, n := range room {
		if n > 0 {
			out = append(out, need{m.room(schedule.ZoneID(z)), n, stays})
		}
	}
	return out
}

// admitted is when a delivery may be unloaded at the earliest, whenever it comes.
func (m *model) admitted(d *schedule.Delivery) calendars.Instant {
	from := m.p.Site.Opens
	for _, g := range d.Givens {
		from = max(from, m.p.Givens[g].From)
	}
	return from
}

func (m *model) unloadAct(id schedule.DeliveryID) act {
	d := &m.p.Deliveries[id]
	a := act{open: m.site, release: m.of(max(d.Arrives, m.admitted(d)))}
	way := mode{open: m.unloadHours(d), needs: []need{{of: m.gatePlace(), n: 1}}}
	m.times(&way, m.long(d.Unload.Takes), true)
	for _, c := range d.Unload.Crew {
		way.needs = append(way.needs, need{of: int(c.Crew), n: c.Least})
	}
	for _, c := range d.Unload.Machines {
		way.needs = append(way.needs, need{of: m.machine(c.Machine), n: c.Count})
	}
	way.needs = append(way.needs, m.roomNeeds(roomOf(m.p, nil, nil, d.Unload.Machines), false)...)
	a.modes = []mode{way}
	return a
}

// times fills in the finish for every start: work starts in an open slot and
// takes every open slot until it is done. Work of no time is done where it
// starts.
func (m *model) times(way *mode, work int, unbroken bool) {
	way.finish, way.next = make([]int, m.n), make([]int, m.n)
	var open []int // the open slots after k, the nearest last
	next := none
	for k := m.n - 1; k >= 0; k-- {
		if way.open[k] {
			open = append(open, k)
		}
		way.finish[k] = none
		if last := len(open) - work; work == 0 {
			way.finish[k] = k
		} else if way.open[k] && last >= 0 && !(unbroken && open[last] != k+work-1) {
			way.finish[k] = open[last] + 1
		}
		if way.finish[k] != none {
			next = k
		}
		way.next[k] = next
	}
}

// later is the earliest slot with n open slots between k and it; when n is negative,
// the latest slot with -n open slots between it and k.
func (m *model) later(open []bool, k, n int) int {
	for ; n > 0; k++ {
		if k >= m.n {
			return none
		}
		if open[k] {
			n--
		}
	}
	for ; n < 0; k-- {
		if k <= 0 {
			return 0
		}
		if open[k-1] {
			n++
		}
	}
	return k
}

// signed is when the hold point of an act that finishes at k is over, or none.
func (m *model) signed(a *act, k int) int {
	if a.hold == nil {
		return k
	}
	if a.hold.OnTheClock {
		return k + m.long(a.hold.Takes)
	}
	if len(a.hold.Appointments) == 0 {
		return m.later(a.open, k, m.long(a.hold.Takes))
	}
	for _, t := range a.hold.Appointments {
		if t >= m.at(k) {
			return m.of(t) + m.long(a.hold.Takes)
		}
	}
	last := a.hold.Appointments[len(a.hold.Appointments)-1]
	for _, t := range m.mornings {
		if t > last && t >= m.at(k) {
			return m.of(t) + m.long(a.hold.Takes)
		}
	}
	return none
}

// done is when work, cure and hold point of an act that finishes at k are over.
func (m *model) done(a *act, k int) int {
	signed := m.signed(a, k)
	if signed == none {
		return none
	}
	return max(signed, k+a.cure)
}

// allows is the slot from which a link lets the event of its follower be, for a
// start and finish of the act before; none when it never can be.
func (m *model) allows(l *link, start, finish int) int {
	event := start
	if l.kind.FromFinish() {
		event = finish
	}
	at := event + l.wait
	if l.lag {
		at = m.later(m.acts[l.to].open, event, l.wait)
	}
	if a := &m.acts[l.from]; l.kind.FromFinish() && at != none && a.hold != nil {
		signed := m.signed(a, finish)
		if signed == none {
			return none
		}
		at = max(at, signed)
	}
	return at
}
