package verify

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// unit is a length of which every length is a multiple that a bound asks for, as is the
// time from the opening of the site to every moment that it asks for. Where one of more
// than a minute is allowed, work that is done by a moment could be done by the last whole
// unit before it, each start rounded down to a whole unit: hours open and heads change on
// units, so what was there for the work in the last minute of a unit is there in all of
// it; waits lead from whole units to whole units, and from no later ones to no later ones;
// and no finish gets later. So what can't be done by whole units can't be done sooner than
// a unit after.
//
// A finish may get sooner by more than its start does, over a pause. So it isn't allowed
// where a finish must come late enough: with a link to one or a longest wait from one, when
// the work may pause. Nor is it as at a moment, which is whole minutes of a day.
func (b *bounds) inUnits() {
	b.unit = 1
	if b.p.Progress != nil || b.finishHeld() {
		return
	}
	d := divisor{from: b.p.Site.Opens}
	for a := range schedule.Activity(len(b.own)) {
		if b.wanted(a) && !b.divide(a, &d) {
			return
		}
	}
	d.spans(b.hours.site)
	for _, place := range b.hours.places {
		d.spans(place)
	}
	for _, teams := range b.hours.crews {
		for _, t := range teams {
			d.moments(t.span.Start, t.span.End)
		}
	}
	for i := range b.ties {
		d.lengths(b.ties[i].Wait.Time, b.ties[i].Within)
	}
	b.unit = max(d.greatest, 1)
}

// finishHeld says whether a finish must not come too soon of work that may pause.
func (b *bounds) finishHeld() bool {
	pauses := func(a schedule.Activity) bool { return !b.unbroken[a] && b.takes[a] > 0 }
	for i := range b.ties {
		x := &b.ties[i]
		if x.Kind.ToFinish() && pauses(x.to) || x.HasWithin && x.Kind.FromFinish() && pauses(x.from) {
			return true
		}
	}
	return false
}

// divide takes in the moments and lengths of an activity in every size, and says whether
// more than a minute may be left: not by those of very many sizes.
func (b *bounds) divide(a schedule.Activity, d *divisor) bool {
	d.moments(b.start[a])
	id, ok := b.p.Task(a)
	if !ok {
		d.spans(b.own[a])
		d.lengths(b.takes[a])
		return true
	}
	t := &b.p.Tasks[id]
	d.lengths(t.Cure, t.Closes.For)
	if t.Hold != nil {
		d.lengths(t.Hold.Takes)
		d.moments(t.Hold.Appointments...)
	}
	all := sizes(t.Crew)
	for _, crew := range all {
		own, takes := b.working(id, crew)
		d.spans(own)
		d.lengths(takes)
	}
	return len(all) > 0 && d.greatest != 1
}

// whole is the last whole unit at or before a moment.
func (b *bounds) whole(t calendars.Instant) calendars.Instant {
	if b.unit <= 1 || !t.IsReal() {
		return t
	}
	past := calendars.Minutes(t-b.p.Site.Opens) % b.unit
	if past < 0 {
		past += b.unit
	}
	return t.Plus(-past)
}

// divisor is the greatest that lengths, and moments counted from one, have in common; 0
// of none.
type divisor struct {
	from     calendars.Instant
	greatest calendars.Minutes
}

// lengths takes in lengths, of either sign (Euclid's algorithm).
func (d *divisor) lengths(all ...calendars.Minutes) {
	for _, n := range all {
		for n = max(n, -n); n > 0; {
			d.greatest, n = n, d.greatest%n
		}
	}
}

func (d *divisor) moments(all ...calendars.Instant) {
	for _, t := range all {
		if t.IsReal() {
			d.lengths(calendars.Minutes(t - d.from))
		}
	}
}

func (d *divisor) spans(o open) {
	for _, s := range o {
		d.moments(s.Start, s.End)
	}
}
