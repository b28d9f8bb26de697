package whatif

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Take returns a copy of a plan with some of its measures taken, given by their index.
// The error is that of [Apply].
func Take(p *schedule.Plan, taken []int) (*schedule.Plan, error) {
	q := *p
	q.Tasks, q.Machines = slices.Clone(p.Tasks), slices.Clone(p.Machines)
	var changes, drops []schedule.Change
	for _, k := range taken {
		m := &p.Measures[k]
		switch {
		case m.Machine != nil:
			addSlot(&q.Machines[m.Machine.Machine], m.Machine.Span)
		case m.Overlap != nil:
			overlap(&q, m.Overlap)
		case m.Drop != schedule.None:
			drops = append(drops, schedule.Change{Kind: schedule.ChangeDrop, Name: p.Tasks[m.Drop].ID})
		default:
			changes = append(changes, asChanges(p, m)...)
		}
	}
	// A dropped task renumbers those behind it, so drops come last.
	return Apply(&q, append(changes, drops...))
}

// asChanges returns a measure as changes.
func asChanges(p *schedule.Plan, m *schedule.Measure) []schedule.Change {
	switch {
	case m.Longer != nil:
		return []schedule.Change{{
			Kind: schedule.ChangeOpen, Name: "site", Dates: []calendars.Date{m.Longer.On},
			From: schedule.Unsaid, To: m.Longer.To,
		}}
	case m.Earlier != nil:
		return []schedule.Change{{Kind: schedule.ChangeShift,
			Name: p.Deliveries[m.Earlier.Delivery].ID, Length: -m.Earlier.By}}
	}
	var out []schedule.Change
	for _, need := range m.People.Crew {
		out = append(out, schedule.Change{
			Kind: schedule.ChangeHeads,
			Name: p.Crews[need.Crew].ID, Heads: need.Least, Dates: m.People.On,
		})
	}
	return out
}

// addSlot adds a slot to a machine, joined with those that it meets; a machine without
// slots is there at any time.
func addSlot(m *schedule.Machine, s calendars.Span) {
	if len(m.Ours) == 0 {
		return
	}
	all := append(slices.Clone(m.Ours), s)
	slices.SortFunc(all, func(a, b calendars.Span) int { return cmp.Compare(a.Start, b.Start) })
	m.Ours = all[:1]
	for _, next := range all[1:] {
		if last := &m.Ours[len(m.Ours)-1]; next.Start <= last.End {
			last.End = max(last.End, next.End)
		} else {
			m.Ours = append(m.Ours, next)
		}
	}
}

// overlap turns every finish-start link from the first task to the second into
// a lead.
func overlap(p *schedule.Plan, o *schedule.Overlap) {
	t := &p.Tasks[o.Second]
	t.After = slices.Clone(t.After)
	for i := range t.After {
		if l := &t.After[i]; l.From == o.First && l.Kind == schedule.FinishStart {
			l.Wait = schedule.Wait{Kind: schedule.Lag, Time: -o.By}
		}
	}
}
