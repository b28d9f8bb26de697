package planfile

import (
	"slices"

	"gopkg.in/yaml.v3"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/planfile/keys"
)

func (r *reader) readMachines(values []*yaml.Node) {
	r.plan.Machines = make([]schedule.Machine, len(values))
	for i, n := range values {
		m := &r.plan.Machines[i]
		m.ID, m.Name, m.Pos = r.machines.list[i], r.machines.list[i], r.machines.at[i]
		it, ok := r.item(n, "machine "+m.ID, keys.Machine)
		if !ok {
			r.machines.doubt(i)
			continue
		}
		if it.has("name") {
			m.Name = it.words("name", maxName)
		}
		it.required()
		if m.Count = it.count("count", 1); m.Count < 0 {
			r.machines.doubt(i)
		}
		if it.has("places") {
			m.Places = max(it.count("places", 0), 0)
		}
		if it.has("rate") {
			m.Rate = max(it.money("rate"), 0)
		}
		if m.Hire = r.readHire(&it); m.Hire != nil {
			it.refuse("keep one of rate and hire", "rate")
		}
		m.Notice = r.readNotice(&it)
		r.readOurs(&it, m)
	}
}

// readHire reads what a machine costs by whole days or weeks. The least hire is
// one of them where the plan doesn't say.
func (r *reader) readHire(owner *item) *schedule.Hire {
	it, ok := r.item(owner.get("hire"), "hire of "+owner.name, keys.Hire)
	if !ok {
		return nil
	}
	it.required()
	h := &schedule.Hire{Rate: max(it.money("rate"), 0)}
	if it.has("bringing") {
		h.Bringing = max(it.money("bringing"), 0)
	}
	per, ok := r.plain(it.get("per"), it.of("per"))
	switch {
	case !ok:
		return h
	case per == "day":
		h.Per = calendars.Day
	case per == "week":
		h.Per = calendars.Week
	default:
		r.fault(posOf(it.get("per")), "write day or week", "%s: %s is neither day nor week", it.of("per"), quote(per))
		return h
	}
	h.Least = h.Per
	if least, ok := it.wait("least"); ok {
		h.Least = least
		if least == 0 || least%h.Per != 0 {
			r.fault(posOf(it.get("least")), "give one "+per+" or more, like 2"+per[:1],
				"%s: %q is not a whole number of %ss", it.of("least"), it.get("least").Value, per)
		}
	}
	return h
}

func (r *reader) readOurs(it *item, m *schedule.Machine) {
	type slot struct {
		calendars.Span
		n *yaml.Node
	}
	var slots []slot
	for _, entry := range r.filled(it.get("ours"),
		"give the slots, or leave the key out if it is there in all hours", it.of("ours")) {
		if span, ok := r.span(entry, it.of("ours")); ok {
			slots = append(slots, slot{span, entry})
		}
	}
	slices.SortStableFunc(slots, func(a, b slot) int { return int(a.Start) - int(b.Start) })
	for i, s := range slots {
		if i > 0 && s.Start < slots[i-1].End {
			r.fault(posOf(s.n), "slots must not overlap", "%s: %q starts before %q ends",
				it.of("ours"), s.n.Value, slots[i-1].n.Value)
		}
		m.Ours = append(m.Ours, s.Span)
		r.said(s.Span, s.n, it.of("ours"))
	}
}
