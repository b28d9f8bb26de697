package verify

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// finishAll finds when each task is signed off and done.
func (c *checker) finishAll() {
	c.signed = make([]calendars.Instant, len(c.p.Tasks))
	c.done = make([]calendars.Instant, len(c.p.Tasks))
	for i := range c.p.Tasks {
		if !c.here[i] {
			continue
		}
		t, finish := &c.p.Tasks[i], c.g.Tasks[i].Finish
		c.signed[i] = c.signOff(schedule.TaskID(i), finish)
		c.done[i] = max(finish.Plus(t.Cure), c.signed[i])
	}
}

// signOff is when a task's hold point is over. Signed already, it is when that
// was. With appointments it is the hold point's time, on the clock, after the
// first appointment from the finish on; otherwise its time, in hours of the
// place or on the clock, after the finish; and never before the moment of the plan's progress.
func (c *checker) signOff(id schedule.TaskID, finish calendars.Instant) calendars.Instant {
	t := &c.p.Tasks[id]
	if t.Hold == nil {
		return finish
	}
	if c.p.Progress != nil {
		was := &c.p.Progress.Tasks[id]
		if was.Signed != 0 {
			return max(was.Signed, finish)
		}
		finish = max(finish, was.Failed)
	}
	if len(t.Hold.Appointments) > 0 {
		return c.appointment(t.Hold, finish).Plus(t.Hold.Takes)
	}
	if t.Hold.OnTheClock {
		return max(finish.Plus(t.Hold.Takes), c.p.Now())
	}
	if at := c.hours.places[t.Zones[0]].after(finish, t.Hold.Takes); at != calendars.Never {
		return max(at, c.p.Now())
	}
	// The place stays closed beyond the days that the programme touches.
	far := c.farther(finish)
	return max(far.placeOf(&c.p.Zones[t.Zones[0]]).after(finish, t.Hold.Takes), c.p.Now())
}

func (c *checker) checkTasks() {
	for i := range c.p.Tasks {
		if !c.here[i] {
			continue
		}
		id := schedule.TaskID(i)
		c.checkBegun(id)
		c.checkStated(id)
		if c.p.Finished(id) {
			continue
		}
		if c.checkHeads(id) {
			c.checkWork(id)
		}
		c.checkLinks(id)
		if !c.p.Started(id) {
			c.checkEarliest(id)
			c.checkUses(id)
		}
	}
}

// checkEarliest checks the moments before which a task may not start.
func (c *checker) checkEarliest(id schedule.TaskID) {
	t, start := &c.p.Tasks[id], c.g.Tasks[id].Start
	bound := func(rule string, from calendars.Instant) {
		if start < from {
			c.fault(rule, id.Activity(), "%s starts %s, before %s", t.ID, c.at(start), c.at(from))
		}
	}
	for _, z := range t.Zones {
		if c.p.Zones[z].OffSite {
			bound("from", c.p.Zones[z].From)
		} else {
			bound("opens", c.p.Site.Opens)
		}
	}
	if t.NotBefore.IsReal() {
		bound("not_before", t.NotBefore)
	}
	for _, given := range t.Givens {
		bound("given", c.p.Givens[given].From)
	}
}

// checkHeads says whether the heads are in the crew ranges and fit the zones,
// and reports those that don't.
func (c *checker) checkHeads(id schedule.TaskID) bool {
	t, heads := &c.p.Tasks[id], c.g.Tasks[id].Heads
	if len(heads) != len(t.Crew) {
		c.fault("heads", id.Activity(), "%s has heads of %d crews, it needs %d", t.ID, len(heads), len(t.Crew))
		return false
	}
	fine := true
	for k, need := range t.Crew {
		if heads[k] < need.Least || heads[k] > need.Most {
			c.fault("heads", id.Activity(), "%s has %d of %s, outside %d to %d",
				t.ID, heads[k], c.p.Crews[need.Crew].ID, need.Least, need.Most)
			fine = false
		}
	}
	for z := range c.p.Zones {
		room := c.room(id, schedule.ZoneID(z))
		if most := c.p.Zones[z].People; most > 0 && room > most {
			c.fault("heads", id.Activity(), "%s takes room for %d, %s holds %d", t.ID, room, c.p.Zones[z].ID, most)
			fine = false
		}
	}
	return fine
}

// room is what a task takes of a zone: heads where it works, and machine places there
// or where the machine is said to stand instead.
func (c *checker) room(id schedule.TaskID, z schedule.ZoneID) int {
	t, n := &c.p.Tasks[id], 0
	if slices.Contains(t.Zones, z) {
		for _, heads := range c.g.Tasks[id].Heads {
			n += heads
		}
	}
	for _, need := range t.Machines {
		if slices.Contains(stands(need, t.Zones), z) {
			n += need.Count * c.p.Machines[need.Machine].Places
		}
	}
	return n
}

// stands are the zones in which a machine for work in some zones stands.
func stands(need schedule.MachineNeed, zones []schedule.ZoneID) []schedule.ZoneID {
	if len(need.Stands) > 0 {
		return need.Stands
	}
	return zones
}

// worked is the time in which a task is worked, the past left out.
func (c *checker) worked(id schedule.TaskID) open {
	return c.workable(id, c.g.Tasks[id].Heads, c.ahead(id))
}

// workable is the part of a span in which a task can be worked by some heads.
func (c *checker) workable(id schedule.TaskID, heads []int, span calendars.Span) open {
	t := &c.p.Tasks[id]
	place := c.hours.places[t.Zones[0]]
	o := c.hours.worked(place, span, t.Crew, heads, t.Machines)
	if t.Loud && c.p.Site.Loud != nil && !c.p.OffSite(t) {
		o = o.meet(c.hours.loud)
	}
	if t.Weather&schedule.Dry != 0 {
		o = o.less(c.hours.wet(place, t))
	}
	if t.Weather&schedule.Calm != 0 {
		o = o.less(c.hours.windy())
	}
	if t.Weather&schedule.Mild != 0 {
		o = o.less(c.hours.harsh())
	}
	return o.less(join(slices.Clone(t.Stops)))
}

// checkWork checks that a task starts on a worked minute, finishes at the end
// of one, and works exactly its time in between; a task in hand, exactly its
// rest.
func (c *checker) checkWork(id schedule.TaskID) {
	t, span := &c.p.Tasks[id], c.ahead(id)
	takes := c.takes(id)
	if takes == 0 {
		if span.Start != span.End {
			c.fault("working time", id.Activity(), "%s takes no time but finishes after it starts", t.ID)
		}
		c.checkStretches(id, nil)
		return
	}
	if rule, who := c.closed(id, span.Start); rule != "" {
		c.fault(rule, id.Activity(), "%s starts %s, outside the hours of %s", t.ID, c.at(span.Start), who)
	}
	if rule, who := c.closed(id, span.End-1); rule != "" {
		c.fault(rule, id.Activity(), "%s finishes %s, outside the hours of %s", t.ID, c.at(span.End), who)
	}
	work := c.worked(id)
	c.checkStretches(id, work)
	if got := work.total(); got != takes {
		c.fault("working time", id.Activity(), "%s works %d m between its dates, it takes %d m", t.ID, got, takes)
	}
	if t.Unbroken && len(work) > 1 && !c.p.Started(id) {
		c.fault("unbroken", id.Activity(), "%s pauses %s, it may not", t.ID, c.at(work[0].End))
	}
}

// takes is the working time still to come with the heads that the programme has.
func (c *checker) takes(id schedule.TaskID) calendars.Minutes {
	return c.takesWith(id, c.g.Tasks[id].Heads)
}

// takesWith is that time with some heads.
func (c *checker) takesWith(id schedule.TaskID, by []int) calendars.Minutes {
	effort := c.p.Tasks[id].Effort
	if c.p.Started(id) {
		effort = c.p.Progress.Tasks[id].Left
	}
	if effort.Num == 0 {
		return effort.Takes
	}
	heads := 0
	for _, n := range by {
		heads += n
	}
	each := effort.Den * int64(max(heads, 1))
	return calendars.Minutes((effort.Num + each - 1) / each)
}

// checkStretches checks that the stretches the programme gives as worked are
// those in the past, and then those that it works.
func (c *checker) checkStretches(id schedule.TaskID, work open) {
	var was open
	if c.p.Started(id) {
		was = c.p.Progress.Tasks[id].Worked
	}
	if stated := c.g.Tasks[id].Work; !slices.Equal(stated, append(slices.Clip(was), work...)) {
		c.fault("work", id.Activity(), "%s is worked in %d stretches, other than the %d said",
			c.p.Tasks[id].ID, len(was)+len(work), len(stated))
	}
}

// checkStated checks that the programme gives the sign-off and the end of a
// task as they are.
func (c *checker) checkStated(id schedule.TaskID) {
	t, d := &c.p.Tasks[id], &c.g.Tasks[id]
	if d.Signed != c.signed[id] {
		c.fault("signed", id.Activity(), "%s is signed off %s, said to be %s", t.ID, c.at(c.signed[id]), c.at(d.Signed))
	}
	if d.Done != c.done[id] {
		c.fault("done", id.Activity(), "%s is done %s, said to be %s", t.ID, c.at(c.done[id]), c.at(d.Done))
	}
}

// closed names the rule that keeps a task from working in the minute at t, and
// whose hours it is; empty when it can work.
func (c *checker) closed(id schedule.TaskID, t calendars.Instant) (rule, who string) {
	task := &c.p.Tasks[id]
	minute := open{{Start: t, End: t + 1}}
	if zone := task.Zones[0]; !c.hours.places[zone].holds(t) {
		if c.p.Zones[zone].OffSite {
			return "place hours", c.p.Zones[zone].ID
		}
		return "site hours", "the site"
	}
	if task.Loud && c.p.Site.Loud != nil && !c.p.OffSite(task) && !c.hours.loud.holds(t) {
		return "loud hours", "loud work"
	}
	for k, need := range task.Crew {
		if len(c.hours.atWork(minute, need.Crew, c.g.Tasks[id].Heads[k])) == 0 {
			return "crew hours", c.p.Crews[need.Crew].ID
		}
	}
	for _, need := range task.Machines {
		if !c.ours(need, t) {
			return "machine slots", c.p.Machines[need.Machine].ID
		}
	}
	if join(slices.Clone(task.Stops)).holds(t) {
		return "stop", task.ID
	}
	return c.wet(task, t)
}

// wet names the rule that keeps work that must be dry, calm or mild from going on at t.
func (c *checker) wet(t *schedule.Task, at calendars.Instant) (rule, who string) {
	if t.Weather&schedule.Dry != 0 && c.hours.wet(c.hours.places[t.Zones[0]], t).holds(at) {
		return "wet day", "dry work"
	}
	if t.Weather&schedule.Calm != 0 && c.hours.windy().holds(at) {
		return "windy day", "calm work"
	}
	if t.Weather&schedule.Mild != 0 && c.hours.harsh().holds(at) {
		return "frost or heat", "mild work"
	}
	return "", ""
}

// ours says whether as many of a machine as needed are there in the minute at t.
func (c *checker) ours(need schedule.MachineNeed, t calendars.Instant) bool {
	m := &c.p.Machines[need.Machine]
	return need.Count <= m.Count && (len(m.Ours) == 0 || c.hours.ours[need.Machine].holds(t)) &&
		!c.hours.away[need.Machine].holds(t)
}
