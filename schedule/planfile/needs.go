package planfile

import (
	"fmt"
	"strings"

	"gopkg.in/yaml.v3"

	"build.example/turflast/schedule"
)

// crewNeeds reads a mapping from crew to people: a count or, if ranges are
// allowed, "2..4".
func (r *reader) crewNeeds(n *yaml.Node, ranges bool, of label) []schedule.CrewNeed {
	var out []schedule.CrewNeed
	for _, p := range r.entries(n, maxList, of) {
		id, known := r.findText(r.crews, p[0].Value, posOf(p[0]), of)
		least, most, ok := r.headcount(p[1], ranges, label{"people of " + p[0].Value, of.of})
		if !known || !ok {
			continue
		}
		c := &r.plan.Crews[id]
		if have := crewMost(c); !r.crews.doubted[id] && least > have {
			r.fault(posOf(p[1]), "need fewer or raise the crew",
				"%s needs %d of crew %s, which has %d at most", of.of, least, c.ID, have)
		} else if !r.crews.doubted[id] && most > have {
			r.warn(posOf(p[1]), "the range may end there",
				"%s may take %d of crew %s, which has %d at most", of.of, most, c.ID, have)
		}
		out = append(out, schedule.CrewNeed{Crew: schedule.CrewID(id), Least: least, Most: most})
	}
	return out
}

// fixedCrew is the key crew of an item that takes no ranges.
func (r *reader) fixedCrew(it *item) []schedule.CrewNeed {
	return r.crewNeeds(it.get("crew"), false, it.of("crew"))
}

// headcount reads a count of people or a range of them.
func (r *reader) headcount(n *yaml.Node, ranges bool, of label) (least, most int, ok bool) {
	s, ok := r.plain(n, of)
	if !ok {
		return 0, 0, false
	}
	first, last, isRange := strings.Cut(s, "..")
	if !isRange {
		least, err := parseCount(s, 1)
		if err != nil {
			e := *textError(err)
			if ranges {
				e.Hint += ", or a range like 2..4"
			}
			r.textFault(posOf(n), of, &e)
		}
		return least, least, err == nil
	}
	if !ranges {
		r.fault(posOf(n), "write one number", "%s: %s is a range", of, quote(s))
		return 0, 0, false
	}
	least, err := parseCount(first, 1)
	if err == nil {
		most, err = parseCount(last, 1)
	}
	switch {
	case err != nil:
		e := textError(err)
		r.fault(posOf(n), "write a range like 2..4", "%s: %s in %s %s", of, quote(e.Text), quote(s), e.Problem)
	case most <= least:
		r.fault(posOf(n), "write the smaller number first, or one number", "%s: %s is no range", of, quote(s))
	}
	return least, most, err == nil && most > least
}

// machineNeeds reads a mapping from machine to count.
func (r *reader) machineNeeds(n *yaml.Node, of label) []schedule.MachineNeed {
	var out []schedule.MachineNeed
	for _, p := range r.entries(n, maxList, of) {
		id, known := r.findText(r.machines, p[0].Value, posOf(p[0]), of)
		count := r.count(p[1], 1, label{"count of " + p[0].Value, of.of})
		if !known || count < 0 {
			continue
		}
		m := &r.plan.Machines[id]
		if !r.machines.doubted[id] && count > m.Count {
			r.fault(posOf(p[1]), "need fewer or raise the count",
				"%s needs %d of machine %s, of which there are %d", of.of, count, m.ID, m.Count)
		}
		out = append(out, schedule.MachineNeed{Machine: schedule.MachineID(id), Count: count})
	}
	return out
}

// checkRoom reports a task that needs more room than one of its zones holds.
func (r *reader) checkRoom(t *schedule.Task, of string) {
	heads, places := 0, 0
	for _, c := range t.Crew {
		heads += c.Least
	}
	for _, m := range t.Machines {
		places += m.Count * r.plan.Machines[m.Machine].Places
	}
	for _, z := range t.Zones {
		zone := &r.plan.Zones[z]
		if zone.People > 0 && heads+places > zone.People {
			needs := fmt.Sprintf("%d people", heads)
			if places > 0 {
				needs += fmt.Sprintf(" and %d machine places", places)
			}
			r.fault(t.Pos, "need less or raise the people of the zone",
				"%s needs room for %s in zone %s, which holds %d", of, needs, zone.ID, zone.People)
		}
	}
}
