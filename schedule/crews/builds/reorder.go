package builds

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule/network"
)

// reorder tries the rules: first with all that crews were told for today and tomorrow as they
// were told, then, while the hand-over is late, without. It says whether one is better than
// best, which it then changes; the dates are those of the look ahead.
func (r *Replanner) reorder(best *Cost) (better bool) {
	better = r.try(r.now.Plus(r.told), best, false)
	return best.Handover > 0 && r.try(calendars.Past, best, true) || better
}

// reorderCalled is reorder with a call, which must help the hand-over. What crews were told stays
// where that helps as much; where nothing helps without, it isn't tried with.
func (r *Replanner) reorderCalled(best *Cost) (better bool) {
	if better = r.try(calendars.Past, best, true); better {
		line := r.m.Plan.Site.Handover
		asGood := Cost{Handover: best.Handover + 1, End: max(best.End, line) + 1}
		if r.try(r.now.Plus(r.told), &asGood, true) {
			*best = asGood
		}
	}
	return better
}

// try tries the rules with what starts before a moment as it would, and says whether one is
// better than best, or, where only that counts, sooner while the hand-over is late.
func (r *Replanner) try(keep calendars.Instant, best *Cost, sooner bool) (better bool) {
	for _, rule := range r.rules {
		if !r.hope(best, sooner) {
			return better
		}
		t, ok := r.atNotice(rule, keep)
		if !ok {
			continue
		}
		c := r.costOf(t, r.now)
		if c.Compare(*best) < 0 && (!sooner || c.Handover < best.Handover) {
			*best, better = c, true
			r.ahead.take(t)
			copy(r.asked.from, r.asked.trial)
		}
	}
	return better
}

// byRule looks ahead in the order of a rule, but for what has begun and what by what is known
// would start before a moment, which keeps its start.
func (r *Replanner) byRule(rule []calendars.Instant, keep calendars.Instant) (*network.Times, bool) {
	a := &r.ahead
	for i, start := range r.t.Start {
		switch sooner := max(r.now, r.asked.trial[i]); {
		case r.begun(i):
			a.key[i], a.floor[i] = start, start
		case a.start[i] < keep:
			a.key[i], a.floor[i] = r.now, max(a.start[i], sooner)
		default:
			a.key[i], a.floor[i] = max(rule[i], r.now)+1, sooner
		}
	}
	return a.of.ByKey(a.key, a.floor, a.latest)
}
