package builds

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule/network/critical"
)

// hope says whether any order of hands could be better than the best found, or, where only that
// counts, done sooner while the hand-over is late. It counts with links and hours alone, as in the
// backward pass of the critical path: what has begun stays, and the rest begins now or later.
func (r *Replanner) hope(best *Cost, sooner bool) bool {
	end := best.End
	switch {
	case end == calendars.Never: // anything is better
	case sooner && best.Handover == 0:
		return false
	case best.Handover == 0 && best.Dates > 0:
		end = r.m.Plan.Site.Handover
	case sooner || best.Dates == 0:
		end--
	}
	a := &r.ahead
	if end != a.hoped {
		r.latest(end)
	}
	for i, start := range r.t.Start {
		if !r.begun(i) {
			start = r.now
		}
		if start > a.latest[i] {
			return false
		}
	}
	return true
}

// latest finds the latest dates by what is known with which all required work is done by an end.
func (r *Replanner) latest(end calendars.Instant) {
	a := &r.ahead
	a.hoped = end
	for i := range a.ends {
		a.ends[i] = calendars.Never
	}
	for _, i := range r.m.Last {
		a.ends[i] = end
	}
	for i := len(a.ends) - 1; i >= 0; i-- {
		if r.gone[i] {
			a.latest[i], a.ends[i] = calendars.Never, calendars.Never
			continue
		}
		l := critical.Limit{Start: calendars.Never, Finish: calendars.Never, Done: a.ends[i]}
		l.Follow(a.n, i, a.latest, a.ends)
		a.latest[i], a.ends[i] = critical.PlaceBack(a.n, &a.n.Nodes[i], l)
	}
}
