package bound

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/network/critical"
)

// unit is a length of which every length of a problem is a multiple, as is the time
// between any two moments that the problem names: openings, changes of counts, earliest
// starts, appointments. Bounds look at starts and ends in whole units alone, which
// proves more than minutes do: where there is room for 90 minutes of work, only 60 fit
// if all work takes whole hours.
//
// Nothing is lost by it: round every start of a schedule down to a whole unit, and what
// results is a schedule in which nothing is done later. Calendars open and close on
// units, so a start that was open still is. A node that is worked on somewhere in a unit
// was worked on, before, in the last minute of that unit: it had started by then, and
// rounding took it forward by less than a unit of open time, while what is left of its
// work is whole units. The same holds of what is held through pauses and beyond the
// finish. As counts don't change within a unit, there is enough of everything. A finish
// moves to the start of its unit, or back over a pause that it then needn't go past.
// Cures, lags, leads, hold points and appointments lead from an earlier moment to one no
// later, and from whole units to whole ones, so no start is too soon. Longest waits from
// a start hold, because both their ends are rounded alike or the second moves further.
//
// What could break is what asks that a finish is late enough: a link to one, and a
// longest wait from one. Where that finish may have moved back over a pause, a minute is
// the only unit.
type unit struct {
	origin calendars.Instant // a moment at which a unit begins
	length calendars.Minutes
}

// minute is the unit that every problem has.
var minute = unit{length: 1}

// down rounds a length that isn't negative down to whole units.
func (u unit) down(m calendars.Minutes) calendars.Minutes {
	if u.length > 1 { // to divide by a minute costs time all the same
		m -= m % u.length
	}
	return m
}

// before is the last whole unit at or before a moment.
func (u unit) before(t calendars.Instant) calendars.Instant {
	if t == calendars.Past || t == calendars.Never {
		return t
	}
	past := (int64(t) - int64(u.origin)) % int64(u.length)
	if past < 0 {
		past += int64(u.length)
	}
	return t - calendars.Instant(past)
}

// upTo rounds a moment up to whole units from another that is one.
func (u unit) upTo(t, from calendars.Instant) calendars.Instant {
	if t == calendars.Never || t <= from {
		return t
	}
	return from.Plus(u.down(calendars.Minutes(t-from) + u.length - 1))
}

// commonUnit finds the unit of a problem: the greatest one, which is a minute in most
// plans whose work is given by amounts and rates.
func (m *model) commonUnit() unit {
	if m.endsPinned() {
		return minute
	}
	d := divisor{origin: m.n.Line.Start}
	d.moments(m.n.Line.Start, m.n.Line.End)
	d.network(m)
	for _, modes := range m.p.Modes {
		for k := range modes {
			d.mode(&modes[k])
		}
	}
	for _, c := range m.n.Calendars {
		for open := range c.Openings(calendars.Past, calendars.Never) {
			if d.moments(open.Start, open.End); d.gcd == 1 {
				return minute
			}
		}
	}
	for _, p := range m.p.Capacity {
		for s := range p.Steps {
			d.moments(s.Start)
		}
	}
	if d.gcd <= 1 {
		return minute
	}
	return unit{d.origin, calendars.Minutes(d.gcd)}
}

// divisor is the greatest that lengths, and moments counted from an origin, have in
// common; 0 of none.
type divisor struct {
	origin calendars.Instant
	gcd    int64
}

func (d *divisor) lengths(all ...calendars.Minutes) {
	for _, m := range all {
		d.add(int64(m))
	}
}

func (d *divisor) moments(all ...calendars.Instant) {
	for _, t := range all {
		if t != calendars.Past && t != calendars.Never {
			d.add(int64(t) - int64(d.origin))
		}
	}
}

// add takes in one more number (Euclid's algorithm).
func (d *divisor) add(n int64) {
	if d.gcd > 0 && n%d.gcd == 0 {
		return
	}
	for n = max(n, -n); n > 0; {
		d.gcd, n = n, d.gcd%n
	}
}

func (d *divisor) network(m *model) {
	for i := range m.n.Nodes {
		d.lengths(m.n.Nodes[i].Cure)
		d.moments(m.n.Nodes[i].Earliest)
	}
	for i := range m.n.Holds {
		h := &m.n.Holds[i]
		d.lengths(h.Takes)
		d.moments(h.From, h.Least)
		d.moments(h.Appointments...)
	}
	for i := range m.n.InOther.Arcs {
		if w := m.n.InOther.Arcs[i].Wait; w.Kind != schedule.OwnCure {
			d.lengths(w.Time)
		}
	}
	for i := range m.n.Withins {
		d.lengths(m.n.Withins[i].Most)
	}
}

func (d *divisor) mode(mode *crews.Mode) {
	d.lengths(mode.Work)
	for _, n := range mode.Needs {
		d.lengths(n.After)
	}
}

// endsPinned says whether some node that may pause must not finish sooner than
// something allows.
func (m *model) endsPinned() bool {
	for i := range m.n.Nodes {
		ends := m.n.InOther.Of(i)
		for k := range ends {
			if ends[k].Kind.ToFinish() && m.pauses(int32(i)) {
				return true
			}
		}
	}
	for i := range m.n.Withins {
		if w := &m.n.Withins[i]; w.Kind.FromFinish() && m.pauses(w.From) {
			return true
		}
	}
	return false
}

// pauses says whether a node may be worked on in more than one opening.
func (m *model) pauses(i int32) bool {
	for o := m.first[i]; o < m.first[i+1]; o++ {
		if m.options[o].Work == 0 || m.options[o].Unbroken {
			continue
		}
		openings := 0
		for range m.calendar(o).Openings(calendars.Past, calendars.Never) {
			if openings++; openings > 1 {
				return true
			}
		}
	}
	return false
}

// inUnits goes on in whole units: latest dates that aren't whole are rounded down. The
// earliest are whole already, as they follow from whole ones alone.
func (s *narrowing) inUnits(u unit) {
	if s.unit = u; u == minute {
		return
	}
	for o := range int32(len(s.options)) {
		s.late(o, s.ls[o], s.lf[o])
	}
}

// whole rounds the latest start of an option down to a whole unit, and gives the finish
// that goes with it.
func (d *dates) whole(o int32, start, finish calendars.Instant) (s, f calendars.Instant) {
	at := d.unit.before(start)
	if at == start {
		return start, finish
	}
	if d.options[o].Work == 0 {
		return at, at
	}
	_, finish = critical.Place(d.n, &d.options[o].Node, at, calendars.Past)
	return at, finish
}
