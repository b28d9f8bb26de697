package planfile

import (
	"fmt"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/planfile/keys"
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

// machineNeeds reads a mapping from machine to count, or to a count and where
// it stands.
func (r *reader) machineNeeds(n *yaml.Node, of label) []schedule.MachineNeed {
	var out []schedule.MachineNeed
	for _, p := range r.entries(n, maxList, of) {
		id, known := r.findText(r.machines, p[0].Value, posOf(p[0]), of)
		need, ok := r.machineNeed(p[1], label{p[0].Value, of.of})
		if !known || !ok {
			continue
		}
		m := &r.plan.Machines[id]
		if !r.machines.doubted[id] && need.Count > m.Count {
			r.fault(posOf(p[1]), "need fewer or raise the count",
				"%s needs %d of machine %s, of which there are %d", of.of, need.Count, m.ID, m.Count)
		}
		need.Machine = schedule.MachineID(id)
		out = append(out, need)
	}
	return out
}

// machineNeed reads a count, or {count: 1, stands: lawn}.
func (r *reader) machineNeed(n *yaml.Node, of label) (need schedule.MachineNeed, ok bool) {
	if n.Kind != yaml.MappingNode {
		need.Count = r.count(n, 1, label{"count of " + of.key, of.of})
		return need, need.Count >= 0
	}
	before := r.fatal
	it, _ := r.item(n, of.String(), keys.MachineNeed)
	it.required()
	need.Count = it.count("count", 1)
	need.Stands = r.readStands(it.get("stands"), it.of("stands"))
	return need, r.fatal == before
}

// readStands reads the zone, or the list of zones, in which a machine stands.
func (r *reader) readStands(n *yaml.Node, of label) []schedule.ZoneID {
	var out []schedule.ZoneID
	for _, z := range r.findZones(n, of) {
		if r.plan.Zones[z].OffSite && !r.zones.doubted[z] {
			r.fault(posOf(n), "name a zone of the plot", "%s names %s, which is off site", of, quote(r.zones.list[z]))
			continue
		}
		out = append(out, schedule.ZoneID(z))
	}
	return out
}

// checkStands reports a machine that stands elsewhere than a task off site.
func (r *reader) checkStands(it *item, t *schedule.Task) {
	if len(t.Zones) == 0 || !r.plan.OffSite(t) {
		return
	}
	for _, m := range t.Machines {
		if m.Stands != nil {
			r.fault(posOf(it.get("machines")), "leave stands out",
				"machine %s of %s stands on the plot, and the work is off site", r.plan.Machines[m.Machine].ID, it.name)
		}
	}
}

// checkRoom reports work that needs more room than a zone holds: people in the
// zones of the work, machines there or where they stand.
func (r *reader) checkRoom(at schedule.Pos, zones []schedule.ZoneID, crew []schedule.CrewNeed,
	machines []schedule.MachineNeed, of string) {
	heads := 0
	for _, c := range crew {
		heads += c.Least
	}
	for z := range r.plan.Zones {
		zone, here := &r.plan.Zones[z], slices.Contains(zones, schedule.ZoneID(z))
		people, places := 0, 0
		if here {
			people = heads
		}
		for _, m := range machines {
			if m.Stands == nil && here || slices.Contains(m.Stands, schedule.ZoneID(z)) {
				places += m.Count * r.plan.Machines[m.Machine].Places
			}
		}
		if zone.People > 0 && people+places > zone.People {
			r.fault(at, "need less or raise the people of the zone",
				"%s needs room for %s in zone %s, which holds %d", of, roomText(people, places), zone.ID, zone.People)
		}
	}
}

func roomText(people, places int) string {
	switch {
	case places == 0:
		return fmt.Sprintf("%d people", people)
	case people == 0:
		return fmt.Sprintf("%d machine places", places)
	}
	return fmt.Sprintf("%d people and %d machine places", people, places)
}
