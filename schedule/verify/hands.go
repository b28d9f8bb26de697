package verify

import (
	"cmp"
	"slices"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// use is what a task or an unloading holds of something shared over a span.
type use struct {
	span     calendars.Span
	n        int
	activity schedule.Activity
}

// shared is something with a number of places over time, and who uses it.
type shared struct {
	rule, name string
	there      []team // places over time
	uses       []use
}

// always is a number of places that never changes.
func always(n int) []team {
	return []team{{calendars.Span{Start: calendars.Past, End: calendars.Never}, n}}
}

// shares are the plan's crews, machines and zones, not used yet.
func (c *checker) shares() (crews, machines, zones []shared) {
	for i := range c.p.Crews {
		crews = append(crews, shared{rule: "crew", name: c.p.Crews[i].ID, there: c.hours.crews[i]})
	}
	for i := range c.p.Machines {
		machines = append(machines, shared{rule: "machine", name: c.p.Machines[i].ID, there: always(c.p.Machines[i].Count)})
	}
	for i := range c.p.Zones {
		zones = append(zones, shared{rule: "zone", name: c.p.Zones[i].ID, there: always(c.p.Zones[i].People)})
	}
	return crews, machines, zones
}

// checkHands checks for every minute that no crew, machine, zone or gate is
// used by more than there are.
func (c *checker) checkHands() {
	crews, machines, zones := c.shares()
	gate := shared{rule: "gate", name: "the gate"}
	for i := range c.p.Tasks {
		if c.here[i] && len(c.g.Tasks[i].Heads) == len(c.p.Tasks[i].Crew) {
			c.usedByTask(schedule.TaskID(i), crews, machines, zones)
		}
	}
	for i := range c.p.Deliveries {
		if c.came[i] {
			c.usedByLorry(schedule.DeliveryID(i), crews, machines, zones, &gate)
		}
	}
	if g := c.p.Site.Gate; g != nil && g.AtOnce > 0 {
		gate.there = always(g.AtOnce)
		c.checkShared(&gate)
	}
	for _, list := range [][]shared{crews, machines} {
		for i := range list {
			c.checkShared(&list[i])
		}
	}
	for i := range zones {
		if c.p.Zones[i].People > 0 {
			c.checkShared(&zones[i])
		}
	}
}

// usedByTask notes what a task uses: people during its worked time; machines
// and room during the same time, or from start to finish when it stays.
func (c *checker) usedByTask(id schedule.TaskID, crews, machines, zones []shared) {
	t, d := &c.p.Tasks[id], &c.g.Tasks[id]
	work := c.worked(id)
	held := work
	if span := c.ahead(id); t.Stays && span.Start < span.End {
		held = open{span}
	}
	hold := func(s *shared, over open, n int) {
		for _, span := range over {
			s.uses = append(s.uses, use{span, n, id.Activity()})
		}
	}
	for k, need := range t.Crew {
		hold(&crews[need.Crew], work, d.Heads[k])
	}
	for _, need := range t.Machines {
		hold(&machines[need.Machine], held, need.Count)
	}
	for z := range zones {
		if room := c.room(id, schedule.ZoneID(z)); room > 0 {
			hold(&zones[z], held, room)
		}
	}
}

func (c *checker) usedByLorry(id schedule.DeliveryID, crews, machines, zones []shared, gate *shared) {
	d, a, span := &c.p.Deliveries[id], c.p.Unload(id), c.unloadingAhead(id)
	gate.uses = append(gate.uses, use{span, 1, a})
	for _, need := range d.Unload.Crew {
		crews[need.Crew].uses = append(crews[need.Crew].uses, use{span, need.Least, a})
	}
	for _, need := range d.Unload.Machines {
		machines[need.Machine].uses = append(machines[need.Machine].uses, use{span, need.Count, a})
		for _, z := range need.Stands {
			zones[z].uses = append(zones[z].uses, use{span, need.Count * c.p.Machines[need.Machine].Places, a})
		}
	}
}

// checkShared steps through the moments at which the use or the number of
// places changes, and checks at each that no more are used than there are.
func (c *checker) checkShared(s *shared) {
	type change struct {
		at    calendars.Instant
		spare int
	}
	var changes []change
	for _, t := range s.there {
		changes = append(changes, change{t.span.Start, t.heads}, change{t.span.End, -t.heads})
	}
	for _, u := range s.uses {
		if u.span.Start < u.span.End {
			changes = append(changes, change{u.span.Start, -u.n}, change{u.span.End, u.n})
		}
	}
	slices.SortFunc(changes, func(a, b change) int { return cmp.Compare(a.at, b.at) })
	spare, over := 0, false
	for i, ch := range changes {
		spare += ch.spare
		if i+1 < len(changes) && changes[i+1].at == ch.at {
			continue
		}
		if spare < 0 && !over {
			c.tellOver(s, ch.at, -spare)
		}
		over = spare < 0
	}
}

// tellOver reports that something shared is over-full and who uses it; the last
// to start is at fault.
func (c *checker) tellOver(s *shared, at calendars.Instant, short int) {
	var names []string
	last := use{activity: schedule.Nothing}
	for _, u := range s.uses {
		if !u.span.Holds(at) {
			continue
		}
		if last.n == 0 || u.span.Start >= last.span.Start {
			last = u
		}
		names = append(names, c.p.ActivityID(u.activity))
	}
	c.fault(s.rule, last.activity, "%s is %d short from %s, used by %s",
		s.name, short, c.at(at), strings.Join(names, ", "))
}
