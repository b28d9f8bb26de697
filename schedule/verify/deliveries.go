package verify

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// checkUses checks that a task starts after what it uses is unloaded.
func (c *checker) checkUses(id schedule.TaskID) {
	start := c.g.Tasks[id].Start
	for _, d := range c.p.Tasks[id].Uses {
		if c.came[d] && start < c.g.Unloads[d].Finish {
			c.fault("uses", id.Activity(), "%s starts %s, before %s is unloaded %s",
				c.p.Tasks[id].ID, c.at(start), c.p.Deliveries[d].ID, c.at(c.g.Unloads[d].Finish))
		}
	}
}

func (c *checker) checkDeliveries() {
	for i := range c.p.Deliveries {
		if !c.came[i] {
			continue
		}
		id := schedule.DeliveryID(i)
		d, u := &c.p.Deliveries[i], &c.g.Unloads[i]
		c.checkArrival(id)
		if stands := c.stands(id); u.Waiting != stands {
			c.fault("waiting time", c.p.Unload(id), "%s has %d m of waiting time, said to be %d m", d.ID, stands, u.Waiting)
		}
		c.checkUnloadingBegun(id)
		if c.p.Unloaded(id) {
			continue
		}
		if u.Start < u.Arrives {
			c.fault("arrival", c.p.Unload(id), "%s is unloaded from %s, before it arrives %s",
				d.ID, c.at(u.Start), c.at(u.Arrives))
		}
		if u.Start < c.p.Site.Opens {
			c.fault("opens", c.p.Unload(id), "%s is unloaded from %s, before the site opens", d.ID, c.at(u.Start))
		}
		for _, given := range d.Givens {
			if from := c.p.Givens[given].From; u.Start < from && !c.p.Unloading(id) {
				c.fault("given", c.p.Unload(id), "%s is unloaded from %s, before %s", d.ID, c.at(u.Start), c.at(from))
			}
		}
		f := follower{activity: c.p.Unload(id), name: d.ID, place: c.hours.site, start: u.Start, finish: u.Finish}
		for _, l := range d.After {
			c.checkLink(f, l)
		}
		c.checkUnloading(id)
	}
}

// checkArrival checks that an arrival is the booking; the crew programme may move
// a movable one within its bounds.
func (c *checker) checkArrival(id schedule.DeliveryID) {
	d, arrives := &c.p.Deliveries[id], c.g.Unloads[id].Arrives
	if arrives == d.Arrives {
		return
	}
	if c.scope == schedule.Logic || d.Movable == nil {
		c.fault("booking", c.p.Unload(id), "%s arrives %s, it is booked for %s", d.ID, c.at(arrives), c.at(d.Arrives))
	} else if arrives < d.Movable.Earliest || arrives > d.Movable.Latest {
		c.fault("movable", c.p.Unload(id), "%s arrives %s, outside %s to %s",
			d.ID, c.at(arrives), c.at(d.Movable.Earliest), c.at(d.Movable.Latest))
	}
}

// stands is the waiting time of a lorry: from its arrival to the beginning of
// unloading, less what it stands for nothing. One that is sent away has none.
func (c *checker) stands(id schedule.DeliveryID) calendars.Minutes {
	u := &c.g.Unloads[id]
	if u.Start > c.hours.gateShuts(u.Arrives) {
		return 0
	}
	return max(0, calendars.Minutes(u.Start-u.Arrives)-c.p.Deliveries[id].Waits)
}

// spoils is when living stock has been kept as long as it may be. It was lifted some
// time before the arrival; that of a lorry that was held up, before its booking; that of one
// whose loading is logged, then.
func (c *checker) spoils(id schedule.DeliveryID) calendars.Instant {
	d, due := &c.p.Deliveries[id], c.g.Unloads[id].Arrives
	if d.Loaded != 0 {
		return d.Loaded.Plus(d.Keep)
	}
	if d.Booked != 0 && d.Booked < due {
		due = d.Booked
	}
	return due.Plus(-d.Aged).Plus(d.Keep)
}

// checkUnloading checks that unloading runs unbroken for its time in gate hours
// and those of its crews and machines.
func (c *checker) checkUnloading(id schedule.DeliveryID) {
	d, u := &c.p.Deliveries[id], &c.g.Unloads[id]
	span := c.unloadingAhead(id)
	if got := calendars.Minutes(u.Finish - u.Start); got != d.Unload.Takes && !c.p.Unloading(id) {
		c.fault("unloading time", c.p.Unload(id), "%s is unloaded in %d m, it takes %d m", d.ID, got, d.Unload.Takes)
	}
	if span.Start == span.End {
		return
	}
	whole := func(o open) bool { return len(o) == 1 && o[0] == span }
	if !whole(open{span}.meet(c.hours.gate)) {
		c.fault("gate hours", c.p.Unload(id), "%s is unloaded %s to %s, outside the hours of the gate",
			d.ID, c.at(u.Start), c.at(u.Finish))
	}
	for _, need := range d.Unload.Crew {
		if !whole(c.hours.atWork(open{span}, need.Crew, need.Least)) {
			c.fault("crew hours", c.p.Unload(id), "%s is unloaded %s, outside the hours of %s",
				d.ID, c.at(u.Start), c.p.Crews[need.Crew].ID)
		}
	}
	for _, need := range d.Unload.Machines {
		m, there := &c.p.Machines[need.Machine], c.hours.gate
		if len(m.Ours) > 0 {
			there = c.hours.ours[need.Machine]
		}
		there = there.less(c.hours.away[need.Machine])
		if need.Count > m.Count || !whole(open{span}.meet(there)) {
			c.fault("machine slots", c.p.Unload(id), "%s is unloaded %s, when %s isn't there", d.ID, c.at(u.Start), m.ID)
		}
	}
}
