package verify

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// ahead is the span of what is still to come of a task: all of it before it is
// started, its rest while it is in hand, nothing after.
func (c *checker) ahead(id schedule.TaskID) calendars.Span {
	d := &c.g.Tasks[id]
	switch {
	case c.p.Finished(id):
		return calendars.Span{Start: d.Finish, End: d.Finish}
	case c.p.Started(id):
		return calendars.Span{Start: d.Resumes, End: d.Finish}
	}
	return calendars.Span{Start: d.Start, End: d.Finish}
}

// unloadingAhead is the span of what is still to come of an unloading.
func (c *checker) unloadingAhead(id schedule.DeliveryID) calendars.Span {
	u := &c.g.Unloads[id]
	switch {
	case c.p.Unloaded(id):
		return calendars.Span{Start: u.Finish, End: u.Finish}
	case c.p.Unloading(id):
		return calendars.Span{Start: u.Finish.Plus(-c.p.Progress.Deliveries[id].Left), End: u.Finish}
	}
	return calendars.Span{Start: u.Start, End: u.Finish}
}

// checkBegun checks that what has happened of a task is shown as it happened,
// that its rest doesn't go on in the past, and that nothing else starts in the
// past.
func (c *checker) checkBegun(id schedule.TaskID) {
	t, d := &c.p.Tasks[id], &c.g.Tasks[id]
	if !c.p.Started(id) {
		if d.Resumes != 0 {
			c.fault("progress", id.Activity(), "%s goes on %s without having begun", t.ID, c.at(d.Resumes))
		}
		if now := c.p.Now(); d.Start < now {
			c.fault("past", id.Activity(), "%s starts %s, in the past", t.ID, c.at(d.Start))
		}
		return
	}
	was := &c.p.Progress.Tasks[id]
	if d.Start != was.Start {
		c.fault("progress", id.Activity(), "%s starts %s, it did %s", t.ID, c.at(d.Start), c.at(was.Start))
	}
	if was.Finish != 0 {
		if d.Finish != was.Finish || d.Resumes != 0 {
			c.fault("progress", id.Activity(), "%s finishes %s, it did %s", t.ID, c.at(d.Finish), c.at(was.Finish))
		}
		if !slices.Equal(d.Work, was.Worked) {
			c.fault("progress", id.Activity(), "%s is said to be worked at other times than it was", t.ID)
		}
		return
	}
	if d.Resumes < c.p.Progress.At {
		c.fault("past", id.Activity(), "the rest of %s goes on %s, in the past", t.ID, c.at(d.Resumes))
	}
}

// checkUnloadingBegun checks an unloading as checkBegun checks a task.
func (c *checker) checkUnloadingBegun(id schedule.DeliveryID) {
	d, u := &c.p.Deliveries[id], &c.g.Unloads[id]
	if span := c.unloadingAhead(id); !c.p.Unloaded(id) && span.Start < c.p.Now() {
		c.fault("past", c.p.Unload(id), "%s is unloaded %s, in the past", d.ID, c.at(span.Start))
	}
	if !c.p.Unloading(id) {
		return
	}
	was := &c.p.Progress.Deliveries[id]
	if u.Start != was.Start || was.Finish != 0 && u.Finish != was.Finish {
		c.fault("progress", c.p.Unload(id), "%s is unloaded %s to %s, it was from %s",
			d.ID, c.at(u.Start), c.at(u.Finish), c.at(was.Start))
	}
}

// past says whether the event of a follower that a link holds has happened.
func (c *checker) past(f follower, finish bool) bool {
	if finish {
		return c.p.Over(f.activity)
	}
	return c.p.Begun(f.activity)
}

// limits yields the longest waits from an event that has happened to one that
// hasn't: these are dates that may break.
func (c *checker) limits(yield func(schedule.Break)) {
	each := func(links []schedule.Link, a schedule.Activity) {
		for _, l := range links {
			if !l.HasWithin || c.past(follower{activity: a}, l.Kind.ToFinish()) || !c.ran(l) {
				continue
			}
			event, moment := c.p.Progress.Tasks[l.From].Start, c.g.Of(a).Start
			if l.Kind.FromFinish() {
				event = c.p.Progress.Tasks[l.From].Finish
			}
			if l.Kind.ToFinish() {
				moment = c.g.Of(a).Finish
			}
			yield(schedule.Break{
				Kind: schedule.BreakWithin, Activity: a, Stock: schedule.None, Limit: event.Plus(l.Within), Actual: moment,
			})
		}
	}
	for i := range c.p.Tasks {
		if c.here[i] {
			each(c.p.Tasks[i].After, schedule.Activity(i))
		}
	}
	for i := range c.p.Deliveries {
		if c.came[i] {
			each(c.p.Deliveries[i].After, c.p.Unload(schedule.DeliveryID(i)))
		}
	}
}

// ran says whether the event that a link runs from has happened.
func (c *checker) ran(l schedule.Link) bool {
	if l.Kind.FromFinish() {
		return c.p.Finished(l.From)
	}
	return c.p.Started(l.From)
}
