package verify

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// checkBlocked checks that a programme reports as without a place exactly what has no
// dates, that what needs such work has none either, and that a cause is one: what is
// needed lacks dates itself, or no hours after the hand-over serve the work.
func (c *checker) checkBlocked() {
	said := make(map[schedule.Activity]bool)
	for i := range c.g.Blocked {
		a := c.g.Blocked[i].Activity
		if a < 0 || a >= c.p.Activities() || said[a] || !c.lacks(a) {
			c.fault("blocked", a, "something that has dates, or twice the same, is said to have no place")
			continue
		}
		said[a] = true
		c.checkCause(&c.g.Blocked[i])
	}
	for a := range c.p.Activities() {
		if !c.lacks(a) {
			continue
		}
		if !said[a] {
			c.fault("blocked", a, "%s has no dates, which isn't said", c.p.ActivityID(a))
		}
	}
	c.checkNeeding()
}

// lacks says whether an activity has no dates, or is never done, and isn't left out.
func (c *checker) lacks(a schedule.Activity) bool {
	if d, ok := c.p.Delivery(a); ok {
		return c.g.Unloads[d].Start == calendars.Never
	}
	d := &c.g.Tasks[a]
	return !d.Dropped && (d.Start == calendars.Never || d.Finish == calendars.Never || c.done[a] == calendars.Never)
}

func (c *checker) hasDates(a schedule.Activity) bool {
	if d, ok := c.p.Delivery(a); ok {
		return c.came[d]
	}
	return c.here[a]
}

// checkCause checks the cause of one activity without a place. A ring of longest waits
// isn't checked, and what nothing was found for needs no cause.
func (c *checker) checkCause(b *schedule.Blocked) {
	switch {
	case b.Unfound || len(b.Ring) > 0 || b.Reason.Hold || b.Reason.Kind == schedule.ByWithin:
	case b.Needs != schedule.Nothing:
		if !c.lacks(b.Needs) || !c.comesBefore(b.Needs, b.Activity) {
			c.fault("blocked", b.Activity, "what it is said to need has dates, or doesn't come before it")
		}
	case c.servedAfter(b.Activity, max(b.From, c.p.Site.Opens)):
		c.fault("blocked", b.Activity, "%s is said to have no place, and there are hours for it from %s on",
			c.p.ActivityID(b.Activity), c.at(b.From))
	}
}

// servedAfter says whether the hours of an activity have room for its work after a
// moment, with any heads that it may have. Of very many sizes nothing is said.
func (c *checker) servedAfter(a schedule.Activity, from calendars.Instant) bool {
	span := calendars.Span{Start: from, End: max(from, c.p.Site.Handover).Plus(51 * calendars.Week)}
	far := *c
	far.hours = hoursOf(c.p, span)
	return slices.ContainsFunc(sizes(c.p.CrewOf(a)), func(crew []schedule.CrewNeed) bool {
		return far.servedBy(a, crew, span)
	})
}

// servedBy says so for heads that are no ranges.
func (c *checker) servedBy(a schedule.Activity, crew []schedule.CrewNeed, span calendars.Span) bool {
	var heads []int
	for _, n := range crew {
		heads = append(heads, n.Least)
	}
	work, takes, unbroken := open(nil), calendars.Minutes(0), true
	if d, ok := c.p.Delivery(a); ok {
		u := &c.p.Deliveries[d].Unload
		work, takes = c.hours.worked(c.hours.gate, span, crew, heads, u.Machines), u.Takes
	} else {
		id := schedule.TaskID(a)
		work, takes, unbroken = c.workable(id, heads, span), c.takesWith(id, heads), c.p.Tasks[id].Unbroken
	}
	if !unbroken || takes == 0 {
		return work.total() >= takes
	}
	return slices.ContainsFunc(work, func(s calendars.Span) bool { return calendars.Minutes(s.End-s.Start) >= takes })
}
