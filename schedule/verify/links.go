package verify

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// follower is an activity that follows others.
type follower struct {
	activity      schedule.Activity
	name          string
	place         open // of its lags
	start, finish calendars.Instant
}

func (c *checker) checkLinks(id schedule.TaskID) {
	t, d := &c.p.Tasks[id], &c.g.Tasks[id]
	f := follower{
		activity: id.Activity(), name: t.ID, place: c.hours.places[t.Zones[0]], start: d.Start, finish: d.Finish,
	}
	for _, l := range t.After {
		c.checkLink(f, l)
	}
}

// checkLink checks the wait, the hold point and the longest time of a link
// between the two events that it joins.
func (c *checker) checkLink(f follower, l schedule.Link) {
	if !c.here[l.From] || c.past(f, l.Kind.ToFinish()) {
		return
	}
	from := &c.p.Tasks[l.From]
	event, moment := c.g.Tasks[l.From].Start, f.start
	if l.Kind.FromFinish() {
		event = c.g.Tasks[l.From].Finish
	}
	if l.Kind.ToFinish() {
		moment = f.finish
	}
	tell := func(rule, what string) {
		c.fault(rule, f.activity, "%s, %s after %s: %s at %s, the other at %s",
			f.name, l.Kind, from.ID, what, c.at(moment), c.at(event))
	}
	if rule := c.waited(f, l, event, moment); rule != "" {
		tell(rule, "too early")
	}
	if l.Kind.FromFinish() && from.Hold != nil && moment < c.signed[l.From] {
		tell("hold point", "before the sign-off")
	}
	if l.HasWithin && moment > event.Plus(l.Within) && !c.ran(l) {
		tell("within", "too late")
	}
}

// cured is the cure of a link: its own, or that of the task whose finish it is from.
func (c *checker) cured(l schedule.Link) calendars.Minutes {
	switch {
	case l.Wait.Kind != schedule.OwnCure:
		return l.Wait.Time
	case l.Kind.FromFinish():
		return c.p.Tasks[l.From].Cure
	}
	return 0
}

// waited names the rule when a link's wait is too short.
func (c *checker) waited(f follower, l schedule.Link, event, moment calendars.Instant) string {
	switch {
	case l.Wait.Kind == schedule.Lag && l.Wait.Time > 0:
		if moment < event || f.place.count(event, moment) < l.Wait.Time {
			return "lag"
		}
		return ""
	case l.Wait.Kind == schedule.Lag && l.Wait.Time < 0:
		// The latest instant with that much open time before the event is the
		// last from which a minute more would leave too little.
		if moment < event && f.place.count(moment+1, event) >= -l.Wait.Time {
			return "lead"
		}
		return ""
	}
	wait := c.cured(l)
	switch {
	case moment >= event.Plus(wait):
		return ""
	case wait > 0:
		return "cure"
	}
	return "link"
}

// excused says whether a task is excused from a rule.
func excused(t *schedule.Task, rule schedule.RuleID) bool {
	return slices.ContainsFunc(t.Excepts, func(e schedule.Except) bool { return e.Rule == rule })
}

// meet says whether two tasks share a zone.
func meet(a, b *schedule.Task) bool {
	for _, z := range a.Zones {
		if slices.Contains(b.Zones, z) {
			return true
		}
	}
	return false
}

// bound lists the tasks of some stages that have dates and are bound by a rule.
func (c *checker) bound(stages []schedule.StageID, rule schedule.RuleID) []schedule.TaskID {
	var out []schedule.TaskID
	for _, s := range stages {
		for _, id := range c.stages[s] {
			if !excused(&c.p.Tasks[id], rule) {
				out = append(out, id)
			}
		}
	}
	return out
}

// checkRules checks every pair of tasks that a rule puts in order.
func (c *checker) checkRules() {
	for i := range c.p.Rules {
		r := &c.p.Rules[i]
		if r.Kind != schedule.Before {
			continue
		}
		first, then := c.bound(r.First, schedule.RuleID(i)), c.bound(r.Then, schedule.RuleID(i))
		for _, a := range first {
			free := c.done[a]
			if r.HasAfter {
				free = max(c.g.Tasks[a].Finish.Plus(r.After), c.signed[a])
			}
			for _, b := range then {
				if c.p.Started(b) {
					continue
				}
				if start := c.g.Tasks[b].Start; start < free && a != b && (r.Everywhere || meet(&c.p.Tasks[a], &c.p.Tasks[b])) {
					c.fault("rule", b.Activity(), "%s starts %s, before %s holds it no more at %s: %s",
						c.p.Tasks[b].ID, c.at(start), c.p.Tasks[a].ID, c.at(free), r.Text)
				}
			}
		}
	}
}

// behind lists, for a task, which zones are reached through one of its own.
func (c *checker) behind(t *schedule.Task) []bool {
	through := make([]bool, len(c.p.Zones)) // zones whose way in crosses one of the task's
	for again := true; again; {
		again = false
		for z := range c.p.Zones {
			for _, w := range c.p.Zones[z].WayIn {
				if !through[z] && (through[w] || slices.Contains(t.Zones, w)) {
					through[z], again = true, true
				}
			}
		}
	}
	return through
}

// eachBehind calls f with every task that works behind one that closes the way
// in and isn't exempt from it.
func (c *checker) eachBehind(closer schedule.TaskID, f func(schedule.TaskID)) {
	t := &c.p.Tasks[closer]
	if !c.here[closer] || excused(t, schedule.WayIn) {
		return
	}
	through := c.behind(t)
	for i := range c.p.Tasks {
		other := &c.p.Tasks[i]
		if schedule.TaskID(i) == closer || !c.here[i] || other.OnBoards {
			continue
		}
		if !slices.ContainsFunc(other.Zones, func(z schedule.ZoneID) bool { return through[z] }) {
			continue
		}
		if stage := c.p.Stages[other.Stage]; stage == "clean" || stage == "strike" || excused(other, schedule.WayIn) {
			continue
		}
		f(schedule.TaskID(i))
	}
}

// checkWaysIn checks that what closes a way in comes after all work behind it.
func (c *checker) checkWaysIn() {
	for i := range c.p.Tasks {
		if !c.p.Tasks[i].Closes.Orders || c.p.Started(schedule.TaskID(i)) {
			continue
		}
		start := c.g.Tasks[i].Start
		c.eachBehind(schedule.TaskID(i), func(other schedule.TaskID) {
			if start < c.done[other] {
				c.fault("way in", schedule.Activity(i), "%s closes the way in %s, before %s behind it is done %s",
					c.p.Tasks[i].ID, c.at(start), c.p.Tasks[other].ID, c.at(c.done[other]))
			}
		})
	}
}
