package verify

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// overlap says whether two tasks' whole spans, pauses included, share a minute
// that is still to come.
func (c *checker) overlap(a, b schedule.TaskID) bool {
	x, y := c.ahead(a), c.ahead(b)
	return max(x.Start, y.Start) < min(x.End, y.End)
}

// checkApart checks that tasks kept apart, by name or by a rule, never overlap.
func (c *checker) checkApart() {
	for i := range c.p.Tasks {
		for _, other := range c.p.Tasks[i].Apart {
			if c.here[i] && c.here[other] && c.overlap(schedule.TaskID(i), other) {
				c.overlaps(other, schedule.TaskID(i), "apart")
			}
		}
	}
	for i := range c.p.Rules {
		if c.p.Rules[i].Kind == schedule.Apart {
			c.checkApartRule(schedule.RuleID(i))
		}
	}
}

func (c *checker) checkApartRule(id schedule.RuleID) {
	r := &c.p.Rules[id]
	first, then := c.bound(r.First, id), c.bound(r.Then, id)
	for _, a := range first {
		for _, b := range then {
			if a != b && c.overlap(a, b) && (r.Everywhere || meet(&c.p.Tasks[a], &c.p.Tasks[b])) {
				c.overlaps(a, b, r.Text)
			}
		}
	}
}

func (c *checker) overlaps(a, b schedule.TaskID, why string) {
	c.fault("apart", b.Activity(), "%s overlaps %s: %s", c.p.Tasks[b].ID, c.p.Tasks[a].ID, why)
}

// works says whether a task works in the span, and from when.
func (c *checker) works(id schedule.TaskID, o open) (calendars.Instant, bool) {
	d, span := &c.g.Tasks[id], c.ahead(id)
	if len(o) == 0 || span.End <= o[0].Start || span.Start >= o[len(o)-1].End || len(d.Heads) != len(c.p.Tasks[id].Crew) {
		return 0, false
	}
	both := c.worked(id).meet(o)
	if len(both) == 0 {
		return 0, false
	}
	return both[0].Start, true
}

// checkClears checks that nobody else works in the zones that a task clears, and no
// machine of others stands there at work, in the time in which it is worked, and in its
// pauses if it stays.
func (c *checker) checkClears() {
	for i := range c.p.Tasks {
		t := &c.p.Tasks[i]
		if len(t.Clears) == 0 || !c.here[i] || len(c.g.Tasks[i].Heads) != len(t.Crew) {
			continue
		}
		work := c.worked(schedule.TaskID(i))
		if span := c.ahead(schedule.TaskID(i)); t.Stays && len(work) > 0 {
			work = open{span}
		}
		c.clearOfWork(schedule.TaskID(i), work)
		c.clearOfLorries(t, work)
	}
}

// clearOfWork checks that no other task is worked in what a task clears in its time.
func (c *checker) clearOfWork(id schedule.TaskID, during open) {
	t := &c.p.Tasks[id]
	for j := range c.p.Tasks {
		o, other := &c.p.Tasks[j], schedule.TaskID(j)
		if other == id || !c.here[j] || !inZones(t.Clears, o.Zones, o.Machines) {
			continue
		}
		if at, found := c.works(other, during); found {
			c.fault("clears", other.Activity(), "%s works %s, in a zone that %s clears", o.ID, c.at(at), t.ID)
		}
	}
}

// clearOfLorries checks that no machine stands there for an unloading meanwhile.
func (c *checker) clearOfLorries(t *schedule.Task, during open) {
	for j := range c.p.Deliveries {
		d, id := &c.p.Deliveries[j], schedule.DeliveryID(j)
		if !c.came[j] || !inZones(t.Clears, nil, d.Unload.Machines) {
			continue
		}
		if both := (open{c.unloadingAhead(id)}).meet(during); len(both) > 0 {
			c.fault("clears", c.p.Unload(id), "a machine for %s stands %s in a zone that %s clears",
				d.ID, c.at(both[0].Start), t.ID)
		}
	}
}

// inZones says whether work in some zones, or a machine of it, is in any of others.
func inZones(others, zones []schedule.ZoneID, machines []schedule.MachineNeed) bool {
	there := func(z schedule.ZoneID) bool { return slices.Contains(others, z) }
	return slices.ContainsFunc(zones, there) || slices.ContainsFunc(machines, func(need schedule.MachineNeed) bool {
		return slices.ContainsFunc(need.Stands, there)
	})
}

// checkClosings checks that nobody works behind a way in while it is closed for
// a time: from the start of the task that closes it until the given time after
// its finish.
func (c *checker) checkClosings() {
	for i := range c.p.Tasks {
		t := &c.p.Tasks[i]
		if !t.Closes.Timed || !c.here[i] {
			continue
		}
		shut := c.ahead(schedule.TaskID(i))
		shut.End = shut.End.Plus(t.Closes.For)
		c.eachBehind(schedule.TaskID(i), func(other schedule.TaskID) {
			if at, found := c.works(other, open{}.with(shut)); found {
				c.fault("closes_way_in", other.Activity(),
					"%s works %s, behind the way in that %s closes", c.p.Tasks[other].ID, c.at(at), t.ID)
			}
		})
	}
}
