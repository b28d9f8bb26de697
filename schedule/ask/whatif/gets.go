package whatif

import (
	"cmp"
	"slices"
	"strings"

	"build.example/turflast/schedule"
)

// needs has a task need so many of crews and machines, which there are on some day.
func (a *applying) needs(t *schedule.Task, said []schedule.NewNeed) {
	t.Crew, t.Machines = slices.Clone(t.Crew), slices.Clone(t.Machines)
	named := map[string]bool{}
	for _, n := range said {
		what, i := a.lookup(n.Name, crew, machine)
		if a.fault != nil {
			return
		}
		id, name, _ := a.named(what, i)
		if named[id] {
			a.fail(a.c.Columns.Name, "say it once", "%s are named twice", name)
		}
		if named[id] = true; what == crew {
			a.heedCrew(t, schedule.CrewID(i), n)
		} else {
			a.heedMachine(t, schedule.MachineID(i), n)
		}
	}
}

// heedCrew has a task need so many of a crew.
func (a *applying) heedCrew(t *schedule.Task, id schedule.CrewID, n schedule.NewNeed) {
	c := &a.p.Crews[id]
	most := c.People
	for _, on := range c.PeopleOn {
		most = max(most, on.People)
	}
	if n.Least > most {
		a.fail(a.c.Columns.Name, "need fewer, or say that there are more on a date",
			"%s are %d at most, not %d", c.Name, most, n.Least)
	}
	need := schedule.CrewNeed{Crew: id, Least: n.Least, Most: n.Most}
	if at := slices.IndexFunc(t.Crew, func(c schedule.CrewNeed) bool { return c.Crew == id }); at >= 0 {
		t.Crew[at] = need
	} else {
		t.Crew = append(t.Crew, need)
	}
}

// heedMachine has a task need so many of a machine.
func (a *applying) heedMachine(t *schedule.Task, id schedule.MachineID, n schedule.NewNeed) {
	m := &a.p.Machines[id]
	switch {
	case n.Most > n.Least:
		a.fail(a.c.Columns.Name, "say one number", "a task needs so many of %s and no range", m.Name)
	case n.Least > m.Count:
		a.fail(a.c.Columns.Name, "need fewer", "there are %d of %s, not %d", m.Count, m.Name, n.Least)
	}
	if at := slices.IndexFunc(t.Machines, func(m schedule.MachineNeed) bool { return m.Machine == id }); at >= 0 {
		t.Machines[at].Count = n.Least
	} else {
		t.Machines = append(t.Machines, schedule.MachineNeed{Machine: id, Count: n.Least})
	}
}

// use has a task use lorries.
func (a *applying) use(t *schedule.Task, names []string) {
	t.Uses = slices.Clone(t.Uses)
	for _, name := range names {
		_, i := a.lookup(name, delivery)
		switch d := schedule.DeliveryID(i); {
		case a.fault != nil:
		case a.p.Deliveries[d].Out:
			a.fail(a.c.Columns.Name, "name one that brings something", "%s goes out", a.p.Deliveries[d].What)
		case slices.Contains(t.Uses, d):
			a.fail(a.c.Columns.Name, "leave it out", "it uses %s already", schedule.QuoteWord(name))
		default:
			t.Uses = append(t.Uses, d)
		}
	}
}

// room refuses more people, and machines for what room they take, than a zone holds.
func (a *applying) room(t *schedule.Task) {
	heads := 0
	for _, c := range t.Crew {
		heads += c.Least
	}
	for z := range a.p.Zones {
		zone, here := &a.p.Zones[z], slices.Contains(t.Zones, schedule.ZoneID(z))
		takes := 0
		if here {
			takes = heads
		}
		for _, m := range t.Machines {
			if m.Stands == nil && here || slices.Contains(m.Stands, schedule.ZoneID(z)) {
				takes += m.Count * a.p.Machines[m.Machine].Places
			}
		}
		if zone.People > 0 && takes > zone.People {
			what := "people"
			if takes > heads {
				what = "people with its machines"
			}
			a.fail(a.c.Columns.Name, "need fewer", "%s holds %d people, not %d %s", zone.Name, zone.People, takes, what)
		}
	}
}

// alter changes a copy of a task that isn't begun, and puts it into the plan unless that is
// refused.
func (a *applying) alter(change func(*schedule.Task)) {
	_, i := a.find(task)
	if a.fault != nil {
		return
	}
	if a.p.Started(schedule.TaskID(i)) {
		a.fail(a.c.Columns.Name, "", "%s is under way or done", a.p.Tasks[i].Name)
		return
	}
	t := a.p.Tasks[i]
	if change(&t); a.fault == nil {
		a.p.Tasks = slices.Clone(a.p.Tasks)
		a.p.Tasks[i] = t
	}
}

// giveNeeds gives a task so many of crews and machines.
func (a *applying) giveNeeds() {
	a.alter(func(t *schedule.Task) {
		was := *t
		a.needs(t, a.c.New.Needs)
		a.room(t)
		a.otherHeads(&was, t)
	})
}

// otherHeads refuses other heads for shared work whose best and worst times the plan has said: those
// would be of other heads then.
func (a *applying) otherHeads(was, t *schedule.Task) {
	if t.Spread != nil && t.Effort.Shared() && !slices.Equal(was.Crew, t.Crew) {
		a.fail(a.c.Columns.Name, "change both in the plan",
			"the best and the worst time of %s are of as many heads as it has", t.Name)
	}
}

// giveUses has a task use lorries more.
func (a *applying) giveUses() {
	a.alter(func(t *schedule.Task) { a.use(t, a.c.After) })
}

// takeOff takes crews, machines and lorries off a task.
func (a *applying) takeOff() {
	a.alter(func(t *schedule.Task) {
		was := *t
		t.Crew, t.Machines, t.Uses = slices.Clone(t.Crew), slices.Clone(t.Machines), slices.Clone(t.Uses)
		for _, name := range a.c.After {
			what, i := a.lookup(name, crew, machine, delivery)
			before := len(t.Crew) + len(t.Machines) + len(t.Uses)
			switch what {
			case crew:
				t.Crew = slices.DeleteFunc(t.Crew, func(n schedule.CrewNeed) bool { return int(n.Crew) == i })
			case machine:
				t.Machines = slices.DeleteFunc(t.Machines, func(n schedule.MachineNeed) bool { return int(n.Machine) == i })
			default:
				t.Uses = slices.DeleteFunc(t.Uses, func(d schedule.DeliveryID) bool { return int(d) == i })
			}
			if len(t.Crew)+len(t.Machines)+len(t.Uses) == before {
				a.fail(a.c.Columns.Amount, "", "%s has no %s", t.Name, schedule.QuoteWord(name))
			}
		}
		if len(t.Crew) == 0 && t.Effort.Shared() {
			a.fail(a.c.Columns.Amount, "say who does it instead first", "nobody would be left to share the work of %s", t.Name)
		}
		a.otherHeads(&was, t)
	})
}

// rezone puts a task into other zones: those that it keeps first, in their order.
func (a *applying) rezone() {
	a.alter(func(t *schedule.Task) {
		zones := a.zones(a.c.New.Zones)
		if a.fault != nil {
			return
		}
		was := t.Zones
		slices.SortStableFunc(zones, func(x, y schedule.ZoneID) int { return cmp.Compare(place(was, x), place(was, y)) })
		if slices.Equal(was, zones) {
			a.fail(a.c.Columns.Amount, "leave it out", "%s is there already", t.Name)
		}
		orders := a.p.Stages[t.Stage] == "turf" && t.Closes.Orders == !a.p.OffSite(t)
		if t.Zones = zones; orders {
			t.Closes.Orders = !a.p.OffSite(t)
		}
		a.room(t)
	})
}

// place is where a zone stands in a list, behind all when it doesn't.
func place(list []schedule.ZoneID, z schedule.ZoneID) int {
	if i := slices.Index(list, z); i >= 0 {
		return i
	}
	return len(list)
}

// cure gives a task another cure of its own.
func (a *applying) cure() {
	_, i := a.find(task)
	if a.fault != nil {
		return
	}
	if a.p.Tasks[i].Cure == a.c.Length {
		a.fail(a.c.Columns.Amount, "leave it out", "%s cures so long already", a.p.Tasks[i].Name)
	}
	a.p.Tasks = slices.Clone(a.p.Tasks)
	a.p.Tasks[i].Cure = a.c.Length
}

// rename calls a task or a lorry otherwise; its id stays.
func (a *applying) rename() {
	what, i := a.find(task, delivery)
	name := strings.Join(strings.Fields(a.c.New.Name), " ")
	switch {
	case name == "":
		a.fail(a.c.Columns.Name, "say its new name", "a name of nothing")
	case strings.Contains(name, `"`):
		a.fail(a.c.Columns.Name, "leave the quotes out", "a name has no double quotes in it")
	}
	if a.fault != nil {
		return
	}
	if what == delivery {
		a.p.Deliveries = slices.Clone(a.p.Deliveries)
		a.p.Deliveries[i].What = name
		return
	}
	a.p.Tasks = slices.Clone(a.p.Tasks)
	a.p.Tasks[i].Name = name
}

// relinked is a link with what is said of it anew; the rest of it stays.
func relinked(l schedule.Link, how schedule.NewLink) schedule.Link {
	if how.Wait != (schedule.Wait{}) {
		l.Wait = how.Wait
	}
	if how.HasWithin {
		l.Within, l.HasWithin = how.Within, true
	}
	return l
}
