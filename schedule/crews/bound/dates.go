package bound

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/critical"
)

// dates are the moments between which the options of a problem may lie. They
// only ever narrow.
type dates struct {
	*model
	end    calendars.Instant // every counting node is done by then
	t      *network.Times    // by node: the earliest of its options, and the latest
	es, ef []calendars.Instant
	ls, lf []calendars.Instant
	ld     []calendars.Instant // done at the latest finish
	lo, hi []calendars.Minutes // open minutes before the earliest and latest start
	out    []bool              // options that no schedule in time can take
	floor  []calendars.Instant // by option: least start
	roof   []calendars.Instant // by option: greatest start
	least  []critical.Limit    // by node: least start and finish
	most   []critical.Limit    // by node: greatest start and finish
	stamp  []int32             // by node: when its dates last changed
	seen   []int32             // by view, then by table: when it was last counted
	now    int32
	visits int64 // nodes visited by passes so far
}

// dawn is before every opening: open minutes are counted from it.
const dawn = calendars.Instant(-1 << 30)

// startOf is the start of the k-th open minute, counted from 0; Never when there
// is none.
func startOf(c *calendars.Calendar, k calendars.Minutes) calendars.Instant {
	if at := c.Add(dawn, k+1); at != calendars.Never {
		return at - 1
	}
	return calendars.Never
}

func newDates(m *model) *dates {
	options, nodes := len(m.options), len(m.n.Nodes)
	instants := func(n int, fill calendars.Instant) []calendars.Instant {
		return slices.Repeat([]calendars.Instant{fill}, n)
	}
	const past, never = calendars.Past, calendars.Never
	d := &dates{
		model: m, end: never, t: network.NewTimes(m.n),
		es: instants(options, past), ef: instants(options, past),
		ls: instants(options, never), lf: instants(options, never), ld: instants(options, never),
		lo: make([]calendars.Minutes, options), hi: make([]calendars.Minutes, options), out: make([]bool, options),
		floor: instants(options, past), roof: instants(options, never),
		least: slices.Repeat([]critical.Limit{{Start: past, Finish: past}}, nodes),
		most:  slices.Repeat([]critical.Limit{{Start: never, Finish: never, Done: never}}, nodes),
		stamp: make([]int32, nodes), seen: make([]int32, len(m.views)+len(m.tables)), now: 1,
	}
	for i := range nodes {
		d.t.LateStart[i], d.t.LateFinish[i] = never, never
	}
	for o := range m.options {
		d.hi[o] = m.calendar(int32(o)).Total()
	}
	return d
}

// copyFrom makes the dates equal to others of the same model.
func (d *dates) copyFrom(o *dates) {
	d.end, d.now = o.end, o.now
	copy(d.t.Start, o.t.Start)
	copy(d.t.Finish, o.t.Finish)
	copy(d.t.Done, o.t.Done)
	copy(d.t.LateStart, o.t.LateStart)
	copy(d.t.LateFinish, o.t.LateFinish)
	copy(d.es, o.es)
	copy(d.ef, o.ef)
	copy(d.ls, o.ls)
	copy(d.lf, o.lf)
	copy(d.ld, o.ld)
	copy(d.lo, o.lo)
	copy(d.hi, o.hi)
	copy(d.out, o.out)
	copy(d.floor, o.floor)
	copy(d.roof, o.roof)
	copy(d.least, o.least)
	copy(d.most, o.most)
	copy(d.stamp, o.stamp)
	copy(d.seen, o.seen)
}

// mostRounds bounds the sweeps while longest waits push each other on. The dates
// are valid after any number of sweeps; more sweeps only make them tighter.
const mostRounds = 500

// passes narrows all dates to what links, calendars, longest waits and the end
// require. It returns whether every node still has a place.
func (d *dates) passes() bool {
	for again := true; again; {
		for range mostRounds {
			if !d.forward() {
				return false
			}
			if !d.waitForward() {
				break
			}
		}
		for range mostRounds {
			d.backward()
			if !d.waitBackward() {
				break
			}
		}
		again = false
		for o := range d.options {
			if !d.out[o] && (d.es[o] > d.ls[o] || d.ef[o] > d.lf[o]) {
				d.out[o], again = true, true
				d.touch(d.options[o].node)
			}
		}
	}
	return true
}

// touch notes that the dates of a node changed.
func (d *dates) touch(node int32) { d.stamp[node] = d.now }

func (d *dates) forward() bool {
	d.visits += int64(len(d.n.Nodes))
	for i := range d.n.Nodes {
		from, until := critical.Held(d.n, d.t, i)
		from, until = max(from, d.least[i].Start), max(until, d.least[i].Finish)
		start, finish := calendars.Never, calendars.Never
		for o := d.first[i]; o < d.first[i+1]; o++ {
			if d.out[o] {
				continue
			}
			d.placeEarly(o, max(from, d.floor[o]), until)
			start, finish = min(start, d.es[o]), min(finish, d.ef[o])
		}
		if start == calendars.Never || finish == calendars.Never {
			return false
		}
		done := critical.Done(d.n, &d.n.Nodes[i], finish)
		if done == calendars.Never {
			return false
		}
		d.t.Start[i], d.t.Finish[i], d.t.Done[i] = start, finish, done
	}
	return true
}

// placeEarly moves an option's earliest dates to a start at or after from and a
// finish at or after until. Dates that meet both already stay, because they are
// the earliest for a weaker demand.
func (d *dates) placeEarly(o int32, from, until calendars.Instant) {
	if from <= d.es[o] && until <= d.ef[o] {
		return
	}
	option := &d.options[o]
	start, finish := critical.Place(d.n, &option.Node, from, until)
	if start != d.es[o] {
		d.touch(option.node)
		if option.Work > 0 {
			d.lo[o] = d.calendar(o).Between(dawn, start)
		}
	}
	d.es[o], d.ef[o] = start, finish
}

func (d *dates) backward() {
	d.visits += int64(len(d.n.Nodes))
	for i := len(d.n.Nodes) - 1; i >= 0; i-- {
		l := d.most[i]
		l.Finish = min(l.Finish, d.n.Line.End)
		if d.counts(i) {
			l.Done = min(l.Done, d.end)
		}
		l.Follow(d.n, i, d.t.LateStart, d.t.LateFinish)
		start, finish := calendars.Past, calendars.Past
		for o := d.first[i]; o < d.first[i+1]; o++ {
			if d.out[o] {
				continue
			}
			own := l
			own.Start = min(own.Start, d.roof[o])
			d.placeLate(o, own)
			start, finish = max(start, d.ls[o]), max(finish, d.lf[o])
		}
		d.t.LateStart[i], d.t.LateFinish[i] = start, finish
	}
}

// placeLate moves an option's latest dates within limits.
func (d *dates) placeLate(o int32, l critical.Limit) {
	if l.Start >= d.ls[o] && l.Finish >= d.lf[o] && l.Done >= d.ld[o] {
		return
	}
	start, finish := critical.PlaceBack(d.n, &d.options[o].Node, l)
	d.late(o, start, finish)
}

// late sets an option's latest dates, in whole units.
func (d *dates) late(o int32, start, finish calendars.Instant) {
	option := &d.options[o]
	if d.unit.Length > 1 {
		start, finish = d.whole(o, start, finish)
	}
	if start != d.ls[o] {
		d.touch(option.node)
		if option.Work > 0 {
			d.hi[o] = d.calendar(o).Between(dawn, start)
		}
	}
	d.ls[o], d.lf[o], d.ld[o] = start, finish, critical.Done(d.n, &option.Node, finish)
}

// waitForward raises the least dates of nodes so that the longest waits from them
// hold for the earliest dates of the nodes at the other end. It returns whether
// any moved.
func (d *dates) waitForward() bool {
	moved := false
	for i := range d.n.Withins {
		w := &d.n.Withins[i]
		follows := d.t.Start[w.To]
		if w.Kind.ToFinish() {
			follows = d.t.Finish[w.To]
		}
		need, under := follows.Plus(-w.Most), &d.least[w.From]
		if w.Kind.FromFinish() {
			if d.t.Finish[w.From] < need {
				under.Finish, moved = max(under.Finish, need), true
			}
		} else if d.t.Start[w.From] < need {
			under.Start, moved = max(under.Start, need), true
		}
	}
	return moved
}

// waitBackward lowers the greatest dates of nodes so that the longest waits to
// them hold for the latest dates of the nodes at the other end. It returns whether
// any moved.
func (d *dates) waitBackward() bool {
	moved := false
	for i := range d.n.Withins {
		w := &d.n.Withins[i]
		event := d.t.LateStart[w.From]
		if w.Kind.FromFinish() {
			event = d.t.LateFinish[w.From]
		}
		most, over := event.Plus(w.Most), &d.most[w.To]
		if w.Kind.ToFinish() {
			if d.t.LateFinish[w.To] > most {
				over.Finish, moved = min(over.Finish, most), true
			}
		} else if d.t.LateStart[w.To] > most {
			over.Start, moved = min(over.Start, most), true
		}
	}
	return moved
}

// lateness is how late the dates that may break are at the earliest moments of all
// nodes, wherever bookings are.
func (d *dates) lateness() (late crews.Lateness) {
	for k := range d.p.Dates {
		date := &d.p.Dates[k]
		latest := date.At
		if date.Booking >= 0 {
			latest = d.p.Bookings[date.Booking].Latest.Plus(date.Limit)
		}
		late.Add(date.Weight, int64(date.Of(d.t)-latest))
	}
	return late
}

// told counts what was told to start sooner than it can.
func (d *dates) told() (n int64) {
	for _, k := range d.p.Told {
		if k.Start < d.t.Start[k.Node] {
			n++
		}
	}
	return n
}

// lastDone is the earliest moment at which every counting node may be done.
func (d *dates) lastDone() calendars.Instant {
	last := calendars.Past
	for i := range d.n.Nodes {
		if d.counts(i) {
			last = max(last, d.t.Done[i])
		}
	}
	return last
}
