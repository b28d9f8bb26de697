package verify

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// checkDates works out the broken dates, the finish and the margins, and checks
// that the programme reports the same. If some work has no place, they are those of
// the rest.
func (c *checker) checkDates() {
	c.result.Breaks = c.breaks()
	c.compareBreaks()
	c.checkOptional()
	c.checkBlocked()
	finish := c.finish()
	if finish != c.g.Finish {
		c.fault("finish", schedule.Nothing, "the last required work is done %s, reported %s", c.at(finish), c.at(c.g.Finish))
	}
	if want := c.margin(finish, c.p.Site.Handover); want != c.g.Handover {
		c.fault("margin", schedule.Nothing, "the margin to the hand-over is %v, reported %v", want, c.g.Handover)
	}
	want := schedule.Margin{}
	if c.p.Site.Aim.IsReal() {
		want = c.margin(finish, c.p.Site.Aim)
	}
	if want != c.g.Aim {
		c.fault("aim", schedule.Nothing, "the margin to the aim is %v, reported %v", want, c.g.Aim)
	}
}

// finish is when the last required activity that has a place is done, not before the
// site opens.
func (c *checker) finish() calendars.Instant {
	last := c.p.Site.Opens
	for i := range c.p.Tasks {
		if c.required(schedule.TaskID(i)) && c.here[i] && c.done[i] != calendars.Never {
			last = max(last, c.done[i])
		}
	}
	for i := range c.p.Deliveries {
		if c.awaited(schedule.DeliveryID(i)) && c.came[i] {
			last = max(last, c.g.Unloads[i].Finish)
		}
	}
	return last
}

// awaited says whether a lorry must be over by the hand-over: all but those that serve
// optional work alone, by what they bring or, going out, by what they come after.
func (c *checker) awaited(d schedule.DeliveryID) bool {
	serves := false
	for i := range c.p.Tasks {
		t := schedule.TaskID(i)
		served := slices.Contains(c.p.Tasks[i].Uses, d)
		if c.p.Deliveries[d].Out {
			served = served || slices.ContainsFunc(c.p.Deliveries[d].After, func(l schedule.Link) bool { return l.From == t })
		}
		if served && c.required(t) {
			return true
		}
		serves = serves || served
	}
	return !serves
}

// margin is the site's time from the finish to a date, negative when later; on
// the clock when the lateness lies wholly in closed time.
func (c *checker) margin(finish, date calendars.Instant) schedule.Margin {
	if finish <= date {
		return schedule.Margin{Time: c.hours.site.count(finish, date)}
	}
	if late := c.hours.site.count(date, finish); late > 0 {
		return schedule.Margin{Time: -late}
	}
	return schedule.Margin{Time: calendars.Minutes(date - finish), Clock: true}
}

// breaks lists the broken dates by kind and activity.
func (c *checker) breaks() []schedule.Break {
	var out []schedule.Break
	add := func(b schedule.Break) {
		if b.Actual > b.Limit && b.Actual != calendars.Never {
			out = append(out, b)
		}
	}
	date := func(kind schedule.BreakKind, of schedule.Activity, limit, actual calendars.Instant) {
		add(schedule.Break{Kind: kind, Activity: of, Stock: schedule.None, Limit: limit, Actual: actual})
	}
	for i := range c.p.Tasks {
		id, t, finish := schedule.Activity(i), &c.p.Tasks[i], c.g.Tasks[i].Finish
		if !c.here[i] {
			continue
		}
		if c.required(schedule.TaskID(i)) {
			date(schedule.BreakHandover, id, c.p.Site.Handover, c.done[i])
		}
		if t.By.IsReal() {
			date(schedule.BreakBy, id, t.By, finish)
		}
		for _, d := range t.Uses {
			if c.p.Deliveries[d].Keep > 0 && c.came[d] {
				add(schedule.Break{Kind: schedule.BreakKeep, Activity: id, Stock: d, Limit: c.spoils(d), Actual: finish})
			}
		}
	}
	c.lorries(date)
	c.limits(add)
	slices.SortFunc(out, c.byKind)
	return out
}

// lorries reports the limits that lorries have, each with what it is to keep.
func (c *checker) lorries(date func(schedule.BreakKind, schedule.Activity, calendars.Instant, calendars.Instant)) {
	for i := range c.p.Deliveries {
		id, u := c.p.Unload(schedule.DeliveryID(i)), &c.g.Unloads[i]
		if !c.came[i] {
			continue
		}
		if c.awaited(schedule.DeliveryID(i)) {
			date(schedule.BreakHandover, id, c.p.Site.Handover, u.Finish)
		}
		date(schedule.BreakSentAway, id, c.hours.gateShuts(u.Arrives), u.Start)
	}
}

// checkOptional checks that a crew programme plans nothing optional beyond the line,
// its own date or the keep of what it uses. Once begun, a task is required.
func (c *checker) checkOptional() {
	if c.scope == schedule.Logic {
		return
	}
	for i := range c.p.Tasks {
		id, t := schedule.TaskID(i), &c.p.Tasks[i]
		if !c.here[i] || c.required(id) {
			continue
		}
		if c.done[i] > c.p.Site.Handover {
			c.fault("optional", id.Activity(), "%s is optional, yet planned beyond the hand-over", t.ID)
		}
		for _, b := range c.result.Breaks {
			if b.Activity == id.Activity() {
				c.fault("optional", id.Activity(), "%s is optional, yet planned beyond its date %s", t.ID, c.at(b.Limit))
			}
		}
	}
}

// required says whether a task must be done by the hand-over: it isn't optional, or
// has begun.
func (c *checker) required(t schedule.TaskID) bool { return !c.p.Tasks[t].Optional || c.p.Started(t) }

// byKind orders broken dates by kind, lorries before tasks.
func (c *checker) byKind(a, b schedule.Break) int {
	_, first := c.p.Delivery(a.Activity)
	_, second := c.p.Delivery(b.Activity)
	switch {
	case a.Kind == b.Kind && first && !second:
		return -1
	case a.Kind == b.Kind && second && !first:
		return 1
	}
	return cmp.Or(cmp.Compare(a.Kind, b.Kind), cmp.Compare(a.Activity, b.Activity), cmp.Compare(a.Stock, b.Stock),
		cmp.Compare(a.Limit, b.Limit))
}

// compareBreaks checks that the broken dates reported are those found.
func (c *checker) compareBreaks() {
	reported := slices.SortedFunc(slices.Values(c.g.Breaks), c.byKind)
	told, found := among(reported), among(c.result.Breaks)
	for _, b := range c.result.Breaks {
		if !told[b] {
			c.fault("breaks", b.Activity, "a broken date is not reported as it is: limit %s, actual %s",
				c.at(b.Limit), c.at(b.Actual))
		}
	}
	for i, b := range reported {
		if !found[b] || i > 0 && reported[i-1] == b {
			c.fault("breaks", b.Activity, "a date is reported broken that isn't, or twice: limit %s, actual %s",
				c.at(b.Limit), c.at(b.Actual))
		}
	}
}

// among says which dates are among some; there may be as many as tasks.
func among(some []schedule.Break) map[schedule.Break]bool {
	out := make(map[schedule.Break]bool, len(some))
	for _, b := range some {
		out[b] = true
	}
	return out
}
