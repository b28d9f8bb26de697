package oracle

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// link lists what holds acts back: links, what is used, rules and ways in.
func (m *model) link() {
	for i := range m.p.Tasks {
		t := &m.p.Tasks[i]
		m.linksTo(i, t.After)
		for _, d := range t.Uses {
			m.links = append(m.links, link{from: m.unloading(d), to: i, within: none})
		}
	}
	for i := range m.p.Deliveries {
		m.linksTo(m.unloading(schedule.DeliveryID(i)), m.p.Deliveries[i].After)
	}
	for i := range m.p.Rules {
		r := &m.p.Rules[i]
		if r.Kind != schedule.Before {
			continue
		}
		m.eachOfRule(schedule.RuleID(i), func(a, b int) {
			wait := m.p.Tasks[a].Cure
			if r.HasAfter {
				wait = r.After
			}
			m.follow(a, b, wait)
		})
	}
	for i := range m.p.Tasks {
		if m.p.Tasks[i].Closes.Orders {
			m.eachBehind(i, func(b int) { m.follow(b, i, m.p.Tasks[b].Cure) })
		}
	}
}

// follow makes the start of b wait for the finish of a.
func (m *model) follow(a, b int, wait calendars.Minutes) {
	m.links = append(m.links, link{from: a, to: b, wait: m.long(wait), within: none})
}

func (m *model) linksTo(to int, after []schedule.Link) {
	for _, l := range after {
		own := link{from: int(l.From), to: to, kind: l.Kind,
			lag: l.Wait.Kind == schedule.Lag, wait: m.long(l.Wait.Time), within: none}
		if l.Wait.Kind == schedule.OwnCure && l.Kind.FromFinish() {
			own.wait = m.long(m.p.Tasks[l.From].Cure)
		}
		if l.HasWithin {
			own.within = m.long(l.Within)
		}
		m.links = append(m.links, own)
	}
}

func (m *model) excused(task int, rule schedule.RuleID) bool {
	for _, e := range m.p.Tasks[task].Excepts {
		if e.Rule == rule {
			return true
		}
	}
	return false
}

// eachOfRule calls f with every two tasks that a rule speaks of.
func (m *model) eachOfRule(id schedule.RuleID, f func(a, b int)) {
	r := &m.p.Rules[id]
	for a := range m.p.Tasks {
		for b := range m.p.Tasks {
			if a == b || !slices.Contains(r.First, m.p.Tasks[a].Stage) || !slices.Contains(r.Then, m.p.Tasks[b].Stage) {
				continue
			}
			if m.excused(a, id) || m.excused(b, id) || !r.Everywhere && !share(m.p.Tasks[a].Zones, m.p.Tasks[b].Zones) {
				continue
			}
			f(a, b)
		}
	}
}

func share(a, b []schedule.ZoneID) bool {
	for _, z := range a {
		if slices.Contains(b, z) {
			return true
		}
	}
	return false
}

// crossed says whether people cross a zone on their way into z.
func (m *model) crossed(z, through schedule.ZoneID, seen []schedule.ZoneID) bool {
	if slices.Contains(seen, z) {
		return false
	}
	for _, w := range m.p.Zones[z].WayIn {
		if w == through || m.crossed(w, through, append(seen, z)) {
			return true
		}
	}
	return false
}

// eachBehind calls f with every task that may not be behind a closed way in.
func (m *model) eachBehind(closer int, f func(other int)) {
	if m.excused(closer, schedule.WayIn) {
		return
	}
	for i := range m.p.Tasks {
		t := &m.p.Tasks[i]
		stage := m.p.Stages[t.Stage]
		if i == closer || t.OnBoards || stage == "clean" || stage == "strike" || m.excused(i, schedule.WayIn) {
			continue
		}
		if m.behind(t, &m.p.Tasks[closer]) {
			f(i)
		}
	}
}

// behind says whether a task works in a zone reached through one of the closer's.
func (m *model) behind(t, closer *schedule.Task) bool {
	for _, z := range t.Zones {
		for _, through := range closer.Zones {
			if z != through && m.crossed(z, through, nil) {
				return true
			}
		}
	}
	return false
}

// stand says whether a machine stands in one of some zones by its own word.
func stand(machines []schedule.MachineNeed, zones []schedule.ZoneID) bool {
	for _, m := range machines {
		if share(m.Stands, zones) {
			return true
		}
	}
	return false
}

// pair lists who keeps clear of whom.
func (m *model) pair() {
	for i := range m.p.Tasks {
		t := &m.p.Tasks[i]
		for _, other := range t.Apart {
			m.pairs = append(m.pairs, pair{a: i, b: int(other), kind: spans})
		}
		for j := range m.p.Tasks {
			if i != j && (share(t.Clears, m.p.Tasks[j].Zones) || stand(m.p.Tasks[j].Machines, t.Clears)) {
				m.pairs = append(m.pairs, pair{a: i, b: j, kind: worked})
			}
		}
		for d := range m.p.Deliveries {
			if stand(m.p.Deliveries[d].Unload.Machines, t.Clears) {
				m.pairs = append(m.pairs, pair{a: i, b: m.unloading(schedule.DeliveryID(d)), kind: worked})
			}
		}
		if t.Closes.Timed {
			m.eachBehind(i, func(j int) {
				m.pairs = append(m.pairs, pair{a: i, b: j, kind: closes, long: m.long(t.Closes.For)})
			})
		}
	}
	for i := range m.p.Rules {
		if m.p.Rules[i].Kind == schedule.Apart {
			m.eachOfRule(schedule.RuleID(i), func(a, b int) { m.pairs = append(m.pairs, pair{a: a, b: b, kind: spans}) })
		}
	}
}
