package crews

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Unit is a length of which every length of a problem is a multiple, as is the time
// between any two moments that the problem names: openings, changes of counts, earliest
// starts, appointments, bookings. Who looks at starts and ends in whole units alone proves
// more than with minutes: where there is room for 90 minutes of work, only 60 fit
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
type Unit struct {
	Origin calendars.Instant // a moment at which a unit begins
	Length calendars.Minutes
}

// Minute is the unit that every problem has.
var Minute = Unit{Length: 1}

// Down rounds a length that isn't negative down to whole units.
func (u Unit) Down(m calendars.Minutes) calendars.Minutes {
	if u.Length > 1 { // to divide by a minute costs time all the same
		m -= m % u.Length
	}
	return m
}

// Before is the last whole unit at or before a moment.
func (u Unit) Before(t calendars.Instant) calendars.Instant {
	if t == calendars.Past || t == calendars.Never {
		return t
	}
	past := (int64(t) - int64(u.Origin)) % int64(u.Length)
	if past < 0 {
		past += int64(u.Length)
	}
	return t - calendars.Instant(past)
}

// UpTo rounds a moment up to whole units from another that is one.
func (u Unit) UpTo(t, from calendars.Instant) calendars.Instant {
	if t == calendars.Never || t <= from {
		return t
	}
	return from.Plus(u.Down(calendars.Minutes(t-from) + u.Length - 1))
}

// Unit is the unit of a problem: the greatest one, which is a minute in most
// plans whose work is given by amounts and rates.
func (p *Problem) Unit() Unit {
	if p.endsPinned() {
		return Minute
	}
	d := divisor{origin: p.Net.Line.Start}
	d.moments(p.Net.Line.Start, p.Net.Line.End)
	d.network(p)
	for _, modes := range p.Modes {
		for k := range modes {
			d.mode(&modes[k])
		}
	}
	for _, c := range p.Net.Calendars {
		for open := range c.Openings(calendars.Past, calendars.Never) {
			if d.moments(open.Start, open.End); d.gcd == 1 {
				return Minute
			}
		}
	}
	for _, c := range p.Capacity {
		for s := range c.Steps {
			d.moments(s.Start)
		}
	}
	if d.gcd <= 1 {
		return Minute
	}
	return Unit{d.origin, calendars.Minutes(d.gcd)}
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

func (d *divisor) network(p *Problem) {
	for i := range p.Net.Nodes {
		d.lengths(p.Net.Nodes[i].Cure)
		d.moments(p.Net.Nodes[i].Earliest)
	}
	for i := range p.Net.Holds {
		h := &p.Net.Holds[i]
		d.lengths(h.Takes)
		d.moments(h.From, h.Least)
		d.moments(h.Appointments...)
	}
	for i := range p.Net.InOther.Arcs {
		if w := p.Net.InOther.Arcs[i].Wait; w.Kind != schedule.OwnCure {
			d.lengths(w.Time)
		}
	}
	for i := range p.Net.Withins {
		d.lengths(p.Net.Withins[i].Most)
	}
	for _, b := range p.Bookings {
		d.moments(b.Earliest, b.Latest)
	}
	for i := range p.Dates {
		if p.Dates[i].Booking >= 0 {
			d.lengths(p.Dates[i].Limit)
		}
	}
}

func (d *divisor) mode(mode *Mode) {
	d.lengths(mode.Work)
	for _, n := range mode.Needs {
		d.lengths(n.After)
	}
}

// endsPinned says whether some node that may pause must not finish sooner than
// something allows.
func (p *Problem) endsPinned() bool {
	for i := range p.Net.Nodes {
		ends := p.Net.InOther.Of(i)
		for k := range ends {
			if ends[k].Kind.ToFinish() && p.pauses(int32(i)) {
				return true
			}
		}
	}
	for i := range p.Net.Withins {
		if w := &p.Net.Withins[i]; w.Kind.FromFinish() && p.pauses(w.From) {
			return true
		}
	}
	return false
}

// pauses says whether a node may be worked on in more than one opening.
func (p *Problem) pauses(i int32) bool {
	for _, m := range p.Modes[i] {
		if m.Work == 0 || p.Net.Nodes[i].Unbroken {
			continue
		}
		openings := 0
		for range p.Net.Calendars[m.Calendar].Openings(calendars.Past, calendars.Never) {
			if openings++; openings > 1 {
				return true
			}
		}
	}
	return false
}
