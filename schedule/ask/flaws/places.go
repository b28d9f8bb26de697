package flaws

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// places warns of work that is longer than any stretch, or than all the hours it could
// have. If there is none, it warns of what else blocks the programme, such as waits that
// can't all hold.
func (c *checker) places() {
	told := false
	hours := c.Hours
	for i := range c.Plan.Tasks {
		t, d := &c.Plan.Tasks[i], &c.Programme.Tasks[i]
		if d.Start != calendars.Never {
			continue
		}
		heads := 0
		for _, n := range d.Heads {
			heads += n
		}
		told = c.fits(t.Pos, "task "+t.ID, hours.Task(t, d.Heads), t.Effort.Time(heads), t.Unbroken) || told
	}
	for i := range c.Plan.Deliveries {
		d := &c.Plan.Deliveries[i]
		if c.Programme.Unloads[i].Start == calendars.Never {
			told = c.fits(d.Pos, "the unloading of "+d.ID, hours.Unload(d), d.Unload.Takes, true) || told
		}
	}
	if !told {
		c.causes()
	}
}

// causes warns of what blocks the programme, once of each.
func (c *checker) causes() {
	var ring []schedule.TaskID
	for i := range c.Programme.Blocked {
		b := &c.Programme.Blocked[i]
		if b.Needs == schedule.Nothing && (len(b.Ring) == 0 || !slices.Equal(ring, b.Ring)) {
			c.blocked(b)
			ring = b.Ring
		}
	}
}

// fits warns of work that its own hours never allow, and says whether it did.
func (c *checker) fits(at schedule.Pos, what string,
	own *calendars.Calendar, work calendars.Minutes, unbroken bool) bool {
	switch {
	case work == 0:
		return false
	case own.Total() == 0:
		c.warn(at, "see whose hours never meet: the place, loud hours, crews or machines",
			"%s has no place: those it needs are never there together", what)
	case own.Total() < work:
		c.warn(at, "see whose hours are too few: the place, loud hours, crews or machines",
			"%s has no place: it takes %s, and those it needs are there together for %s",
			what, c.w.Work(work), c.w.Work(own.Total()))
	case unbroken && own.Fit(c.Hours.Line.Start, work) == calendars.Never:
		c.warn(at, "let it pause, or split it", "%s has no place: it takes %s unbroken, and the longest stretch is %s",
			what, c.w.Work(work), c.w.Work(c.longest(own)))
	default:
		return false
	}
	return true
}

func (c *checker) longest(own *calendars.Calendar) calendars.Minutes {
	most := calendars.Minutes(0)
	for s := range own.Openings(c.Hours.Line.Start, c.Hours.Line.End) {
		most = max(most, s.Minutes())
	}
	return most
}

// blocked warns of the work that the programme reports as blocked.
func (c *checker) blocked(b *schedule.Blocked) {
	d, lorry := c.Plan.Delivery(b.Activity)
	switch {
	case len(b.Ring) > 0:
		c.warn(c.Plan.Tasks[b.Ring[0]].Pos, "lengthen a within, or shorten a wait or work in the ring",
			"the longest waits between these can't hold, the work and waits in the ring take longer: %s", c.ids(b.Ring))
	case lorry:
		c.warn(c.Plan.Deliveries[d].Pos, "see what it waits for", "the unloading of %s has no place from %s on",
			c.Plan.Deliveries[d].ID, c.w.Moment(b.From))
	case b.Reason.Hold:
		t := &c.Plan.Tasks[b.Activity]
		c.warn(t.Pos, "add an appointment",
			"task %s is finished %s, after the last appointment of its hold point", t.ID, c.w.Moment(b.From))
	case b.Reason.Kind == schedule.ByWithin:
		t := &c.Plan.Tasks[b.Activity]
		other := "what follows"
		if task, ok := c.Plan.Task(b.Reason.Other); ok {
			other = c.Plan.Tasks[task].ID
		}
		c.warn(t.Pos, "lengthen the within", "task %s has no place: the hours never let %s follow within %s",
			t.ID, other, c.w.Clock(b.Reason.Wait.Time))
	default:
		t := &c.Plan.Tasks[b.Activity]
		c.warn(t.Pos, "see whose hours end too soon: the place, crews or machines",
			"task %s has no place from %s on", t.ID, c.w.Moment(b.From))
	}
}
